// A table that a plugin writes beside the dossier, as its outputs.json declares it.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/api/plugin.h"

namespace panel_dossier {

struct OutputColumn {
  std::string name;  ///< one word in ASCII that ends in the unit: `mass_kg`
  std::string unit;  ///< empty for text, counts and ratios; else the column holds numbers only
  std::string meaning;
  bool for_workshop = false;  ///< costs, rates, crews: for the practice's own people alone
};

struct OutputDeclaration {
  std::string file;         ///< `cutting.csv`
  std::string title;        ///< what it is, for the list of outputs
  std::string description;  ///< what a row is, in what order, and when there is none
  std::vector<OutputColumn> columns;
  bool for_workshop = false;  ///< the whole table is for the practice's own people
};

/// An output with the rows that a run gave.
struct OutputTable {
  OutputDeclaration declaration;
  std::vector<OutputRow> rows;
};

/// The outputs that `file` (outputs.json) declares. Throws std::runtime_error saying what is wrong: not JSON, a member
/// that is absent or of another type, a file name that is not lower-case letters, digits, `_` or `-` before `.csv`, a
/// name given twice, no columns.
std::vector<OutputDeclaration> read_outputs(const std::filesystem::path& file);

/// What breaks the declaration in the rows: a row of another length, a column with a unit that holds text; else empty.
std::string output_breach(const OutputTable& table);

/// RFC 4180 CSV in UTF-8 with a header line and CRLF line ends; numbers in their shortest exact form with a decimal
/// point. A text cell that begins with `=`, `+`, `-`, `@`, a tab or a carriage return gets a leading apostrophe, so
/// that a spreadsheet shows it instead of computing it.
std::string csv_of(const OutputTable& table);

/// The page schemas/outputs.md of all declarations, under the names of their disciplines.
std::string outputs_page(const std::vector<std::pair<std::string, OutputDeclaration>>& outputs);

}  // namespace panel_dossier
