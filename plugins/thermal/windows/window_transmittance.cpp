#include "plugins/thermal/windows/window_transmittance.h"

namespace panel_dossier::thermal {

WindowParts single_pane_window(double width_m, double height_m, double frame_width_m) {
  const double glass_width_m = width_m - 2.0 * frame_width_m;
  const double glass_height_m = height_m - 2.0 * frame_width_m;
  WindowParts parts;
  parts.glass_area_m2 = glass_width_m * glass_height_m;
  parts.frame_area_m2 = width_m * height_m - parts.glass_area_m2;
  parts.edge_length_m = 2.0 * (glass_width_m + glass_height_m);
  return parts;
}

double window_transmittance(const WindowParts& parts) {
  const double heat_flow_w_per_k = parts.glass_area_m2 * parts.glass_u_w_per_m2k +
                                   parts.frame_area_m2 * parts.frame_u_w_per_m2k +
                                   parts.edge_length_m * parts.edge_psi_w_per_mk;
  return heat_flow_w_per_k / parts.area_m2();
}

}  // namespace panel_dossier::thermal
