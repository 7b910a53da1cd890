#include "plugins/thermal/heat_loss.h"

#include <string>

#include "core/api/finding_builder.h"
#include "plugins/thermal/window_check.h"

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

Finding check_heat_loss(const Panel& panel, const TransmittanceResult& panel_transmittance) {
  FindingBuilder builder("thermal.heat_loss", "Heat transfer coefficient of the panel with its openings",
                         panel.global_id, "EN ISO 13789:2017, 7.2");
  if (!panel_transmittance.transmittance) {
    return builder.not_assessed("thermal.u_value is not assessed: " + panel_transmittance.u_value.reason);
  }
  const double u = panel_transmittance.transmittance->u_w_per_m2k();
  const auto area = builder.positive("area of the panel without openings", "A_net", "m²",
                                     Sourced<double>{panel.net_area_m2(), panel.origin}, {});
  double fillings = 0.0;
  for (const Opening& opening : panel.openings) fillings += filling_heat_loss(opening, builder);
  if (builder.incomplete()) return builder.not_assessed();
  builder.step("U-value of the panel, from thermal.u_value", "U", u, "W/(m²·K)");
  builder.step("panel without openings", "U · A_net", u * *area, "W/K", "U · A_net");
  builder.step("windows and doors", "ΣU_w · A_w", fillings, "W/K", "ΣU_w · A_w");
  builder.note(
      "Joints between panels, reveals and other linear and point transmittances are not included. Windows and "
      "doors count with the area of their opening.");
  return builder.inform(u * *area + fillings, "W/K");
}

}  // namespace panel_dossier::thermal
