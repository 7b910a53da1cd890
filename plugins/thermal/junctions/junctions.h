// Where heat passes round the plain area of a panel: its edges, openings and the floors behind it, by what stands
// beside its vertical edges, above and below it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/thermal/junctions/conduction_detail.h"

namespace panel_dossier::thermal {

enum class Side { left, right };

enum class Meeting {
  nothing,          ///< no panel within reach
  straight,         ///< a panel in the same plane, across a joint
  external_corner,  ///< a panel square to this one; the corner points outwards
  internal_corner,  ///< likewise, pointing inwards
};

struct Neighbour {
  Meeting meeting = Meeting::nothing;
  const Panel* panel = nullptr;  ///< lives as long as the project; null for nothing
  double distance_m = 0.0;       ///< in plan, between the middles of the two edges
};

/// The nearest panel at a vertical edge among those that share at least half of the lower one's height. In the same
/// plane it counts within a joint of 60 mm, square to it within 0.75 m, which leaves room for a column in the corner.
Neighbour neighbour_at(const Panel& panel, Side side, const Project& project);

/// True when a panel in the same plane starts within 100 mm above the head of this one, or ends so below its foot.
bool continues_above(const Panel& panel, const Project& project);
bool continues_below(const Panel& panel, const Project& project);

enum class Edge { head, sole, left, right, opening_head, opening_sill, opening_jambs, floor };

struct Junction {
  Edge edge = Edge::head;
  std::string where;                   ///< in words
  std::optional<std::size_t> opening;  ///< index into Panel::openings of the first one it stands for
  double length_m = 0.0;
  double share = 1.0;                           ///< of Ψ that belongs to this panel: ½ where two panels meet
  std::optional<conduction::DetailKind> kind;   ///< none: declared, left to the ground floor, or unknown
  std::optional<Sourced<double>> declared_psi;  ///< Ψ in W/(m·K) by the panel's own dimensions
  bool left_to_ground = false;                  ///< counted with the heat transfer to the ground, EN ISO 13370
  std::string unknown;                          ///< not empty: why no detail stands for it, and what to do
};

/// A floor that meets an external corner of panels which pass it.
struct CornerPoint {
  std::string where;
  conduction::DetailKind floor = conduction::DetailKind::floor_edge;
  double share = 0.5;  ///< of χ that belongs to this panel
};

struct Junctions {
  std::vector<Junction> lines;
  std::vector<CornerPoint> points;
};

/// From Panel_Identity.Arrangement, the storeys of the panel's building and the panels beside it. Panel_Junction.Head,
/// .Sole, .Left and .Right (PANEL_JOINT, HEAD_UNDER_SLAB, SOLE_ON_SLAB, EXTERNAL_CORNER, INTERNAL_CORNER, FLOOR_EDGE,
/// FLOOR_JOINT, PARAPET, HEAD_UNDER_ROOF, EDGE_AT_COLUMN, CORNER_COLUMN or GROUND) go before that, and a declared
/// Panel_Junction.HeadTransmittance, .SoleTransmittance, .LeftTransmittance or .RightTransmittance before both.
Junctions find_junctions(const Panel& panel, const Project& project);

}  // namespace panel_dossier::thermal
