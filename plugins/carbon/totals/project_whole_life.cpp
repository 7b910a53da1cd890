#include "plugins/carbon/totals/project_whole_life.h"

#include <string>
#include <string_view>

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/per_area.h"
#include "plugins/carbon/totals/judged_targets.h"
#include "plugins/carbon/totals/project_sums.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::string_view kWholeLifeCheck = "carbon.whole_life";

Table sum_of(const PanelValues& values, std::string_view title) {
  std::vector<const Table*> tables;
  for (const PanelValue& entry : values.entries) {
    if (const Table* table = table_of(*entry.finding, title)) tables.push_back(table);
  }
  Table sum = summed_tables(tables);
  sum.title = std::string(title) + ", all panels";
  return sum;
}

/// Sum of one column over all rows of a `kByMaterial` table.
double column_sum(const Table& table, std::size_t column) {
  ExactSum sum;
  for (const auto& row : table.rows) sum.add(std::get<double>(row[column]));
  return sum.total();
}

/// One row a panel type, from its panels' tables by material.
Table type_table(const PanelValues& values) {
  Table table{"By panel type, GWP-total",
              {{"type", ""},
               {"panels", ""},
               {"net area", "m²"},
               {"A1–A5 less A1–A3 biogenic", "kg CO2e"},
               {"A1–A3 biogenic", "kg CO2e"},
               {"B1–B5", "kg CO2e"},
               {"C1–C4", "kg CO2e"},
               {"A–C per area", "kg CO2e/m²"}},
              {}};
  for (const auto& [type, of_type] : by_type(values)) {
    const Table sum = sum_of(of_type, kByMaterial);
    const double upfront = ExactSum().add(column_sum(sum, 1)).add(column_sum(sum, 3)).total();
    const double area_m2 = areas_of(of_type).net_m2();
    table.rows.push_back({type_name(type), static_cast<double>(of_type.entries.size()), area_m2, upfront,
                          column_sum(sum, 2), column_sum(sum, 4), column_sum(sum, 5),
                          column_sum(sum, kWholeLifeColumn) / area_m2});
  }
  return table;
}

BarChart chart_by_module(const Table& table) {
  BarChart chart{"Modules by indicator, all panels",
                 "global warming potential",
                 "kg CO2e",
                 {"GWP-fossil", "GWP-biogenic", "GWP-luluc"},
                 {}};
  for (const auto& row : table.rows) {
    chart.bars.push_back(stacked_bar(std::get<std::string>(row[0]),
                                     {std::get<double>(row[1]), std::get<double>(row[2]), std::get<double>(row[3])}));
  }
  return chart;
}

BarChart chart_by_material(const Table& table) {
  BarChart chart{"Materials by module, GWP-total, all panels",
                 "global warming potential",
                 "kg CO2e",
                 {"A1–A3 less biogenic", "A1–A3 biogenic", "A4–A5", "B1–B5", "C1–C4"},
                 {}};
  for (const auto& row : table.rows) {
    std::vector<double> values;
    for (std::size_t column = 1; column < kWholeLifeColumn; ++column) values.push_back(std::get<double>(row[column]));
    chart.bars.push_back(stacked_bar(std::get<std::string>(row[0]), values));
  }
  return chart;
}

void add_range(const PanelValues& values, double sum_kg, FindingBuilder& builder) {
  if (!all_have_step(values, "Δ")) return;
  const double range = sum_of_steps(values, "Δ");
  builder.step("uncertainty of the declarations", "Δ", range, "kg CO2e", "Σ u · |A–C|");
  builder.step("least", "ΣA–C,min", sum_kg - range, "kg CO2e", "ΣA–C − Δ");
  builder.step("most", "ΣA–C,max", sum_kg + range, "kg CO2e", "ΣA–C + Δ");
}

}  // namespace

Finding whole_life_of_project(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings) {
  OpenFinding finding(std::string(kWholeLifeCheck), "Whole life A–C of all panels for each m² of wall, GWP-total", "",
                      "EN 15978:2011, 11.1; EN 15804:2012+A2:2019, annex C");
  const PanelValues values = panel_values(panels, kWholeLifeCheck);
  add_panels(project, values, kWholeLifeCheck, finding);
  if (!finding.complete()) return finding.close_incomplete();
  Table by_module = sum_of(values, kByModule);
  sort_by_module(by_module);
  Table by_material = sum_of(values, kByMaterial);
  sort_by_weight(by_material);
  FindingBuilder& builder = finding.builder();
  builder.bar_chart(chart_by_module(by_module)).bar_chart(chart_by_material(by_material));
  builder.table(std::move(by_module)).table(std::move(by_material)).table(type_table(values));
  builder.note(
      "Biogenic carbon taken up in A1–A3 (−1) is returned in C1–C4 (+1); over the whole life it adds up to nothing or "
      "nearly so. Module D lies outside the boundary and is added to nothing.");
  const double sum_kg = sum_of_steps(values, kWholeLife.symbol);
  add_range(values, sum_kg, builder);
  const auto per_area = add_per_area(finding, kWholeLife, sum_kg, areas_of(values));
  if (!per_area) return builder.not_assessed();
  std::vector<TargetSubject> subjects;
  for (const auto& [type, of_type] : by_type(values)) {
    const double of_this = sum_of_steps(of_type, kWholeLife.symbol) / areas_of(of_type).net_m2();
    subjects.push_back({type_name(type), {kEveryPanel, type}, {{TargetModules::a_c, of_this}}});
  }
  subjects.push_back({kAllPanels, {kWholeProject, kEveryPanel}, {{TargetModules::a_c, *per_area}}});
  return judge_targets(finding, settings, subjects);
}

}  // namespace panel_dossier::carbon
