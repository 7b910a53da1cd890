#include <stdexcept>
#include <string>
#include <vector>

#include "core/intake/tables/input_table.h"
#include "tests/fuzz/targets.h"
#include "tests/support/workbook_bytes.h"

namespace panel_dossier::fuzz {

namespace {

/// `content` as the first part of a workbook, which is that of a sheet.
std::string workbook_of(std::string_view content) {
  testing::WorkbookBytes workbook;
  workbook.sheets = {{"parts", {}}};
  auto parts = workbook.parts();
  parts.front().second = std::string(content);
  return testing::zip_bytes(parts);
}

void read_as(std::string_view bytes, const std::string& name, const std::string& sheet) {
  Diagnostics diagnostics;
  const auto table = read_input_table(bytes, name, sheet, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics) to_string(diagnostic);
  if (table.has_value() == has_errors(diagnostics)) {
    throw std::logic_error("a table is read or refused, never both and never neither");
  }
  if (!table) return;
  for (const TableRow& row : table->rows) {
    if (row.cells.size() != table->columns.size()) throw std::logic_error("a row has a cell for each column");
  }
}

void read_workbook(std::string_view bytes) {
  Diagnostics diagnostics;
  const std::vector<std::string> sheets = sheets_of(bytes, "table.xlsx", diagnostics);
  for (const std::string& sheet : sheets) read_as(bytes, "table.xlsx", sheet);
}

}  // namespace

void read_table(std::string_view bytes) {
  if (bytes.starts_with("PK")) return read_workbook(bytes);
  if (bytes.starts_with("<")) return read_workbook(workbook_of(bytes));
  read_as(bytes, "table.csv", {});
}

}  // namespace panel_dossier::fuzz
