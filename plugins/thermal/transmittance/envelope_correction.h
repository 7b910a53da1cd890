// Corrections of a calculated U-value for air voids and mechanical fasteners.
#pragma once

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/build_up.h"

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

/// ΔU of a panel in W/(m²·K).
struct EnvelopeCorrection {
  double sum_w_per_m2k = 0.0;      ///< of all corrections
  double applied_w_per_m2k = 0.0;  ///< `sum_w_per_m2k`, or 0 where it may be left out
};

/// ΔU to add to `u_w_per_m2k` (EN ISO 6946:2017, annex F).
/// Air voids follow the setting `thermal.air_void_level` (0, 1 or 2) in every insulation layer. Fasteners are taken to
/// cross the thickest insulation layer by Panel_Fastener.DepthInInsulation; where that is absent the setting
/// `thermal.fasteners_of_unknown_depth` must be `outside insulation`. Inputs and steps go to `builder`, and what is
/// missing too: the result is then of no use.
EnvelopeCorrection read_correction(const Panel& panel, const Project& project, const Settings& settings,
                                   const Tables& tables, const BuildUp& build_up, double u_w_per_m2k,
                                   FindingBuilder& builder);

}  // namespace panel_dossier::thermal
