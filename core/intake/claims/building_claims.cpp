#include "core/intake/claims/building_claims.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

// Floors and roofs are measured to structure or finish and plans to different faces: half a metre between two sources
// says nothing, and is far less than a storey or a bay (common practice).
constexpr double kMeasuredOtherwise_m = 0.5;
// Heads of panels may stand so far over the roof as a parapet (common practice).
constexpr double kHighestParapet_m = 1.5;
// Balconies and canopies reach so far over the outer faces, which a width is measured over (common practice).
constexpr double kDeepestBalcony_m = 2.0;

struct Extent {
  double least = std::numeric_limits<double>::infinity();
  double most = -std::numeric_limits<double>::infinity();

  void take(double value) {
    least = std::min(least, value);
    most = std::max(most, value);
  }
  void take(double from, double to) {
    take(from);
    take(to);
  }
  bool is_empty() const { return most < least; }
  double size() const { return most - least; }
};

/// The upper end of something, and what it is called.
struct Top {
  double z_m;
  double allowance_m;  ///< so far may a stated height fall short of it
  std::string name;
};

std::string named(const Neighbour& neighbour) {
  return std::string(to_string(neighbour.kind)) + " '" +
         (neighbour.name.empty() ? neighbour.global_id : neighbour.name) + "'";
}

bool is_upright(const Neighbour& neighbour) {
  return neighbour.kind == NeighbourKind::wall || neighbour.kind == NeighbourKind::curtain_wall;
}

/// From x or from y of a box.
using Axis = double Vec3::*;

/// True where the intervals leave a gap wider than `gap_m` between two of them.
bool falls_apart(std::vector<std::pair<double, double>> intervals, double gap_m) {
  std::sort(intervals.begin(), intervals.end());
  double reached = intervals.empty() ? 0.0 : intervals.front().second;
  for (const auto& [from, to] : intervals) {
    if (from > reached + gap_m) return true;
    reached = std::max(reached, to);
  }
  return false;
}

struct PanelsExtent {
  Extent z;              ///< in the project's frame
  double area_m2 = 0.0;  ///< of the faces that are part of the envelope, or do not say
};

PanelsExtent extent_of(const Project& project) {
  PanelsExtent extent;
  for (const Panel& panel : project.panels) {
    const auto external = panel.properties.logical("Pset_WallCommon", "IsExternal");
    if (!external || external->value) extent.area_m2 += panel.gross_area_m2();
    for (const double z : {0.0, panel.height_m.value}) extent.z.take(panel.frame.to_parent(Vec3{0.0, 0.0, z}).z);
  }
  return extent;
}

std::string to_centimetre(double value_m) {
  return fixed_text(value_m, 2) + " m";
}

class BuildingClaims {
 public:
  BuildingClaims(Settings& settings, const Project& project, std::string file, Confirmations& confirmations)
      : settings_(settings),
        project_(project),
        file_(std::move(file)),
        confirmations_(confirmations),
        panels_(extent_of(project)) {}

  Diagnostics look() {
    if (project_.panels.empty()) return {};
    look_at_ground();
    look_at_storeys();
    look_at_height();
    look_at_plan();
    look_at_envelope();
    return std::move(diagnostics_);
  }

 private:
  Settings& settings_;
  const Project& project_;
  std::string file_;
  Confirmations& confirmations_;
  PanelsExtent panels_;
  Diagnostics diagnostics_;

  void contradict(const std::string& key, double value, const std::string& shown, const std::string& export_says) {
    if (confirmations_.confirm(key, {}, value, export_says)) return;
    const std::string what = "is " + shown + ", but " + export_says;
    const std::string advice = "correct one of them, or confirm it with a reason under `confirmed_values`";
    settings_.withhold(key, "setting " + key + " " + what + "; " + advice);
    diagnostics_.push_back({Severity::warning, file_, 0, 0, key, {}, what + ", and is not used", advice});
  }

  /// Of the ground in the height system of the storeys: the setting, else the lowest storey.
  std::optional<double> ground() const {
    if (const auto set = settings_.number("building.ground_level_m")) return set->value;
    for (const Storey& storey : project_.storeys) {
      if (storey.elevation_m) return storey.elevation_m->value;
    }
    return std::nullopt;
  }

