// Heat through the junctions of one panel, calculated or declared, and the panel without the timber that they stand
// for, so that no timber counts twice.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/junctions/conduction_detail.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/junctions/floor_corner.h"
#include "plugins/thermal/junctions/junctions.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

/// A copy in which studs, posts, rails, lintels and blocking are cut away wherever a junction with a detail or a
/// declared Ψ holds them: to the depth of `timber` behind an edge, and beside an opening along its own length only.
/// Parts without a box stay. Pieces that are left have a box and no solid; of a part
/// that is wholly cut away an empty box is left.
Panel without_junction_timber(const Panel& panel, const Junctions& junctions, const conduction::DetailBuildUp& timber);

/// A junction with its detail; `detail` and `result` are none for a declared Ψ and for what is left to the ground.
struct JunctionHeat {
  Junction junction;
  std::optional<conduction::Detail> detail;
  std::optional<conduction::DetailResult> result;

  /// Ψ in W/(m·K) by the panel's own dimensions.
  double psi_w_per_mk() const;
  /// Of this panel, in W/K.
  double heat_w_per_k() const { return psi_w_per_mk() * junction.length_m * junction.share; }
};

struct PointHeat {
  CornerPoint point;
  conduction::FloorCornerResult result;

  double heat_w_per_k() const { return result.chi_own_w_per_k * point.share; }
};

struct PanelJunctionHeat {
  std::vector<JunctionHeat> lines;
  std::vector<PointHeat> points;
  double plain_u_w_per_m2k = 0.0;  ///< U of the plain area without the timber that the junctions hold
  std::vector<Input> inputs;       ///< of the details, each once
  std::vector<std::string> notes;
  std::vector<std::string> missing;  ///< not empty: the sums are of no use

  double lines_w_per_k() const;
  double points_w_per_k() const;
};

/// Points are models of three dimensions: most of the time that a panel takes.
enum class JunctionsAsked { lines, lines_and_points };

/// `panel_transmittance` is that of this panel. Throws only what running out of memory throws: a detail that cannot be
/// solved is noted as missing.
PanelJunctionHeat junction_heat(const Panel& panel, const Project& project, const Settings& settings,
                                const Tables& tables, const Transmittance& panel_transmittance,
                                conduction::DetailSolver& solver,
                                JunctionsAsked asked = JunctionsAsked::lines_and_points);

}  // namespace panel_dossier::thermal
