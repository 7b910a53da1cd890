#include "plugins/carbon/per_area.h"

#include "core/api/fixed_text.h"

namespace panel_dossier::carbon {

Finding judge_per_area(OpenFinding& finding, const PerArea& what, const Settings& settings, double sum_kg,
                       const WallAreas& areas) {
  FindingBuilder& builder = finding.builder();
  const double net_m2 = areas.gross_m2 - areas.openings_m2;
  const std::string symbol(what.symbol);
  builder.step(std::string(what.name), symbol, sum_kg, "kg CO2e", std::string(what.formula));
  builder.step("gross wall area", "A_g", areas.gross_m2, "m²");
  builder.step("openings", "A_o", areas.openings_m2, "m²");
  builder.step("net wall area", "A", net_m2, "m²", "A_g − A_o");
  if (net_m2 <= 0.0) {
    builder.missing("openings leave no net wall area; check their sizes in the export");
    return builder.not_assessed();
  }
  const double per_area = sum_kg / net_m2;
  builder.step("for each m² of net wall area", "a", per_area, "kg CO2e/m²", symbol + " / A");
  builder.note(
      "Windows and doors are not in the sum, so their openings are not in the area either: the value is that of the "
      "wall between them.");
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
