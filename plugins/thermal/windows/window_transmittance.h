// Thermal transmittance of a window from its glazing, frame and glazing edge.
#pragma once

namespace panel_dossier::thermal {

struct WindowParts {
  double glass_area_m2 = 0.0;      ///< A_g, the smaller of the visible areas of both sides
  double glass_u_w_per_m2k = 0.0;  ///< U_g
  double frame_area_m2 = 0.0;      ///< A_f, projected
  double frame_u_w_per_m2k = 0.0;  ///< U_f
  double edge_length_m = 0.0;      ///< l_g, visible perimeter of the glazing
  double edge_psi_w_per_mk = 0.0;  ///< Ψ_g of glazing, spacer and frame together

  double area_m2() const { return glass_area_m2 + frame_area_m2; }
};

/// Areas and edge of a window with one pane and a frame of one visible width all round; transmittances stay 0.
/// `frame_width_m` above 0 and under half of both sides.
WindowParts single_pane_window(double width_m, double height_m, double frame_width_m);

/// U_w in W/(m²·K) (EN ISO 10077-1:2017, 6.4.1); the area of `parts` is above 0.
double window_transmittance(const WindowParts& parts);

}  // namespace panel_dossier::thermal
