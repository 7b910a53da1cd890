#include "core/pipeline/csv_outputs.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string_view>
#include <utility>
#include <vector>

namespace panel_dossier {

namespace {

constexpr std::string_view kQuantitiesPrefix = "quantities.";
constexpr const char* kCentreOfGravity = "quantities.centre_of_gravity";
constexpr std::string_view kCuttingList = "quantities.cutting_list";
constexpr std::string_view kErectionTime = "quantities.erection_time";
constexpr std::string_view kDeliveries = "quantities.deliveries";
constexpr std::string_view kPanelsByLoad = "Panels by load";
constexpr std::string_view kWholeLife = "carbon.whole_life";
constexpr std::string_view kCoreIndicators = "carbon.core_indicators";
constexpr const char* kByModule = "By module";
constexpr const char* kWholeSums = "Core indicators, without A4, A5 and B";

std::string number_cell(double value) {
  if (!std::isfinite(value)) return {};
  std::array<char, 32> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), end};
}

bool starts_a_formula(std::string_view text) {
  return !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
}

std::string text_cell(std::string_view text) {
  std::string cell = starts_a_formula(text) ? "'" : "";
  cell += text;
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string value_cell(const Value& value) {
  if (const double* number = std::get_if<double>(&value)) return number_cell(*number);
  if (const std::string* text = std::get_if<std::string>(&value)) return text_cell(*text);
  return {};
}

void replace_all(std::string& text, std::string_view old, std::string_view with) {
  for (auto at = text.find(old); at != std::string::npos; at = text.find(old, at + with.size())) {
    text.replace(at, old.size(), with);
  }
}

/// One word in ASCII, as programs like column names: `area_m2`.
std::string heading(std::string name, const std::string& unit) {
  if (!unit.empty()) name += '_' + unit;
  replace_all(name, " ", "_");
  replace_all(name, "²", "2");
  replace_all(name, "³", "3");
  return text_cell(name);
}

/// `cells` are already quoted.
void add_row(std::string& csv, const std::vector<std::string>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i != 0) csv += ',';
    csv += cells[i];
  }
  csv += "\r\n";
}

using CheckAndUnit = std::pair<std::string, std::string>;

/// The numeric quantities checks of all panels, in alphabetical order.
std::vector<CheckAndUnit> quantity_columns(const Results& results) {
  std::vector<CheckAndUnit> columns;
  for (const auto& findings : results.panel_findings) {
    for (const Finding& finding : findings) {
      if (!finding.check.starts_with(kQuantitiesPrefix) || !std::holds_alternative<double>(finding.value)) continue;
      CheckAndUnit column{finding.check, finding.unit};
      const auto place = std::lower_bound(columns.begin(), columns.end(), column);
      if (place == columns.end() || *place != column) columns.insert(place, std::move(column));
    }
  }
  return columns;
}

std::string finding_cell(const std::vector<Finding>& findings, const CheckAndUnit& column) {
  const auto found = std::find_if(findings.begin(), findings.end(), [&column](const Finding& finding) {
    return finding.check == column.first && finding.unit == column.second &&
           std::holds_alternative<double>(finding.value);
  });
  return found == findings.end() ? std::string() : value_cell(found->value);
}

/// Steps of findings that site and workshop ask for beside the values.
struct StepColumn {
  const char* heading;
  const char* check;
  const char* symbol;
  int decimals;
};

constexpr std::array<StepColumn, 5> kStepColumns{{{"gross_area_m2", "quantities.area", "A_gross", 6},
                                                  {"openings_m2", "quantities.area", "A_op", 6},
                                                  {"centre_from_left_edge_m", kCentreOfGravity, "x_G", 3},
                                                  {"centre_from_inner_face_m", kCentreOfGravity, "y_G", 3},
                                                  {"centre_from_foot_m", kCentreOfGravity, "z_G", 3}}};

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale;
}

std::string step_cell(const std::vector<Finding>& findings, const StepColumn& column) {
  for (const Finding& finding : findings) {
    if (finding.check != column.check) continue;
    for (const Step& step : finding.steps) {
      const double* value = std::get_if<double>(&step.value);
      if (step.symbol == column.symbol && value != nullptr) return number_cell(rounded(*value, column.decimals));
    }
  }
  return {};
}

/// To whole micrometres: the rest is rounding of the export's units.
std::string length_cell(const Sourced<double>& length_m) {
  return number_cell(rounded(length_m.value, 6));
}

