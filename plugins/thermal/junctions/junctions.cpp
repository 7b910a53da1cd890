#include "plugins/thermal/junctions/junctions.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "plugins/thermal/junctions/conduction_detail_reader.h"

namespace panel_dossier::thermal {

namespace {

constexpr double kJointReach_m = 0.060;
constexpr double kCornerReach_m = 0.75;
constexpr double kVerticalReach_m = 0.100;
/// Panels of unlike thickness that share a face have their middles this far apart at most.
constexpr double kPlaneReach_m = 0.150;
constexpr double kParallel = 0.99;
constexpr double kSquare = 0.15;

double edge_x(const Panel& panel, Side side) {
  return side == Side::left ? 0.0 : panel.width_m.value;
}

/// Middle of the panel's thickness at a vertical edge, at the foot.
Vec3 edge_point(const Panel& panel, Side side) {
  return panel.frame.to_parent(Vec3{edge_x(panel, side), panel.thickness_m.value / 2.0, 0.0});
}

double foot_m(const Panel& panel) {
  return panel.frame.origin.z;
}

double head_m(const Panel& panel) {
  return panel.frame.origin.z + panel.height_m.value;
}

bool side_by_side(const Panel& a, const Panel& b) {
  const double shared = std::min(head_m(a), head_m(b)) - std::max(foot_m(a), foot_m(b));
  return shared >= 0.5 * std::min(a.height_m.value, b.height_m.value);
}

double plan_distance(const Vec3& a, const Vec3& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// How the other panel meets this one's edge when it is near enough.
Neighbour meet(const Panel& panel, Side side, const Panel& other) {
  const Vec3 here = edge_point(panel, side);
  Neighbour found;
  for (const Side other_side : {Side::left, Side::right}) {
    const double distance = plan_distance(here, edge_point(other, other_side));
    if (distance > kCornerReach_m || (found.panel != nullptr && distance >= found.distance_m)) continue;
    const double along = dot(panel.frame.y_axis, other.frame.y_axis);
    const Vec3 offset = edge_point(other, other_side) - here;
    if (along > kParallel) {
      const bool opposite = side != other_side;
      const bool same_plane = std::fabs(dot(offset, panel.frame.y_axis)) <= kPlaneReach_m;
      const bool near = std::fabs(dot(offset, panel.frame.x_axis)) <= kJointReach_m;
      if (opposite && same_plane && near) found = {Meeting::straight, &other, distance};
    } else if (std::fabs(along) < kSquare) {
      const Vec3 into_panel = panel.frame.x_axis * (side == Side::left ? 1.0 : -1.0);
      const bool external = dot(other.frame.y_axis, into_panel) < 0.0;
      found = {external ? Meeting::external_corner : Meeting::internal_corner, &other, distance};
    }
  }
  return found;
}

/// In the same plane, with a common width.
bool in_line(const Panel& panel, const Panel& other) {
  if (dot(panel.frame.y_axis, other.frame.y_axis) <= kParallel) return false;
  const Vec3 left = edge_point(other, Side::left) - edge_point(panel, Side::left);
  if (std::fabs(dot(left, panel.frame.y_axis)) > kPlaneReach_m) return false;
  const double start = dot(left, panel.frame.x_axis);
  const double shared = std::min(panel.width_m.value, start + other.width_m.value) - std::max(0.0, start);
  return shared >= 0.5 * std::min(panel.width_m.value, other.width_m.value);
}

}  // namespace

Neighbour neighbour_at(const Panel& panel, Side side, const Project& project) {
  Neighbour nearest;
  for (const Panel& other : project.panels) {
    if (&other == &panel || !side_by_side(panel, other)) continue;
    const Neighbour found = meet(panel, side, other);
    if (found.panel == nullptr) continue;
    // A joint goes before a corner: the panel round the corner may be as near.
    const bool straighter = found.meeting == Meeting::straight && nearest.meeting != Meeting::straight;
    const bool as_straight = (found.meeting == Meeting::straight) == (nearest.meeting == Meeting::straight);
    if (nearest.panel == nullptr || straighter || (as_straight && found.distance_m < nearest.distance_m)) {
      nearest = found;
    }
  }
  return nearest;
}

bool continues_above(const Panel& panel, const Project& project) {
  return std::any_of(project.panels.begin(), project.panels.end(), [&](const Panel& other) {
    return &other != &panel && std::fabs(foot_m(other) - head_m(panel)) <= kVerticalReach_m && in_line(panel, other);
  });
}

bool continues_below(const Panel& panel, const Project& project) {
  return std::any_of(project.panels.begin(), project.panels.end(), [&](const Panel& other) {
    return &other != &panel && std::fabs(head_m(other) - foot_m(panel)) <= kVerticalReach_m && in_line(panel, other);
  });
}

namespace {

using conduction::DetailKind;

/// A panel's head or foot belongs to a floor within this distance of it.
constexpr double kFloorReach_m = 0.5;
/// A door whose foot lies this near to the panel's stands on the floor.
constexpr double kThreshold_m = 0.05;
/// Infill panels this far apart at a corner leave room for a column.
constexpr double kColumnRoom_m = 0.15;

constexpr std::array<std::pair<const char*, DetailKind>, 11> kKindWords{
    {{"PANEL_JOINT", DetailKind::panel_joint},
     {"HEAD_UNDER_SLAB", DetailKind::head_under_slab},
     {"SOLE_ON_SLAB", DetailKind::sole_on_slab},
     {"EXTERNAL_CORNER", DetailKind::external_corner},
     {"INTERNAL_CORNER", DetailKind::internal_corner},
     {"FLOOR_EDGE", DetailKind::floor_edge},
     {"FLOOR_JOINT", DetailKind::floor_joint},
     {"PARAPET", DetailKind::parapet},
     {"HEAD_UNDER_ROOF", DetailKind::head_under_roof},
     {"EDGE_AT_COLUMN", DetailKind::edge_at_column},
     {"CORNER_COLUMN", DetailKind::corner_column}}};

/// Two panels meet in these, and each has half of Ψ.
bool is_shared(DetailKind kind) {
  switch (kind) {
    case DetailKind::panel_joint:
    case DetailKind::external_corner:
    case DetailKind::internal_corner:
    case DetailKind::floor_joint:
    case DetailKind::corner_column: return true;
    default: return false;
  }
}

bool is_oversail(const Panel& panel) {
  const auto arrangement = panel.properties.text("Panel_Identity", "Arrangement");
  return arrangement && arrangement->value == "OVERSAIL";
}

/// Floors of the panel's building by their height over the floor of the panel's own storey.
class Floors {
 public:
  Floors(const Panel& panel, const Project& project) {
    if (!panel.storey || !project.storeys[*panel.storey].elevation_m) return;
    const Storey& own = project.storeys[*panel.storey];
    known_ = true;
    for (const Storey& storey : project.storeys) {
      if (storey.building != own.building || !storey.elevation_m) continue;
      const double height = storey.elevation_m->value - own.elevation_m->value;
      if (height < 0.0) lowest_ = false;
      if (height > 0.0) above_m_.push_back(height);
    }
    // The lowest panel of a storey stands at its floor; the datum of the storeys need not be that of the placements.
    double floor = panel.frame.origin.z;
    for (const Panel& other : project.panels) {
      if (other.storey == panel.storey && other.building == panel.building) {
        floor = std::min(floor, other.frame.origin.z);
      }
    }
    foot_m_ = panel.frame.origin.z - floor;
    head_m_ = foot_m_ + panel.height_m.value;
  }