  void look_at_ground() {
    const auto stated = settings_.number("building.ground_level_m");
    if (!stated) return;
    if (stated->value > panels_.z.least + kMeasuredOtherwise_m) {
      contradict("building.ground_level_m", stated->value, to_centimetre(stated->value),
                 "the lowest panel of the export stands at " + to_centimetre(panels_.z.least));
      return;
    }
    Extent terrain;
    for (const Neighbour& neighbour : project_.neighbours) {
      if (neighbour.kind != NeighbourKind::ground || !neighbour.bounds) continue;
      terrain.take(neighbour.bounds->min.z, neighbour.bounds->max.z);
    }
    if (terrain.is_empty() || (stated->value >= terrain.least - kMeasuredOtherwise_m &&
                               stated->value <= terrain.most + kMeasuredOtherwise_m)) {
      return;
    }
    contradict("building.ground_level_m", stated->value, to_centimetre(stated->value),
               "the terrain of the export lies between " + to_centimetre(terrain.least) + " and " +
                   to_centimetre(terrain.most));
  }

  /// What heights are counted from, for a reason.
  std::string above_ground() const {
    const bool is_set = settings_.number("building.ground_level_m").has_value();
    return is_set ? " above the ground" : " above the lowest storey (set building.ground_level_m if that is no ground)";
  }

  void look_at_storeys() {
    const auto stated = settings_.number("building.top_storey_height_m");
    const auto ground_m = ground();
    if (!stated || !ground_m) return;
    std::optional<double> top;
    std::string name;
    const auto take = [&](std::optional<std::size_t> index, const char* what) {
      if (!index) return;
      const Storey& storey = project_.storeys[*index];
      if (!storey.elevation_m || (top && storey.elevation_m->value <= *top)) return;
      top = storey.elevation_m->value;
      name = "storey '" + storey.name + "' of the export, which has " + what + ",";
    };
    for (const Panel& panel : project_.panels) take(panel.storey, "panels");
    for (const Neighbour& neighbour : project_.neighbours) {
      // What is no higher than a parapet stands on a roof.
      const bool is_storey_high = neighbour.bounds && neighbour.bounds->size().z > kHighestParapet_m;
      if (is_upright(neighbour) && is_storey_high) take(neighbour.storey, "walls");
    }
    if (!top) return;
    const double height = *top - *ground_m;
    if (stated->value >= height - kMeasuredOtherwise_m) return;
    contradict("building.top_storey_height_m", stated->value, to_centimetre(stated->value),
               name + " lies " + to_centimetre(height) + above_ground());
  }

  /// Of panels, walls, slabs and roofs.
  std::vector<Top> tops() const {
    std::vector<Top> found{{panels_.z.most, kHighestParapet_m, "the highest panel of the export"}};
    for (const Neighbour& neighbour : project_.neighbours) {
      const bool is_plate = neighbour.kind == NeighbourKind::slab || neighbour.kind == NeighbourKind::roof;
      if (!neighbour.bounds || (!is_plate && !is_upright(neighbour))) continue;
      found.push_back({neighbour.bounds->max.z, is_plate ? kMeasuredOtherwise_m : kHighestParapet_m,
                       named(neighbour) + " of the export"});
    }
    return found;
  }

  void look_at_height() {
    const auto stated = settings_.number("building.height_m");
    const auto ground_m = ground();
    if (!stated || !ground_m) return;
    const std::vector<Top> all = tops();
    const auto least = std::max_element(all.begin(), all.end(), [](const Top& a, const Top& b) {
      return a.z_m - a.allowance_m < b.z_m - b.allowance_m;
    });
    if (stated->value < least->z_m - least->allowance_m - *ground_m) {
      contradict("building.height_m", stated->value, to_centimetre(stated->value),
                 least->name + " ends " + to_centimetre(least->z_m - *ground_m) + above_ground());
      return;
    }
    const bool has_roof =
        std::any_of(project_.neighbours.begin(), project_.neighbours.end(), [](const Neighbour& neighbour) {
          return neighbour.kind == NeighbourKind::roof && neighbour.bounds.has_value();
        });
    double top = panels_.z.most;
    for (const Neighbour& neighbour : project_.neighbours) {
      if (neighbour.bounds && neighbour.kind != NeighbourKind::ground) top = std::max(top, neighbour.bounds->max.z);
    }
    if (!has_roof || stated->value <= top - *ground_m + kMeasuredOtherwise_m) return;
    contradict(
        "building.height_m", stated->value, to_centimetre(stated->value),
        "nothing of the export, which has a roof, ends more than " + to_centimetre(top - *ground_m) + above_ground());
  }

