#include "core/pipeline/csv_outputs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>
#include <vector>

#include "core/pipeline/csv_cells.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kQuantitiesPrefix = "quantities.";
constexpr const char* kCentreOfGravity = "quantities.centre_of_gravity";
constexpr std::string_view kCuttingList = "quantities.cutting_list";
constexpr std::string_view kErectionTime = "quantities.erection_time";
constexpr std::string_view kDeliveries = "quantities.deliveries";
constexpr std::string_view kPanelsByLoad = "Panels by load";

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

}  // namespace panel_dossier
