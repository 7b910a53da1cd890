// Corrections of a calculated U-value for air voids and mechanical fasteners.
#pragma once

namespace panel_dossier::thermal {

/// Insulation in relation to the whole component, thermal bridges disregarded; resistances in m²·K/W, above 0.
struct InsulationShare {
  double layer_resistance = 0.0;  ///< R_1 of the insulation layer
  double total_resistance = 0.0;  ///< R_tot,h with the surfaces, through the main material of each layer

  /// (R_1 / R_tot,h)²
  double squared() const;
};

/// Fasteners of one kind that cross an insulation layer.
struct CrossingFasteners {
  double conductivity_w_per_mk = 0.0;
  double cross_section_m2 = 0.0;  ///< of one piece
  double per_m2 = 0.0;            ///< pieces on each square metre
  double depth_m = 0.0;           ///< d_1: length of a piece inside the layer, at most `layer_m`
  double layer_m = 0.0;           ///< d_0: thickness of the layer, above 0
};

/// ΔU_g in W/(m²·K) for the level's ΔU'' (EN ISO 6946:2017, F.2).
double air_void_correction(double level_w_per_m2k, const InsulationShare& share);

/// ΔU_f in W/(m²·K) with α = 0.8 · d_1 / d_0 (EN ISO 6946:2017, F.3). None is due below 1 W/(m·K): then 0.
double fastener_correction(const CrossingFasteners& fasteners, const InsulationShare& share);

/// Corrections that add up to less than 3 % of U need not be applied (EN ISO 6946:2017, annex F).
bool may_be_left_out(double correction_w_per_m2k, double u_w_per_m2k);

}  // namespace panel_dossier::thermal