  void look_at_plan() {
    if (project_.neighbours.empty() || stands_in_blocks()) return;
    look_at_size("building.width_m", &Vec3::x, "x");
    look_at_size("building.depth_m", &Vec3::y, "y");
  }

  /// What of the export reaches over the plan along an axis.
  std::vector<std::pair<double, double>> reaches(Axis axis, bool with_slabs) const {
    std::vector<std::pair<double, double>> found;
    for (const Panel& panel : project_.panels) {
      const Box3 box = panel.world_bounds();
      found.emplace_back(box.min.*axis, box.max.*axis);
    }
    for (const Neighbour& neighbour : project_.neighbours) {
      const bool is_slab = neighbour.kind == NeighbourKind::slab;
      if (!neighbour.bounds || (!is_upright(neighbour) && !(is_slab && with_slabs))) continue;
      found.emplace_back(neighbour.bounds->min.*axis, neighbour.bounds->max.*axis);
    }
    return found;
  }

  bool stands_in_blocks() const {
    const auto gap = settings_.number("building.block_gap_m");
    return gap &&
           (falls_apart(reaches(&Vec3::x, true), gap->value) || falls_apart(reaches(&Vec3::y, true), gap->value));
  }

  void look_at_size(const std::string& key, Axis axis, const char* axis_name) {
    const auto stated = settings_.number(key);
    if (!stated) return;
    Extent of_walls;
    Extent of_all;
    for (const auto& [from, to] : reaches(axis, false)) of_walls.take(from, to);
    for (const auto& [from, to] : reaches(axis, true)) of_all.take(from, to);
    const auto reach = [&](const char* what, double size_m) {
      return std::string(what) + " of the export reach over " + to_centimetre(size_m) + " along " + axis_name;
    };
    const bool has_neighbour_walls =
        std::any_of(project_.neighbours.begin(), project_.neighbours.end(),
                    [](const Neighbour& neighbour) { return neighbour.bounds && is_upright(neighbour); });
    const bool has_slabs = std::any_of(
        project_.neighbours.begin(), project_.neighbours.end(),
        [](const Neighbour& neighbour) { return neighbour.bounds && neighbour.kind == NeighbourKind::slab; });
    if (has_neighbour_walls && stated->value < of_walls.size() - kMeasuredOtherwise_m) {
      contradict(key, stated->value, to_centimetre(stated->value), reach("panels and walls", of_walls.size()));
    } else if (has_slabs && stated->value < of_all.size() - kDeepestBalcony_m) {
      contradict(key, stated->value, to_centimetre(stated->value), reach("panels, walls and slabs", of_all.size()));
    } else if (has_slabs && stated->value > of_all.size() + kMeasuredOtherwise_m) {
      contradict(key, stated->value, to_centimetre(stated->value),
                 reach("all panels, walls and slabs", of_all.size()) + " alone");
    }
  }

  void look_at_envelope() {
    const auto envelope = settings_.number("building.envelope_area_m2");
    if (envelope && envelope->value < panels_.area_m2) {
      contradict("building.envelope_area_m2", envelope->value, fixed_text(envelope->value, 1) + " m²",
                 "the panels of the export alone have " + fixed_text(panels_.area_m2, 1) + " m²");
    }
    const auto volume = settings_.number("building.volume_m3");
    if (!envelope || !volume) return;
    // No body holds more than a sphere of the same surface: V ≤ A^1.5 / (6 √π).
    const double most = std::pow(envelope->value, 1.5) / (6.0 * std::sqrt(std::numbers::pi));
    if (volume->value <= most) return;
    contradict("building.volume_m3", volume->value, fixed_text(volume->value, 1) + " m³",
               "an envelope of " + fixed_text(envelope->value, 1) + " m² holds at most " + fixed_text(most, 1) + " m³");
  }
};

}  // namespace

Diagnostics withhold_contradicted(Settings& settings, const Project& project, const std::string& settings_file,
                                  Confirmations& confirmations) {
  return BuildingClaims(settings, project, settings_file, confirmations).look();
}

}  // namespace panel_dossier
