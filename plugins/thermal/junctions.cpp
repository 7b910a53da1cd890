#include "plugins/thermal/junctions.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "plugins/thermal/neighbours.h"

namespace panel_dossier::thermal {

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
  }

  bool known() const { return known_; }
  bool is_lowest_storey() const { return lowest_; }
  /// A floor lies at this height over the panel's own floor.
  bool floor_at(double height_m) const {
    return std::any_of(above_m_.begin(), above_m_.end(),
                       [&](double floor) { return std::fabs(floor - height_m) <= kFloorReach_m; });
  }
  /// Floors that a panel from its own floor up to `height_m` passes.
  std::size_t passed(double height_m) const {
    return static_cast<std::size_t>(std::count_if(above_m_.begin(), above_m_.end(),
                                                  [&](double floor) { return floor < height_m - kFloorReach_m; }));
  }

 private:
  bool known_ = false;
  bool lowest_ = true;
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
    for (const Opening& opening : panel_.openings) add_opening(opening);
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
    if (floors_.floor_at(panel_.height_m.value)) {
      return oversail_ ? floor_joint(continues_above(panel_, project_)) : of(DetailKind::head_under_slab);
    }
    return of(oversail_ ? DetailKind::parapet : DetailKind::head_under_roof);
  }

  Junction sole() const {
    if (!floors_.known()) return unknown("its storey has no elevation, so what the sole meets is not known");
    if (floors_.is_lowest_storey()) return ground();
    return oversail_ ? floor_joint(continues_below(panel_, project_)) : of(DetailKind::sole_on_slab);
  }

  /// All of Ψ is this panel's where no other one meets it.
  static Junction floor_joint(bool with_panel) {
    Junction junction = of(DetailKind::floor_joint);
    junction.share = with_panel ? 0.5 : 1.0;
    return junction;
  }

  Junction side(Side side) const {
    const Neighbour neighbour = neighbour_at(panel_, side, project_);
    if (neighbour.meeting == Meeting::straight) return of(DetailKind::panel_joint);
    const bool room_for_column = neighbour.distance_m - panel_.thickness_m.value / 2.0 > kColumnRoom_m;
    if (neighbour.meeting == Meeting::external_corner) {
      return of(!oversail_ && room_for_column ? DetailKind::corner_column : DetailKind::external_corner);
    }
    if (neighbour.meeting == Meeting::internal_corner) return of(DetailKind::internal_corner);
    if (!oversail_) return of(DetailKind::edge_at_column);
    return unknown(std::string("no panel stands beside its ") + (side == Side::left ? "left" : "right") +
                   " edge; state what it meets in Panel_Junction." + (side == Side::left ? "Left" : "Right") +
                   " or its Ψ in Panel_Junction." + (side == Side::left ? "Left" : "Right") + "Transmittance");
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

  /// Openings of one name share their rows.
  void add_or_lengthen(Junction junction) {
    const auto same = std::find_if(result_.lines.begin(), result_.lines.end(), [&](const Junction& known) {
      return known.edge == junction.edge && known.where == junction.where && known.kind == junction.kind;
    });
    if (same == result_.lines.end()) {
      result_.lines.push_back(std::move(junction));
    } else {
      same->length_m += junction.length_m;
    }
  }

  void add_opening(const Opening& opening) {
    const std::string name = opening.filling_name.empty() ? opening.name : opening.filling_name;
    const auto add = [&](Edge edge, const std::string& part, double length_m, DetailKind kind) {
      Junction junction =
          opening.filling_entity.empty() ? unknown("opening '" + opening.name + "' has no window or door") : of(kind);
      junction.edge = edge;
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
    const std::size_t floors = floors_.passed(panel_.height_m.value);
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
    const std::size_t floors = oversail_ && floors_.known() ? floors_.passed(panel_.height_m.value) : 0;
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
