#include "plugins/thermal/transmittance/heat_loss.h"

#include <string>

#include "core/api/finding/finding_builder.h"
#include "plugins/thermal/windows/window_check.h"

namespace panel_dossier::thermal {

namespace {

/// U·A of a window or door in W/K; 0 when something is missing, which the builder then knows.
double filling_heat_loss(const Opening& opening, FindingBuilder& builder) {
  const auto u = filling_transmittance(opening, builder);
  if (!u) return 0.0;
  const auto area = builder.positive("area of the opening of '" + filling_label(opening) + "'", "A_w", "m²",
                                     Sourced<double>{opening.area_m2(), opening.origin}, {});
  return area ? *u * *area : 0.0;
}

}  // namespace

Finding check_heat_loss(const Panel& panel, const PanelJunctionHeat* heat, const std::string& reason) {
  FindingBuilder builder("thermal.heat_loss", "Heat transfer coefficient of the panel with openings and junctions",
                         panel.global_id, "EN ISO 13789:2017, 7.2");
  if (heat == nullptr) return builder.not_assessed("thermal.u_value is not assessed: " + reason);
  if (!heat->missing.empty()) {
    return builder.not_assessed("thermal.linear_transmittance is not assessed: " + heat->missing.front());
  }
  const auto area = builder.positive("area of the panel without openings", "A_net", "m²",
                                     Sourced<double>{panel.net_area_m2(), panel.origin}, {});
  double fillings = 0.0;
  for (const Opening& opening : panel.openings) fillings += filling_heat_loss(opening, builder);
  if (builder.incomplete()) return builder.not_assessed();
  const double plain = heat->plain_u_w_per_m2k * *area;
  const double lines = heat->lines_w_per_k();
  const double points = heat->points_w_per_k();
  const double total = plain + fillings + lines + points;
  builder.step("U of the plain area; timber that belongs to a junction is in its Ψ", "U", heat->plain_u_w_per_m2k,
               "W/(m²·K)");
  builder.step("panel without openings", kPlainHeat, plain, "W/K", "U · A_net");
  builder.step("windows and doors", kFillingHeat, fillings, "W/K", "ΣU_w · A_w");
  builder.step("junctions, from thermal.linear_transmittance", kLineHeat, lines, "W/K");
  builder.step("corners crossed by a floor, likewise", kPointHeat, points, "W/K");
  builder.step("share of the junctions and corners", "", (lines + points) / total * 100.0, "%");
  builder.note(
      "Windows and doors count with the area of their opening; areas are by the panel's own width and height.");
  return builder.inform(total, "W/K");
}

}  // namespace panel_dossier::thermal
