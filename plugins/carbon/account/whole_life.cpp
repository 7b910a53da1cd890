#include "plugins/carbon/account/whole_life.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <string>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/totals/project_sums.h"
#include "plugins/carbon/totals/targets.h"
#include "plugins/carbon/totals/uncertainty.h"

namespace panel_dossier::carbon {

namespace {

/// Values of the finding in kg CO2e: A–C in GWP-total, and the range of it where there is one.
constexpr const char* kSumValue = "whole_life";
constexpr const char* kUncertaintyValue = "uncertainty";

/// `range_kg` about `sum_kg`, which is the sum of a table by material with the column A–C.
void add_range_steps(double range_kg, double sum_kg, FindingBuilder& builder) {
  builder.step("uncertainty of the declarations", "Δ", range_kg, "kg CO2e");
  builder.step("least", "ΣA–C,min", sum_kg - range_kg, "kg CO2e", "ΣA–C,min = sum(A–C) − Δ");
  builder.step("most", "ΣA–C,max", sum_kg + range_kg, "kg CO2e", "ΣA–C,max = sum(A–C) + Δ");
  builder.value(kUncertaintyValue, range_kg, "kg CO2e");
}

}  // namespace

const CheckDeclaration kWholeLifeCheck{
    .id = "carbon.whole_life",
    .title = "Whole life A–C for each m² of wall, GWP-total",
    .project_title = "Whole life A–C of all panels for each m² of wall, GWP-total",
    .sentence =
        "The GWP-total of A to C for each m² of net wall is at most each of the project's targets for A–C that "
        "are in force and apply to the panel, its type or the project, with what generic data may be off.",
    .clause = "EN 15978:2011, 11.1; EN 15804:2012+A2:2019, annex C",
    .units = {"kg CO2e/m²"},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(merged_inputs({target_inputs(), uncertainty_inputs(), whole_account_inputs()})),
    .limits = {"Windows and doors, which have no declaration here, and their openings, which are not in the area.",
               "B6 and B7, which belong to the building.",
               "Uncertainty of the distance, the vehicle and the assembly on site, which are the project's figures.",
               "Targets for a whole building and each m² of its floor, by which no wall passes or fails."}};

Finding check_whole_life(const PanelAccount& account, const Finding& upstream) {
  OpenFinding finding = account.open(kWholeLifeCheck);
  FindingBuilder& builder = finding.builder();
  finding.value_of(upstream);
  const ModuleSums modules = module_sums(account);
  builder.table(module_table(modules, "By module"));
  const auto area = builder.positive("gross area of the panel", "A_g", "m²",
                                     Sourced<double>{account.panel.gross_area_m2(), account.panel.origin}, {});
  if (!finding.complete()) return finding.close_incomplete();
  add_material_table(builder, account.inputs.project, shares_of(account), "By material, GWP-total", share_columns());
  const Gwp sum = whole_life(modules);
  builder.step("GWP-fossil, A–C", "fos", sum.fossil, "kg CO2e");
  builder.step("GWP-biogenic, A–C", "bio", sum.biogenic, "kg CO2e");
  builder.step("GWP-luluc, A–C", "luluc", sum.luluc, "kg CO2e");
  builder.value(kSumValue, sum.total(), "kg CO2e");
  const Uncertainty uncertainty(account, builder);
  const auto range_kg = uncertainty.kg(whole_life_of);
  if (range_kg) {
    add_range_steps(*range_kg, sum.total(), builder);
    builder.note("Δ is the sum over the materials of u · |A–C|, as if all figures were off the same way.");
  }
  if (!uncertainty.needed().empty()) builder.value_text(kRangeNeeded, uncertainty.needed());
  const auto per_area = add_per_area(finding, kWholeLife, sum.total(), {*area, account.panel.opening_area_m2()});
  if (!per_area) return builder.not_assessed();
  const double net_m2 = *area - account.panel.opening_area_m2();
  if (range_kg) {
    builder.step("uncertainty for each m² of net wall area", "Δ_a", *range_kg / net_m2, "kg CO2e/m²", "Δ_a = Δ / A");
    builder.note("A target that is kept, but nearer than Δ_a, is neither surely kept nor missed.");
  }
  return judge_targets(
      finding, account.inputs.settings,
      {{"", {kEveryPanel, account.panel.type}, {{TargetModules::a_c, *per_area, over(range_kg, net_m2)}}}},
      uncertainty.needed());
}

namespace {

/// `rows` by falling A–C.
MaterialRows sorted_by_weight(const MaterialRows& rows) {
  std::vector<std::size_t> order(rows.materials.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const std::size_t column = column_of(Share::whole_life);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rows.cells[a][column] > rows.cells[b][column]; });
  MaterialRows sorted;
  for (const std::size_t row : order) {
    sorted.materials.push_back(rows.materials[row]);
    sorted.cells.push_back(rows.cells[row]);
  }
  return sorted;
}

std::vector<const Finding*> findings_in(const PanelValues& values) {
  std::vector<const Finding*> findings;
  for (const PanelValue& entry : values.entries) findings.push_back(entry.finding);
  return findings;
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
    const MaterialRows rows = sum_by_material(findings_in(of_type));
    const auto sum = [&](Share share) { return rows.column_sum(column_of(share)); };
    const double upfront = ExactSum().add(sum(Share::product_less_biogenic)).add(sum(Share::construction)).total();
    const double area_m2 = areas_of(of_type).net_m2();
    table.rows.push_back({type_name(type), static_cast<double>(of_type.entries.size()), area_m2, upfront,
                          sum(Share::product_biogenic), sum(Share::use), sum(Share::end_of_life),
                          sum(Share::whole_life) / area_m2});
  }
  return table;
}

