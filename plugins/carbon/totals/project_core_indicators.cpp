#include "plugins/carbon/totals/project_core_indicators.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>

#include "core/api/support/fixed_text.h"
#include "core/api/support/units.h"
#include "plugins/carbon/account/core_indicator_sums.h"
#include "plugins/carbon/account/core_indicators.h"
#include "plugins/carbon/totals/project_sums.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::string_view kCoreIndicatorsCheck = "carbon.core_indicators";

std::vector<CoreSum> sum_of(const PanelValues& values, const std::vector<CoreIndicator>& indicators) {
  std::vector<CoreSum> sums;
  for (const PanelValue& entry : values.entries) {
    const auto of_panel = sums_in(*entry.finding, indicators, step_value(*entry.finding, "m"));
    if (sums.empty()) {
      sums = of_panel;
    } else {
      for (std::size_t i = 0; i < sums.size(); ++i) sums[i].add(of_panel[i]);
    }
  }
  return sums;
}

std::optional<double> mass_of(const PanelValues& values) {
  if (!all_have_step(values, "m")) return std::nullopt;
  return sum_of_steps(values, "m");
}

/// `whole`, or how much of the mass declares the indicator.
std::string extent(const CoreSum& sum, std::optional<double> mass_kg) {
  if (sum.whole()) return "whole";
  if (!mass_kg || *mass_kg <= 0.0) return "partial";
  return "partial, " + fixed_text(sum.covered_kg / *mass_kg * units::kPercentPerWhole, 0) + " % of the mass";
}

Table type_table(const PanelValues& values, const std::vector<CoreIndicator>& indicators) {
  Table table{
      "Core indicators by panel type, for each m² of net wall", {{"type", ""}, {"indicator", ""}, {"unit", ""}}, {}};
  for (const std::string_view group : kCoreGroups) table.columns.push_back({std::string(group), "per m²"});
  table.columns.push_back({"sum", ""});
  for (const auto& [type, of_type] : by_type(values)) {
    const double net_m2 = areas_of(of_type).net_m2();
    for (const CoreSum& sum : sum_of(of_type, indicators)) {
      std::vector<Value> row{type_name(type), sum.indicator, sum.unit};
      for (const CoreGroup& group : sum.groups) {
        row.emplace_back();
        if (group.any) row.back() = group.sum / net_m2;
      }
      row.emplace_back(extent(sum, mass_of(of_type)));
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

}  // namespace

Finding core_indicators_of_project(const Project& project, const std::vector<PanelFindings>& panels,
                                   const Tables& tables) {
  OpenFinding finding(std::string(kCoreIndicatorsCheck), "Core indicators beside global warming, all panels", "",
                      "EN 15804:2012+A2:2019, table 3");
  FindingBuilder& builder = finding.builder();
  builder.basis(Basis::declared).decimals(0);
  const PanelValues values = panel_values(panels, kCoreIndicatorsCheck);
  add_panels(project, values, kCoreIndicatorsCheck, finding);
  if (!finding.complete()) return finding.close_incomplete();
  const auto indicators = read_core_indicators(tables.core_indicators);
  const std::vector<CoreSum> sums = sum_of(values, indicators);
  const double net_m2 = areas_of(values).net_m2();
  const auto mass_kg = mass_of(values);
  builder.step("net wall area", "A", net_m2, "m²");
  if (mass_kg) builder.step("mass of the materials", "m", *mass_kg, "kg");
  Table whole = core_table(sums, net_m2);
  Table partial = core_partial_table(sums, mass_kg);
  if (!whole.rows.empty()) builder.table(std::move(whole));
  if (!partial.rows.empty()) builder.table(std::move(partial));
  builder.table(type_table(values, indicators));
  builder.note(
      "A sum is whole where every material of every panel declares it. A partial sum leaves out what is not declared "
      "and "
      "is less than the panels cause; the panels' findings name the materials. A4, A5 and B are left out: the "
      "project's "
      "own figures for them are of global warming alone.");
  double count = 0.0;
  for (const CoreSum& sum : sums) count += sum.whole() ? 1.0 : 0.0;
  return builder.inform(count, "indicators whole");
}

}  // namespace panel_dossier::carbon
