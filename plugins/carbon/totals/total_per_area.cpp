#include "plugins/carbon/totals/total_per_area.h"

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/module_finding.h"
#include "plugins/carbon/account/per_area.h"
#include "plugins/carbon/totals/judged_targets.h"

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
  const auto area = builder.positive("gross area of the panel", "A_g", "m²",
                                     Sourced<double>{account.panel.gross_area_m2(), account.panel.origin}, {});
  if (!finding.complete()) return finding.close_incomplete();
  const WallAreas areas{*area, account.panel.opening_area_m2()};
  const auto per_area = add_per_area(finding, kUpfront, sum.total(), areas);
  if (!per_area) return builder.not_assessed();
  const double product_stage = std::get<double>(a1_a3.value) / areas.net_m2();
  return judge_targets(finding, account.settings,
                       {{"",
                         {kEveryPanel, account.panel.type},
                         {{TargetModules::a1_a5, *per_area}, {TargetModules::a1_a3, product_stage}}}});
}

}  // namespace panel_dossier::carbon
