#include "plugins/carbon/totals/project_sums.h"

#include <algorithm>

#include "core/api/support/exact_sum.h"

namespace panel_dossier::carbon {

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

double sum_of_values(const PanelValues& values) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(entry.value);
  return sum.total();
}

double sum_of_steps(const PanelValues& values, std::string_view symbol) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(step_value(*entry.finding, symbol));
  return sum.total();
}

double sum_where_stated(const PanelValues& values, std::string_view symbol) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(find_step_value(*entry.finding, symbol).value_or(0.0));
  return sum.total();
}

bool all_have_step(const PanelValues& values, std::string_view symbol) {
  return std::all_of(values.entries.begin(), values.entries.end(), [&](const PanelValue& entry) {
    const auto& steps = entry.finding->steps;
    return std::any_of(steps.begin(), steps.end(), [&](const Step& step) { return step.symbol == symbol; });
  });
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
