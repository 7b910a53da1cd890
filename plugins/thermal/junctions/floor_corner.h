// The point where a floor edge meets an external corner of panels that pass it: a three-dimensional model.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/junctions/conduction_detail.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"

namespace panel_dossier::thermal::conduction {

/// An external corner crossed by a floor, with the two-dimensional details whose share is taken off.
struct FloorCorner {
  Detail corner;  ///< external corner, in plan
  Detail floor;   ///< floor edge or floor joint, in section
  Model model;
  double slab_m = 0.0;
  double joint_m = 0.0;  ///< width of the horizontal joint; 0 where the panels pass the floor unbroken
  std::vector<std::string> missing;
};

/// `floor` is floor_edge or floor_joint; settings as in `make_detail`.
FloorCorner make_floor_corner(DetailKind floor, const DetailBuildUp& build_up, const Settings& settings);

struct FloorCornerResult {
  double l_3d_w_per_k = 0.0;
  double chi_internal_w_per_k = 0.0;  ///< χ_i = L_3D − Σ U·A_i − Σ Ψ_i·l_i (EN ISO 10211:2017, from memory)
  double chi_own_w_per_k = 0.0;       ///< χ likewise by the panels' own dimensions
  double temperature_factor = 0.0;    ///< f_Rsi for R_si = 0.25 m²·K/W, less its last change
  std::size_t cells = 0;
  double heat_flow_change = 0.0;  ///< relative, when the cells were last halved
};

/// `corner` has nothing missing. Throws as DetailSolver::solve.
FloorCornerResult solve_floor_corner(const FloorCorner& corner, DetailSolver& solver);

}  // namespace panel_dossier::thermal::conduction
