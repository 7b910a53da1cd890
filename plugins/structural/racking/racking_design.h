// The racking load of a load-bearing panel against what its sheathing resists, the uplift at its ends and what it
// presses into the studs; drawn as the elevation under that load and as the fixing of its sheets along a joint.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/model/panel.h"
#include "plugins/structural/racking/sheathing_face.h"
#include "plugins/structural/racking/strips.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// Uplift at one vertical edge of the sheathing, for the direction of load that lifts it.
struct Uplift {
  double x_m = 0.0;
  double pull_n = 0.0;              ///< Σ Fi,v,Ed·h/bi of the strips that end here; where strips meet, less the push
  bool begins = true;               ///< sheathing begins here, so a load to the right lifts it; else one to the left
  double held_down_n = 0.0;         ///< permanent load on half of the sheathing beside it
  std::optional<std::size_t> part;  ///< the tie-down here, index into Panel::parts
  std::optional<double> resistance_n;  ///< its Panel_Fastener.DesignTension, > 0

  double force_n() const { return pull_n > held_down_n ? pull_n - held_down_n : 0.0; }
  double use() const { return resistance_n ? force_n() / *resistance_n : 0.0; }
};

/// From left to right, edges without a pull left out. A tie-down (ObjectType TIE_DOWN or HOLD_DOWN) serves an edge that
/// its box comes within 200 mm of (common practice: it stands at the end stud); of several the weakest.
std::vector<Uplift> uplifts(const Panel& panel, const std::vector<RackingStrip>& strips, double held_down_n_per_m);

struct RackingDesign {
  bool method_a = true;
  std::vector<SheathingFace> faces;
  std::size_t stronger = 0;          ///< index into `faces`: its strips count in full
  double load_n = 0.0;               ///< design, Fv,Ed
  bool uplift_known = false;         ///< Panel_Structure.WindUpliftLineLoad is given; else both of the next are 0
  double stabilising_n_per_m = 0.0;  ///< γG,inf·(g0 + Gk) − γQ·wu, not below 0, for ki,q of method B, 9.2.4.3.2(4)
  double held_down_n_per_m = 0.0;    ///< the same with γG,inf of equilibrium, against uplift
  double height_m = 0.0;
  std::vector<RackingStrip> strips;
  std::vector<Uplift> uplifts;         ///< from left to right
  double resistance_n = 0.0;           ///< Fv,Rd, sum over strips
  double fastener_load_n = 0.0;        ///< largest force on one fastener along an edge of the stronger face
  double fastener_resistance_n = 0.0;  ///< with the factor 1.2 of method A
  std::size_t worst_fastener = 0;      ///< index into `strips`, with `fastener_load_n`
  std::size_t worst_sheet = 0;         ///< likewise, with `panel_shear_stress_pa`
  double panel_shear_stress_pa = 0.0;  ///< mean shear stress of the sheet that is worst used
  double panel_shear_design_pa = 0.0;  ///< of that sheet; 0 when the tables do not hold the products
  double sheet_slenderness = 0.0;      ///< largest bnet/t
  std::string annex_method;            ///< `A` or `B`: what the national annex asks for, 9.2.4.1(7)
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

/// Adds to the design, for every combination with wind, one with Fi,c,Ed of EN 1995-1-1 (9.23) in the studs at vertical
/// edges of the sheathing; where strips meet, pull and push are set off. The racking load is wind and takes its
/// factors. What stands in the way goes to StudDesign::racking_missing. Precondition: `design.missing` is empty.
void add_racking_compression(StudDesign& design, const RackingDesign& racking);

/// From inside: the sheets that count hatched, with the spacing of their fasteners, the load to the right at the head,
/// tie-down and compression at the foot in kN. Precondition: the design has strips.
Drawing racking_elevation(const Panel& panel, const RackingDesign& racking);

/// Elevation of a stretch of the stud with the sheets' edges, the fasteners and their distances in mm.
Drawing edge_detail(const SheathingFace& face);

}  // namespace panel_dossier::structural