BarChart chart_by_module(const ModuleSums& modules) {
  BarChart chart{"Modules by indicator, all panels",
                 "global warming potential",
                 "kg CO2e",
                 {"GWP-fossil", "GWP-biogenic", "GWP-luluc"},
                 {}};
  for (std::size_t i = 0; i < kModules.size(); ++i) {
    const auto& sum = modules[i];
    if (!sum) continue;
    const std::string name(name_of(kModules[i]).printed);
    chart.bars.push_back(stacked_bar(name, {sum->fossil, sum->biogenic, sum->luluc}));
  }
  return chart;
}

BarChart chart_by_material(const Project& project, const MaterialRows& rows) {
  BarChart chart{"Materials by module, GWP-total, all panels",
                 "global warming potential",
                 "kg CO2e",
                 {"A1–A3 less biogenic", "A1–A3 biogenic", "A4–A5", "B1–B5", "C1–C4"},
                 {}};
  for (std::size_t i = 0; i < rows.materials.size(); ++i) {
    const auto whole_life = rows.cells[i].begin() + static_cast<std::ptrdiff_t>(column_of(Share::whole_life));
    chart.bars.push_back(stacked_bar(row_label(project, rows.materials[i]), {rows.cells[i].begin(), whole_life}));
  }
  return chart;
}

/// A–C for each m² of those panels, with its range where every panel has one.
TargetValue whole_life_per_area(const PanelValues& values) {
  const double net_m2 = areas_of(values).net_m2();
  return {TargetModules::a_c, sum_of(values, kSumValue, "kg CO2e") / net_m2,
          over(sum_where_all_have(values, kUncertaintyValue, "kg CO2e"), net_m2)};
}

}  // namespace

Finding whole_life_of_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels) {
  OpenFinding finding(kWholeLifeCheck, "");
  const PanelValues values = panel_values(panels, kWholeLifeCheck.id);
  add_panels(inputs.project, values, kWholeLifeCheck.id, finding);
  if (!finding.complete()) return finding.close_incomplete();
  ModuleSums modules;
  for (const PanelValue& entry : values.entries) add(modules, modules_in(*entry.finding));
  const MaterialRows materials = sorted_by_weight(sum_by_material(findings_in(values)));
  FindingBuilder& builder = finding.builder();
  builder.bar_chart(chart_by_module(modules)).bar_chart(chart_by_material(inputs.project, materials));
  builder.table(module_table(modules, "By module, all panels"));
  add_material_table(builder, inputs.project, materials, "By material, GWP-total, all panels", share_columns());
  builder.table(type_table(values));
  builder.note(
      "Biogenic carbon taken up in A1–A3 (−1) is returned in C1–C4 (+1); over the whole life it adds up to nothing or "
      "nearly so. Module D lies outside the boundary and is added to nothing.");
  const double sum_kg = sum_of(values, kSumValue, "kg CO2e");
  const auto range_kg = sum_where_all_have(values, kUncertaintyValue, "kg CO2e");
  if (range_kg) add_range_steps(*range_kg, sum_kg, builder);
  const auto per_area = add_per_area(finding, kWholeLife, sum_kg, areas_of(values));
  if (!per_area) return builder.not_assessed();
  std::vector<TargetSubject> subjects;
  for (const auto& [type, of_type] : by_type(values)) {
    subjects.push_back({type_name(type), {kEveryPanel, type}, {whole_life_per_area(of_type)}});
  }
  subjects.push_back({kAllPanels, {kWholeProject, kEveryPanel}, {whole_life_per_area(values)}});
  return judge_targets(finding, inputs.settings, subjects, range_needed_of(values));
}

}  // namespace panel_dossier::carbon
