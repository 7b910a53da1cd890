#include "plugins/carbon/account/per_area.h"

namespace panel_dossier::carbon {

std::optional<double> add_per_area(OpenFinding& finding, const PerArea& what, double sum_kg, const WallAreas& areas) {
  FindingBuilder& builder = finding.builder();
  const std::string symbol(what.symbol);
  builder.step(std::string(what.name), symbol, sum_kg, "kg CO2e", std::string(what.formula));
  builder.step("gross wall area", "A_g", areas.gross_m2, "m²");
  builder.step("openings", "A_o", areas.openings_m2, "m²");
  builder.step("net wall area", "A", areas.net_m2(), "m²", "A_g − A_o");
  if (areas.net_m2() <= 0.0) {
    builder.missing("openings leave no net wall area; check their sizes in the export");
    return std::nullopt;
  }
  const double per_area = sum_kg / areas.net_m2();
  builder.step("for each m² of net wall area", "a", per_area, "kg CO2e/m²", symbol + " / A");
  builder.note(
      "Windows and doors are not in the sum, so their openings are not in the area either: the value is that of the "
      "wall between them.");
  return per_area;
}

}  // namespace panel_dossier::carbon
