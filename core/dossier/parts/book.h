// What every section of the dossier works with.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/dossier/dossier.h"
#include "core/dossier/guidance/guidance.h"
#include "core/dossier/layout/flow.h"
#include "core/dossier/layout/table.h"
#include "core/dossier/parts/annex/annex_index.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

/// The numbered parts, in their order in the dossier.
enum class DossierPart {
  introduction = 1,
  outcome,
  building,
  types,
  panels,
  maintenance,
  safety_file,
  fire_information,
  evidence,
  open_points,
  changes,
  verification,
  annex
};

inline constexpr std::array<DossierPart, 13> kParts{
    DossierPart::introduction, DossierPart::outcome,     DossierPart::building,    DossierPart::types,
    DossierPart::panels,       DossierPart::maintenance, DossierPart::safety_file, DossierPart::fire_information,
    DossierPart::evidence,     DossierPart::open_points, DossierPart::changes,     DossierPart::verification,
    DossierPart::annex};

/// Title of a part, without its number.
std::string_view part_title(DossierPart part);
/// `4  Panel types`; the annex has no number.
std::string numbered_title(DossierPart part);

std::string part_anchor(DossierPart part);
std::string check_anchor(std::string_view check);
std::string discipline_anchor(std::string_view discipline);
std::string panel_anchor(std::string_view global_id);
std::string type_anchor(std::string_view type);
/// Of the build-up of that number in the part on operation and maintenance.
std::string build_up_anchor(std::size_t build_up);
inline constexpr const char* kPartiesAnchor = "parties";
inline constexpr const char* kFixingAnchor = "upkeep-fixing";
inline constexpr const char* kRecurringAnchor = "upkeep-recurring";

/// The part of a check id before the dot.
std::string_view discipline_of(std::string_view check);

using VerdictCounts = std::array<std::size_t, 5>;

/// Whether what the check finds without judging stands in workshop.pdf and not in the dossier.
bool is_for_workshop(const BuildSummary& build, std::string_view check);

/// Adds the verdicts of the findings to the counts, indexed by Verdict.
void count_verdicts(const std::vector<RecordedFinding>& findings, VerdictCounts& counts);
/// The counts that are not zero, most urgent first.
std::vector<VerdictCount> listed(const VerdictCounts& counts);
/// The most urgent verdict; `not assessed` for no findings at all.
Verdict worst_verdict(const std::vector<RecordedFinding>& findings);

/// The dossier being written; refers to the caller's document and content.
struct Book {
  PdfDocument& pdf;
  Flow& flow;
  const DossierContent& content;
  std::vector<std::string> silent;  ///< ids of the disciplines without a result: a line each, no tables
  const AnnexIndex& annex;
  const std::vector<DossierVolume>& volumes;  ///< written so far
  bool for_workshop = false;                  ///< workshop.pdf, not the dossier

  const Project& project() const { return content.project; }
  const ResultsDocument& results() const { return content.results; }
  /// What was worked out for parts 1 and 6 to 8; an empty one where nothing was.
  const Guidance& guidance() const;
  const PluginSummary* plugin(std::string_view id) const;
  /// What people call the property of that full name; the name itself where no list of properties has it.
  std::string title_of_property(std::string_view full_name) const;
  /// The title of the check or property of that name; null where there is none.
  const std::string* title_of(const std::string& word) const;
  /// The text with titles in place of the names of properties and checks within it, in quotation marks.
  std::string with_titles(const std::string& text) const;
  /// Whether the check is one of a discipline without a result.
  bool is_silent(std::string_view check) const;
  /// The discipline's name and that it has no result, for the place of its tables.
  static std::string silence_of(const PluginSummary& plugin);
  /// The cautions of all disciplines, each led by its title; empty when none has one.
  std::string joined_cautions() const;
  /// What the foot of every page says of them; empty when no discipline has a caution.
  std::string caution_line() const;

  /// Starts a part on a new page: furniture, title, anchor, bookmark. Returns the bookmark.
  std::size_t begin_part(DossierPart part, const std::string& caution = {});
};

/// Value, limit and utilisation of a finding as table cells.
Cell value_cell(const RecordedFinding& finding);
Cell limit_cell(const RecordedFinding& finding);
Cell utilisation_cell(const RecordedFinding& finding);

/// All names as texts of at most `size` names each, for rows of a table that have to fit a page.
std::vector<std::string> in_groups(const std::vector<std::string>& names, std::size_t size);

}  // namespace panel_dossier