std::string storey_name(const Project& project, const Panel& panel) {
  return panel.storey ? project.storeys[*panel.storey].name : std::string();
}

std::vector<const Finding*> cutting_lists(const Results& results, std::size_t panel) {
  std::vector<const Finding*> lists;
  for (const Finding& finding : results.panel_findings[panel]) {
    if (finding.check == kCuttingList && !finding.tables.empty()) lists.push_back(&finding);
  }
  return lists;
}

/// The step of that name in a panel's finding of the erection time; empty when there is none.
std::string erection_step_cell(const std::vector<Finding>& findings, std::string_view name) {
  for (const Finding& finding : findings) {
    if (finding.check != kErectionTime) continue;
    const auto found = std::find_if(finding.steps.begin(), finding.steps.end(),
                                    [name](const Step& step) { return step.name == name; });
    if (found != finding.steps.end()) return value_cell(found->value);
  }
  return {};
}

/// The headings of the first list; every panel's list comes from the same check and so has the same columns.
std::vector<std::string> cutting_headings(const Project& project, const Results& results) {
  std::vector<std::string> cells{"mark", "type", "storey", "batch", "erection_order"};
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    for (const Finding* list : cutting_lists(results, i)) {
      for (const Column& column : list->tables.front().columns) cells.push_back(heading(column.name, column.unit));
      return cells;
    }
  }
  return cells;
}

/// The list of the deliveries, or null where they were not assessed.
const Table* panels_by_load(const std::vector<Finding>& findings) {
  for (const Finding& finding : findings) {
    if (finding.check != kDeliveries) continue;
    for (const Table& table : finding.tables) {
      if (table.title == kPanelsByLoad) return &table;
    }
  }
  return nullptr;
}

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

std::string quantities_csv(const Project& project, const Results& results) {
  const std::vector<CheckAndUnit> columns = quantity_columns(results);
  std::string csv;
  std::vector<std::string> cells{"global_id", "mark", "type", "storey", "width_m", "height_m", "thickness_m"};
  for (const auto& [check, unit] : columns) cells.push_back(heading(check.substr(kQuantitiesPrefix.size()), unit));
  for (const StepColumn& column : kStepColumns) cells.emplace_back(column.heading);
  add_row(csv, cells);
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const Panel& panel = project.panels[i];
    const std::vector<Finding>& findings = results.panel_findings[i];
    cells = {text_cell(panel.global_id),    text_cell(panel.mark),
             text_cell(panel.type),         text_cell(storey_name(project, panel)),
             length_cell(panel.width_m),    length_cell(panel.height_m),
             length_cell(panel.thickness_m)};
    for (const CheckAndUnit& column : columns) cells.push_back(finding_cell(findings, column));
    for (const StepColumn& column : kStepColumns) cells.push_back(step_cell(findings, column));
    add_row(csv, cells);
  }
  cells = {"TOTAL", "", "", "", "", "", ""};
  for (const CheckAndUnit& column : columns) cells.push_back(finding_cell(results.project_findings, column));
  cells.resize(cells.size() + kStepColumns.size());
  add_row(csv, cells);
  return csv;
}

std::string cutting_csv(const Project& project, const Results& results) {
  std::string csv;
  add_row(csv, cutting_headings(project, results));
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const Panel& panel = project.panels[i];
    for (const Finding* list : cutting_lists(results, i)) {
      for (const std::vector<Value>& row : list->tables.front().rows) {
        std::vector<std::string> cells{text_cell(panel.mark), text_cell(panel.type),
                                       text_cell(storey_name(project, panel)),
                                       erection_step_cell(results.panel_findings[i], "batch"),
                                       erection_step_cell(results.panel_findings[i], "erection order")};
        for (const Value& value : row) cells.push_back(value_cell(value));
        add_row(csv, cells);
      }
    }
  }
  return csv;
}

std::string deliveries_csv(const Results& results) {
  const Table* table = panels_by_load(results.project_findings);
  if (table == nullptr) return {};
  std::string csv;
  std::vector<std::string> cells;
  for (const Column& column : table->columns) cells.push_back(heading(column.name, column.unit));
  add_row(csv, cells);
  for (const std::vector<Value>& row : table->rows) {
    cells.clear();
    for (const Value& value : row) cells.push_back(value_cell(value));
    add_row(csv, cells);
  }
  return csv;
}

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
