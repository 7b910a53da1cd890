#include "plugins/carbon/per_area.h"

#include "core/api/fixed_text.h"

namespace panel_dossier::carbon {

Finding judge_per_area(OpenFinding& finding, const PerArea& what, const Settings& settings, double sum_kg,
                       double area_m2) {
  FindingBuilder& builder = finding.builder();
  const double per_area = sum_kg / area_m2;
  const std::string symbol(what.symbol);
  builder.step(std::string(what.name), symbol, sum_kg, "kg CO2e", std::string(what.formula));
  builder.step("for each m² of gross wall area", "a", per_area, "kg CO2e/m²", symbol + " / A");
  builder.note("Gross wall area counts openings; windows and doors themselves are not in the sum.");
  const auto target = settings.number(what.setting);
  if (!target) {
    builder.note("No target: setting " + std::string(what.setting) + " is not given.");
    return builder.inform(per_area, "kg CO2e/m²");
  }
  const auto limit = builder.positive("target of the project", "a_max", "kg CO2e/m²", target, {});
  if (!limit) return builder.not_assessed();
  return builder.judge(
      per_area, "kg CO2e/m²", Relation::at_most, *limit,
      fixed_text(per_area, 2) + " kg CO2e/m² is above the project's target of " + fixed_text(*limit, 2));
}

}  // namespace panel_dossier::carbon
