#include <string_view>
#include <vector>

#include "core/pipeline/csv_cells.h"
#include "core/pipeline/csv_outputs.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kWholeLife = "carbon.whole_life";
constexpr std::string_view kCoreIndicators = "carbon.core_indicators";
constexpr const char* kByModule = "By module";
constexpr const char* kWholeSums = "Core indicators, without A4, A5 and B";

/// The table of that title of the check's finding, or of the project's, which adds `, all panels`; null without one.
const Table* table_of(const std::vector<Finding>& findings, std::string_view check, const std::string& title) {
  for (const Finding& finding : findings) {
    if (finding.check != check) continue;
    for (const Table& table : finding.tables) {
      if (table.title == title || table.title == title + ", all panels") return &table;
    }
  }
  return nullptr;
}

/// `A1–A3` -> `A1-A3`.
std::string module_cell(std::string name) {
  replace_all(name, "–", "-");
  return text_cell(name);
}

/// Each number of a table whose rows are modules and whose columns are indicators, one a line.
void add_rows_of_modules(std::string& csv, const std::string& mark, const std::string& type, const Table& table) {
  for (const std::vector<Value>& row : table.rows) {
    const std::string* module = std::get_if<std::string>(&row.front());
    for (std::size_t i = 1; i < row.size(); ++i) {
      add_row(csv, {text_cell(mark), text_cell(type), module_cell(module == nullptr ? std::string() : *module),
                    text_cell(table.columns[i].name), value_cell(row[i]), text_cell(table.columns[i].unit)});
    }
  }
}

/// Each number of a table whose rows are indicators with their units and whose columns are modules, one a line. A
/// column with a unit is for each m², and an empty cell a module that is not known whole.
void add_rows_of_indicators(std::string& csv, const std::string& mark, const std::string& type, const Table& table) {
  constexpr std::size_t kFirstModule = 2;
  for (const std::vector<Value>& row : table.rows) {
    for (std::size_t i = kFirstModule; i < row.size(); ++i) {
      if (!table.columns[i].unit.empty() || !std::holds_alternative<double>(row[i])) continue;
      add_row(csv, {text_cell(mark), text_cell(type), module_cell(table.columns[i].name), value_cell(row[0]),
                    value_cell(row[i]), value_cell(row[1])});
    }
  }
}

void add_carbon_rows(std::string& csv, const std::string& mark, const std::string& type,
                     const std::vector<Finding>& findings) {
  const Table* modules = table_of(findings, kWholeLife, kByModule);
  if (modules != nullptr) add_rows_of_modules(csv, mark, type, *modules);
  const Table* indicators = table_of(findings, kCoreIndicators, kWholeSums);
  if (indicators != nullptr) add_rows_of_indicators(csv, mark, type, *indicators);
}

}  // namespace

std::string carbon_csv(const Project& project, const Results& results) {
  std::string csv;
  add_row(csv, {"panel", "type", "module", "indicator", "value", "unit"});
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    add_carbon_rows(csv, project.panels[i].mark, project.panels[i].type, results.panel_findings[i]);
  }
  add_carbon_rows(csv, "TOTAL", "", results.project_findings);
  return csv;
}

}  // namespace panel_dossier
