// What parts 1, 6, 7 and 8 of the dossier say, worked out once: people, status, sentences, calendar, duties, and what
// of it is open.
#pragma once

#include <string>
#include <vector>

#include "core/dossier/guidance/advice.h"
#include "core/dossier/guidance/calendar.h"
#include "core/dossier/guidance/duty_lines.h"
#include "core/dossier/guidance/duty_tables.h"
#include "core/dossier/guidance/subjects.h"
#include "core/trace/open_points.h"

namespace panel_dossier {

/// A role and who has it; nobody where it is blank.
struct PartyLine {
  std::string role;
  std::string why;  ///< what a reader asks of it; empty for a role that no table lists
  bool is_needed = false;
  std::vector<Party> parties;
};

struct ApprovalLine {
  std::string role;
  std::string by;  ///< name and organisation
  std::string decision;
  std::string day;
  std::string revision;
  std::string why_not = {};  ///< it does not count for this revision and build; empty where it counts

  bool counts() const { return why_not.empty(); }
};

/// The status of this information, as the settings give it; texts are empty where they do not.
struct InformationStatus {
  std::string identifier;  ///< fields of ISO 19650-2 with hyphens between; empty unless all are given
  std::string revision;
  std::string status_code;
  std::string purpose;
  std::vector<ApprovalLine> approvals;
};

struct Guidance {
  std::vector<GuidanceRow> rows;
  Subjects subjects;
  std::vector<Advice> advice;
  Calendar calendar;
  std::vector<PartyLine> parties;
  InformationStatus information;
  std::string jurisdiction;                 ///< of the settings; empty where they give none
  std::vector<DutyLine> duties;             ///< of that jurisdiction; empty where no table has it
  std::vector<std::string> roles_left_out;  ///< that the practice's table does not look for
  /// Verdict `not assessed`, check `handover.PART`; one a cause.
  std::vector<OpenPoint> open_points;

  /// The advice of a topic, in the order of the rows.
  std::vector<const Advice*> of_topic(std::string_view topic) const;
  /// The sentences of a topic on one subject, in the order of the rows.
  std::vector<std::string> texts_on(std::size_t subject, std::string_view topic) const;
};

/// Name, organisation and contact, as far as they are given.
std::string party_in_words(const Party& party);

/// The project and the settings must outlive it.
Guidance make_guidance(const Project& project, const Settings& settings, const ResultsDocument& results,
                       const GuidanceTables& tables);

}  // namespace panel_dossier