  bool known() const { return known_; }
  bool is_lowest_storey() const { return lowest_; }
  bool foot_on_floor() const { return foot_m_ <= kFloorReach_m; }
  bool head_at_floor() const {
    return std::any_of(above_m_.begin(), above_m_.end(),
                       [&](double floor) { return std::fabs(floor - head_m_) <= kFloorReach_m; });
  }
  /// No floor lies above the head.
  bool head_at_roof() const {
    return std::all_of(above_m_.begin(), above_m_.end(), [&](double floor) { return floor < head_m_; });
  }
  /// Floors that the panel passes.
  std::size_t passed() const {
    return static_cast<std::size_t>(std::count_if(above_m_.begin(), above_m_.end(), [&](double floor) {
      return floor > foot_m_ + kFloorReach_m && floor < head_m_ - kFloorReach_m;
    }));
  }

 private:
  bool known_ = false;
  bool lowest_ = true;
  double foot_m_ = 0.0;  ///< over the panel's own floor
  double head_m_ = 0.0;
  std::vector<double> above_m_;
};

class JunctionFinder {
 public:
  JunctionFinder(const Panel& panel, const Project& project)
      : panel_(panel), project_(project), floors_(panel, project), oversail_(is_oversail(panel)) {}

  Junctions find() {
    add_edge(Edge::head, "head", "Head", panel_.width_m.value, [this] { return head(); });
    add_edge(Edge::sole, "sole", "Sole", panel_.width_m.value - width_of_doors(), [this] { return sole(); });
    add_thresholds();
    add_edge(Edge::left, "left side", "Left", panel_.height_m.value, [this] { return side(Side::left); });
    add_edge(Edge::right, "right side", "Right", panel_.height_m.value, [this] { return side(Side::right); });
    for (std::size_t i = 0; i < panel_.openings.size(); ++i) add_opening(i);
    add_floors();
    add_points();
    return std::move(result_);
  }

