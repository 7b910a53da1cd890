// Cells and rows of the CSV outputs: RFC 4180, and safe to open in a spreadsheet.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"

namespace panel_dossier {

/// The shortest decimal that reads back as the same number; empty when it is not finite.
std::string number_cell(double value);
/// Quoted where it must be; with an apostrophe before what a spreadsheet would take for a formula.
std::string text_cell(std::string_view text);
/// Empty for an empty value.
std::string value_cell(const Value& value);

/// Each `old` in `text` becomes `with`.
void replace_all(std::string& text, std::string_view old, std::string_view with);

/// `cells` are already quoted.
void add_row(std::string& csv, const std::vector<std::string>& cells);

}  // namespace panel_dossier
