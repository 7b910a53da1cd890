// The racking load of a load-bearing panel against what its sheathing resists.
#pragma once

#include <string>
#include <vector>

#include "plugins/structural/racking/sheathing_face.h"
#include "plugins/structural/racking/strips.h"
#include "plugins/structural/racking/uplift.h"

namespace panel_dossier::structural {

struct RackingDesign {
  bool method_a = true;
  std::vector<SheathingFace> faces;
  std::size_t stronger = 0;          ///< index into `faces`: its strips count in full
  double load_n = 0.0;               ///< design, Fv,Ed
  double stabilising_n_per_m = 0.0;  ///< γG,inf·(g0 + Gk), for ki,q of method B
  double held_down_n_per_m = 0.0;    ///< the same with γG,inf of equilibrium, against uplift
  double height_m = 0.0;
  std::vector<RackingStrip> strips;
  std::vector<Uplift> uplifts;         ///< from left to right
  double resistance_n = 0.0;           ///< Fv,Rd, sum over strips
  double fastener_load_n = 0.0;        ///< largest force on one fastener along an edge of the stronger face
  double fastener_resistance_n = 0.0;  ///< with the factor 1.2 of method A
  double panel_shear_stress_pa = 0.0;  ///< mean shear stress of the sheet that is worst used
  double panel_shear_design_pa = 0.0;  ///< of that sheet; 0 when the tables do not hold the products
  double sheet_slenderness = 0.0;      ///< largest bnet/t
  std::vector<Input> inputs;
  std::vector<std::string> missing;

  bool no_racking_load() const { return missing.empty() && load_n == 0.0; }
  const SheathingFace& face() const { return faces[stronger]; }
  /// Fi,c,Ed of the strip with the largest; precondition: there are strips.
  double largest_compression_n() const;
};

/// Precondition: `design.missing` is empty and the panel is load-bearing. Load from Panel_Structure.RackingLoad, method
/// from setting structural.racking_method (`A` or `B`).
RackingDesign design_racking(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                             const StudDesign& design);

}  // namespace panel_dossier::structural