 private:
  const Panel& panel_;
  const Project& project_;
  Floors floors_;
  bool oversail_;
  Junctions result_;

  static Junction of(DetailKind kind) {
    Junction junction;
    junction.kind = kind;
    junction.share = is_shared(kind) ? 0.5 : 1.0;
    return junction;
  }

  static Junction ground() {
    Junction junction;
    junction.left_to_ground = true;
    return junction;
  }

  static Junction unknown(std::string why) {
    Junction junction;
    junction.unknown = std::move(why);
    return junction;
  }

  template <typename Derive>
  void add_edge(Edge edge, const char* where, const std::string& property, double length_m, const Derive& derive) {
    if (length_m <= 0.0) return;
    Junction junction;
    const auto declared = panel_.properties.number("Panel_Junction", property + "Transmittance");
    const auto word = panel_.properties.text("Panel_Junction", property);
    if (declared) {
      junction.declared_psi = declared;
    } else if (word) {
      junction = named(word->value, property);
      if (junction.left_to_ground && floors_.known() && !floors_.is_lowest_storey()) {
        junction = unknown("Panel_Junction." + property + " is GROUND (" + describe(word->origin) + ") and storey '" +
                           project_.storeys[*panel_.storey].name + "' is not the lowest: one of them is wrong");
      }
    } else {
      junction = derive();
    }
    junction.edge = edge;
    junction.where = where;
    junction.length_m = length_m;
    result_.lines.push_back(std::move(junction));
  }

  static Junction named(const std::string& word, const std::string& property) {
    if (word == "GROUND") return ground();
    const auto known =
        std::find_if(kKindWords.begin(), kKindWords.end(), [&](const auto& entry) { return entry.first == word; });
    if (known != kKindWords.end()) return of(known->second);
    return unknown("Panel_Junction." + property + " '" + word + "' names no junction detail");
  }

  Junction head() const {
    if (!floors_.known()) return unknown("its storey has no elevation, so what the head meets is not known");
    if (floors_.head_at_floor()) {
      return oversail_ ? floor_joint(continues_above(panel_, project_)) : of(DetailKind::head_under_slab);
    }
    if (!floors_.head_at_roof()) return between_floors("head", "Head");
    return of(oversail_ ? DetailKind::parapet : DetailKind::head_under_roof);
  }

  Junction sole() const {
    if (!floors_.known()) return unknown("its storey has no elevation, so what the sole meets is not known");
    if (!floors_.foot_on_floor()) return between_floors("sole", "Sole");
    if (floors_.is_lowest_storey()) return ground();
    return oversail_ ? floor_joint(continues_below(panel_, project_)) : of(DetailKind::sole_on_slab);
  }

  static Junction between_floors(const std::string& edge, const std::string& property) {
    return unknown("its " + edge + " lies between two floors; state what it meets in Panel_Junction." + property +
                   " or its Ψ in Panel_Junction." + property + "Transmittance");
  }

  /// All of Ψ is this panel's where no other one meets it.
  static Junction floor_joint(bool with_panel) {
    Junction junction = of(DetailKind::floor_joint);
    junction.share = with_panel ? 0.5 : 1.0;
    return junction;
  }

  Junction side(Side side) const {
    const Neighbour neighbour = neighbour_at(panel_, side, project_);
    const std::string name = side == Side::left ? "Left" : "Right";
    const std::string advice =
        "; state what it meets in Panel_Junction." + name + " or its Ψ in Panel_Junction." + name + "Transmittance";
    if (neighbour.panel == nullptr) {
      if (!oversail_) return of(DetailKind::edge_at_column);
      return unknown("no panel stands beside this edge" + advice);
    }
    if (is_oversail(*neighbour.panel) != oversail_) {
      return unknown("it meets panel '" + neighbour.panel->mark + "' of another arrangement" + advice);
    }
    const bool room_for_column = neighbour.distance_m - panel_.thickness_m.value / 2.0 > kColumnRoom_m;
    switch (neighbour.meeting) {
      case Meeting::straight: return of(DetailKind::panel_joint);
      case Meeting::external_corner:
        return of(!oversail_ && room_for_column ? DetailKind::corner_column : DetailKind::external_corner);
      case Meeting::internal_corner: return of(DetailKind::internal_corner);
      case Meeting::nothing: break;
    }
    return unknown("what stands beside this edge is not known" + advice);
  }

