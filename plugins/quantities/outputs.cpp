#include "plugins/quantities/outputs.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "plugins/quantities/checks.h"
#include "plugins/quantities/delivery/deliveries.h"
#include "plugins/quantities/records/batches.h"

namespace panel_dossier::quantities {

namespace {

constexpr std::string_view kQuantities = "quantities.csv";
constexpr std::string_view kCutting = "cutting.csv";
constexpr std::string_view kDeliveries = "deliveries.csv";
constexpr std::string_view kBatches = "batches.csv";

constexpr int kMillimetre = 3;
constexpr int kMillionth = 6;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale;
}

const Finding* find_check(const std::vector<Finding>& findings, const CheckDeclaration& check) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&check](const Finding& finding) { return finding.check == check.id; });
  return found == findings.end() ? nullptr : &*found;
}

/// The finding's number; empty where it has none.
Value number_cell(const std::vector<Finding>& findings, const CheckDeclaration& check) {
  const Finding* finding = find_check(findings, check);
  if (finding == nullptr || !std::holds_alternative<double>(finding->value)) return {};
  return finding->value;
}

Value unit_cell(const std::vector<Finding>& findings, const CheckDeclaration& check) {
  const Finding* finding = find_check(findings, check);
  if (finding == nullptr || !std::holds_alternative<double>(finding->value)) return {};
  return finding->unit;
}

/// A named value of a finding that may lack it.
Value named_cell(const std::vector<Finding>& findings, const CheckDeclaration& check, std::string_view id) {
  const Finding* finding = find_check(findings, check);
  if (finding == nullptr) return {};
  const auto found = std::find_if(finding->values.begin(), finding->values.end(),
                                  [id](const NamedValue& value) { return value.id == id; });
  return found == finding->values.end() ? Value{} : found->value;
}

/// A named length or area, with this many decimals.
Value rounded_cell(const std::vector<Finding>& findings, const CheckDeclaration& check, std::string_view id,
                   int decimals) {
  const Value value = named_cell(findings, check, id);
  const double* number = std::get_if<double>(&value);
  return number == nullptr ? Value{} : Value{rounded(*number, decimals)};
}

/// Empty for a panel without storey.
std::string storey_cell(const Project& project, const Panel& panel) {
  return panel.storey ? project.storeys[*panel.storey].name : std::string();
}

/// The columns of quantities.csv that panels and the row of totals share.
void add_numbers(OutputRow& row, const std::vector<Finding>& findings) {
  for (const CheckDeclaration* check : {&kAreaCheck, &kAsBuiltSizeCheck, &kAssemblyCheck, &kCentreOfGravityCheck}) {
    row.push_back(number_cell(findings, *check));
  }
  row.push_back(number_cell(findings, kCostsCheck));
  row.push_back(unit_cell(findings, kCostsCheck));
  for (const CheckDeclaration* check :
       {&kCuttingListCheck, &kErectionTimeCheck, &kFixingsCheck, &kLoadsCheck, &kMassCheck, &kTakeOffCheck}) {
    row.push_back(number_cell(findings, *check));
  }
}

OutputRow quantities_row(const Project& project, const PanelFindings& of) {
  const Panel& panel = *of.panel;
  // Sizes to whole micrometres: the rest is rounding of the export's units.
  OutputRow row{panel.global_id,
                panel.mark,
                panel.type,
                storey_cell(project, panel),
                rounded(panel.width_m.value, kMillionth),
                rounded(panel.height_m.value, kMillionth),
                rounded(panel.thickness_m.value, kMillionth)};
  add_numbers(row, of.findings);
  row.push_back(rounded_cell(of.findings, kAreaCheck, "gross", kMillionth));
  row.push_back(rounded_cell(of.findings, kAreaCheck, "openings", kMillionth));
  for (const char* id : {"from_left_edge", "from_inner_face", "from_foot"}) {
    row.push_back(rounded_cell(of.findings, kCentreOfGravityCheck, id, kMillimetre));
  }
  return row;
}

OutputRow total_row(const std::vector<Finding>& findings) {
  OutputRow row{"TOTAL"};
  row.resize(7);
  add_numbers(row, findings);
  row.resize(row.size() + 5);
  return row;
}

std::vector<OutputRow> cutting_rows(const Project& project, const PanelFindings& of) {
  const Finding* list = find_check(of.findings, kCuttingListCheck);
  const Table* pieces = list == nullptr ? nullptr : find_table(*list, "pieces");
  if (pieces == nullptr) return {};
  std::vector<OutputRow> rows;
  for (const std::vector<Value>& piece : pieces->rows) {
    OutputRow row{of.panel->mark, of.panel->type, storey_cell(project, *of.panel),
                  named_cell(of.findings, kErectionTimeCheck, "batch"),
                  named_cell(of.findings, kErectionTimeCheck, "erection_order")};
    row.insert(row.end(), piece.begin(), piece.end());
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace

std::vector<OutputRow> panel_rows(std::string_view output, const Project& project, const PanelFindings& panel) {
  if (output == kQuantities) return {quantities_row(project, panel)};
  if (output == kCutting) return cutting_rows(project, panel);
  return {};
}

std::vector<OutputRow> project_rows(std::string_view output, const Project& project,
                                    const std::vector<Finding>& findings) {
  if (output == kQuantities) return {total_row(findings)};
  if (output == kBatches) return batch_rows(project);
  if (output != kDeliveries) return {};
  const Finding* deliveries = find_check(findings, kDeliveriesCheck);
  const Table* panels = deliveries == nullptr ? nullptr : find_table(*deliveries, kPanelsByLoad);
  return panels == nullptr ? std::vector<OutputRow>{} : panels->rows;
}

}  // namespace panel_dossier::quantities
