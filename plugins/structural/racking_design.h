// The racking load of a load-bearing panel against what its sheathing resists.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plugins/structural/racking_resistance.h"
#include "plugins/structural/sheathing_face.h"

namespace panel_dossier::structural {

/// A stretch of sheathing over the whole height of the panel without an opening; m.
struct RackingStrip {
  double from_m = 0.0;
  double width_m = 0.0;
  double shape_factor = 0.0;   ///< ci of method A
  double resistance_n = 0.0;   ///< Fi,v,Rd
  double load_n = 0.0;         ///< Fi,v,Ed, its share of the racking load
  double tie_down_n = 0.0;     ///< Fi,t,Ed = Fi,v,Ed·h/bi less the permanent load on half of it, at least 0
  double compression_n = 0.0;  ///< Fi,c,Ed = Fi,v,Ed·h/bi, (9.23)
  std::optional<MethodB> method_b;
};

struct RackingDesign {
  bool method_a = true;
  SheathingFace face;                ///< the stronger face
  double weaker_share = 0.0;         ///< what of the second face counts, as a share of the first; 0 without one
  double load_n = 0.0;               ///< design, Fv,Ed
  double stabilising_n_per_m = 0.0;  ///< favourable permanent load that holds the panel down
  double height_m = 0.0;
  std::vector<RackingStrip> strips;    ///< from left to right
  double resistance_n = 0.0;           ///< Fv,Rd, sum over strips
  double fastener_load_n = 0.0;        ///< largest force on one fastener along an edge
  double fastener_resistance_n = 0.0;  ///< with the factor 1.2 of method A
  double panel_shear_stress_pa = 0.0;  ///< largest mean shear stress of a sheet
  double panel_shear_design_pa = 0.0;  ///< 0 when the tables do not hold the product
  double sheet_slenderness = 0.0;      ///< bnet/t
  std::vector<Input> inputs;
  std::vector<std::string> missing;

  bool no_racking_load() const { return missing.empty() && load_n == 0.0; }
};

/// Precondition: `design.missing` is empty and the panel is load-bearing. Load from Panel_Structure.RackingLoad, method
/// from setting structural.racking_method (`A` or `B`).
RackingDesign design_racking(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                             const StudDesign& design);

}  // namespace panel_dossier::structural