  static bool stands_on_floor(const Opening& opening) { return opening.z_min_m <= kThreshold_m; }

  double width_of_doors() const {
    double width = 0.0;
    for (const Opening& opening : panel_.openings) width += stands_on_floor(opening) ? opening.width_m() : 0.0;
    return width;
  }

  void add_thresholds() {
    const double width = width_of_doors();
    if (width <= 0.0) return;
    const bool with_ground = floors_.known() && floors_.is_lowest_storey();
    Junction threshold =
        with_ground ? ground() : unknown("no detail stands for the threshold of a door on an upper floor");
    threshold.edge = Edge::sole;
    threshold.where = "threshold of doors";
    threshold.length_m = width;
    result_.lines.push_back(std::move(threshold));
  }

  /// Openings of one name with equal timber and frame share their rows.
  void add_or_lengthen(Junction junction) {
    const auto same = std::find_if(result_.lines.begin(), result_.lines.end(), [&](const Junction& known) {
      return known.edge == junction.edge && known.where == junction.where && known.kind == junction.kind &&
             alike(*known.opening, *junction.opening);
    });
    if (same == result_.lines.end()) {
      result_.lines.push_back(std::move(junction));
    } else {
      same->length_m += junction.length_m;
    }
  }

  bool alike(std::size_t a, std::size_t b) const {
    conduction::DetailBuildUp first;
    conduction::DetailBuildUp second;
    conduction::read_opening(panel_, panel_.openings[a], first);
    conduction::read_opening(panel_, panel_.openings[b], second);
    return first.opening_head_m == second.opening_head_m && first.opening_sill_m == second.opening_sill_m &&
           first.opening_jamb_m == second.opening_jamb_m && first.opening_head == second.opening_head &&
           first.opening_sill == second.opening_sill && first.opening_jamb == second.opening_jamb &&
           first.window_frame_u_w_per_m2k == second.window_frame_u_w_per_m2k &&
           first.window_frame_width_m == second.window_frame_width_m;
  }

  void add_opening(std::size_t index) {
    const Opening& opening = panel_.openings[index];
    const std::string name = opening.filling_name.empty() ? opening.name : opening.filling_name;
    const auto add = [&](Edge edge, const std::string& part, double length_m, DetailKind kind) {
      Junction junction =
          opening.filling_entity.empty() ? unknown("opening '" + opening.name + "' has no window or door") : of(kind);
      junction.edge = edge;
      junction.opening = index;
      junction.where = part + " of '" + name + "'";
      junction.length_m = length_m;
      add_or_lengthen(std::move(junction));
    };
    add(Edge::opening_head, "head", opening.width_m(), DetailKind::window_head);
    if (!stands_on_floor(opening)) add(Edge::opening_sill, "sill", opening.width_m(), DetailKind::window_sill);
    add(Edge::opening_jambs, "jambs", 2.0 * opening.height_m(), DetailKind::window_jamb);
  }

  void add_floors() {
    if (!oversail_ || !floors_.known()) return;
    const std::size_t floors = floors_.passed();
    if (floors == 0) return;
    Junction junction = of(DetailKind::floor_edge);
    junction.edge = Edge::floor;
    junction.where = floors == 1 ? "floor behind it" : std::to_string(floors) + " floors behind it";
    junction.length_m = static_cast<double>(floors) * panel_.width_m.value;
    result_.lines.push_back(std::move(junction));
  }

  const Junction* at(Edge edge) const {
    const auto found = std::find_if(result_.lines.begin(), result_.lines.end(),
                                    [&](const Junction& junction) { return junction.edge == edge; });
    return found == result_.lines.end() ? nullptr : &*found;
  }

  /// Joints at head and sole meet the corner with four panels, a floor that is passed with two.
  void add_points() {
    const std::size_t floors = oversail_ && floors_.known() ? floors_.passed() : 0;
    for (const Edge side : {Edge::left, Edge::right}) {
      const Junction* corner = at(side);
      if (corner == nullptr || corner->kind != DetailKind::external_corner) continue;
      for (const Edge edge : {Edge::head, Edge::sole}) {
        const Junction* floor = at(edge);
        if (floor == nullptr || floor->kind != DetailKind::floor_joint) continue;
        result_.points.push_back({corner->where + ", " + floor->where, DetailKind::floor_joint, 0.25});
      }
      for (std::size_t i = 0; i < floors; ++i) {
        result_.points.push_back({corner->where + ", floor behind it", DetailKind::floor_edge, 0.5});
      }
    }
  }
};

}  // namespace

Junctions find_junctions(const Panel& panel, const Project& project) {
  return JunctionFinder(panel, project).find();
}

}  // namespace panel_dossier::thermal
