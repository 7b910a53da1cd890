#include "plugins/carbon/totals/project_sums.h"

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/modules.h"

namespace panel_dossier::carbon {

namespace {

double sum_of_values(const PanelValues& values) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(entry.value);
  return sum.total();
}

}  // namespace

Finding sum_check(const Summed& summed, const Project& project, const std::vector<PanelFindings>& panels) {
  OpenFinding finding(summed.check, "");
  FindingBuilder& builder = finding.builder();
  if (!summed.check.other_clauses.empty()) builder.clause(summed.check.other_clauses.front());
  const PanelValues values = panel_values(panels, summed.check.id);
  add_panels(project, values, summed.check.id, finding);
  const std::string& unit = summed.check.units.front();
  builder.step("sum over these panels", "Σ", sum_of_values(values), unit);
  if (summed.biogenic_symbol != nullptr) {
    const double biogenic = sum_of(values, kBiogenicValue, unit);
    builder.step(summed.biogenic_name, summed.biogenic_symbol, biogenic, unit);
  }
  if (!finding.complete()) return finding.close_incomplete();
  return builder.inform(sum_of_values(values), unit);
}

void add_panels(const Project& project, const PanelValues& values, std::string_view check, OpenFinding& finding) {
  finding.builder().number("panels in the sum", "n", "",
                           Sourced<double>{static_cast<double>(values.entries.size()), project.origin}, {});
  if (values.whole()) return;
  if (values.lacks_evidence_only) {
    finding.evidence_gap(values.what_is_missing(check));
  } else {
    finding.builder().missing(values.what_is_missing(check));
  }
}

double sum_of(const PanelValues& values, std::string_view id, std::string_view unit) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(value_of(*entry.finding, id, unit));
  return sum.total();
}

std::optional<double> sum_where_all_have(const PanelValues& values, std::string_view id, std::string_view unit) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) {
    const auto value = find_value(*entry.finding, id, unit);
    if (!value) return std::nullopt;
    sum.add(*value);
  }
  return sum.total();
}

WallAreas areas_of(const PanelValues& values) {
  ExactSum gross;
  ExactSum openings;
  for (const PanelValue& entry : values.entries) {
    gross.add(entry.panel->gross_area_m2());
    openings.add(entry.panel->opening_area_m2());
  }
  return {gross.total(), openings.total()};
}

std::map<std::string, PanelValues> by_type(const PanelValues& values) {
  std::map<std::string, PanelValues> types;
  for (const PanelValue& entry : values.entries) types[entry.panel->type].entries.push_back(entry);
  return types;
}

std::string type_name(const std::string& type) {
  return type.empty() ? "no type" : type;
}

}  // namespace panel_dossier::carbon
