// Who must be named in a handover, and what a country expects to find in it: tables of the program and of the practice.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/pipeline/guidance/guidance_table.h"

namespace panel_dossier {

/// A role that a reader looks for.
struct NeededParty {
  std::string role;               ///< in lower case
  std::vector<std::string> also;  ///< further words for it, in lower case
  std::string why;                ///< what a reader asks of it
  bool is_needed = false;         ///< blank it is an open point
  std::string who;                ///< can name it
  bool is_left_out = false;       ///< the practice's table says that nobody looks for it
};

/// What a country expects, and where the dossier has it.
struct DutyRow {
  std::string id;
  std::vector<std::string> jurisdictions;  ///< in lower case
  std::string expectation;
  std::string regulation;
  GuidanceCondition applies;  ///< of the project
  std::string part;           ///< word of the part that meets it: `safety_file`
  GuidanceCondition when;     ///< it is met; of the project
  std::string unmet;          ///< what is missing where it is not
  std::string who;            ///< can supply that
  std::string source;
  bool is_left_out = false;  ///< the practice's table takes it away; the dossier says so
};

struct GuidanceTables {
  std::vector<GuidanceRow> rows;
  std::vector<NeededParty> parties;
  std::vector<DutyRow> duties;
};

/// Parts of the dossier as the column `part` of duties names them.
const std::vector<std::string>& part_words();

/// The bytes of `parties.csv` and of a `duties-*.csv`; throw GuidanceFault. A role whose `need` is `none` and a duty
/// whose `expectation` is `none` need no other cell, and take away the one of that role or id.
std::vector<NeededParty> parse_parties(std::string_view bytes, const std::string& file);
std::vector<DutyRow> parse_duties(std::string_view bytes, const std::string& file);

/// Every table of the folder: `parties.csv`, `duties-*.csv`, all other `.csv` as guidance. Throws as the readers do,
/// and where an id stands in two tables.
GuidanceTables read_guidance_folder(const std::filesystem::path& folder);

/// Puts the practice's tables over the program's: rows and duties of one id and parties of one role in place of them.
/// Duties and roles that the practice takes away stay, marked as left out.
void put_over(GuidanceTables& tables, GuidanceTables own);

}  // namespace panel_dossier
