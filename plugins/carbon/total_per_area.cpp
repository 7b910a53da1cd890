#include "plugins/carbon/total_per_area.h"

#include "core/api/exact_sum.h"
#include "core/api/fixed_text.h"
#include "plugins/carbon/module_finding.h"

namespace panel_dossier::carbon {

Finding check_total_per_area(const PanelAccount& account, const Finding& a1_a3, const Finding& a4, const Finding& a5) {
  OpenFinding finding = open_module(account, "carbon.total_per_area",
                                    "A1–A5 for each m² of wall, without biogenic carbon", "EN 15978:2011, 8.4 and 8.5");
  FindingBuilder& builder = finding.builder();
  ExactSum sum;
  for (const Finding* module : {&a1_a3, &a4, &a5}) {
    const auto value = finding.value_of(*module);
    if (!value) continue;
    builder.step("from " + module->check, module->check.substr(module->check.find('.') + 1), *value, "kg CO2e");
    sum.add(*value);
  }
  const auto area = builder.positive("gross area of the panel", "A", "m²",
                                     Sourced<double>{account.panel.gross_area_m2(), account.panel.origin}, {});
  if (!finding.complete()) return finding.close_incomplete();
  return judge_total(finding, account.settings, sum.total(), *area);
}

Finding judge_total(OpenFinding& finding, const Settings& settings, double sum_kg, double area_m2) {
  FindingBuilder& builder = finding.builder();
  const double per_area = sum_kg / area_m2;
  builder.step("A1–A5, without biogenic carbon", "ΣA1–A5", sum_kg, "kg CO2e", "A1–A3 + A4 + A5");
  builder.step("for each m² of gross wall area", "a", per_area, "kg CO2e/m²", "ΣA1–A5 / A");
  builder.note("Gross wall area counts openings; windows and doors themselves are not in the sum.");
  const auto target = settings.number("carbon.target_a1_a5_kgco2e_per_m2");
  if (!target) {
    builder.note("No target: setting carbon.target_a1_a5_kgco2e_per_m2 is not given.");
    return builder.inform(per_area, "kg CO2e/m²");
  }
  const auto limit = builder.positive("target for A1–A5", "a_max", "kg CO2e/m²", target, {});
  if (!limit) return builder.not_assessed();
  return builder.judge(
      per_area, "kg CO2e/m²", Relation::at_most, *limit,
      fixed_text(per_area, 2) + " kg CO2e/m² is above the project's target of " + fixed_text(*limit, 2));
}

}  // namespace panel_dossier::carbon
