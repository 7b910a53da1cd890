#include "plugins/fire/facade/cavity_lines.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/facade/reaction_class.h"
#include "plugins/fire/tolerances.h"

namespace panel_dossier::fire {

namespace {

std::optional<ReactionClass> class_at(const Panel& panel, std::size_t layer, const Project& project) {
  const auto material = panel.layers[layer].material;
  return material ? class_of(project, *material, panel.layers[layer].name).parsed : std::nullopt;
}

bool is_barrier(const Part& part) {
  return part.object_type == "CAVITY_BARRIER" && part.bounds.has_value();
}

void add_opening(std::vector<BarrierLine>& lines, const Panel& panel, const Opening& opening) {
  const std::string name = "'" + opening.name + "'";
  const double foot_m = std::max(0.0, opening.z_min_m);
  const double head_m = std::min(panel.height_m.value, opening.z_max_m);
  lines.push_back({"head of " + name, true, head_m, {opening.x_min_m, opening.x_max_m}});
  if (foot_m > kAtEdge_m) lines.push_back({"sill of " + name, true, foot_m, {opening.x_min_m, opening.x_max_m}});
  lines.push_back({"left jamb of " + name, false, opening.x_min_m, {foot_m, head_m}});
  lines.push_back({"right jamb of " + name, false, opening.x_max_m, {foot_m, head_m}});
}

/// Floors of the panel's building above its own, in m above the panel's foot.
std::vector<std::pair<double, std::string>> floors_above(const Panel& panel, const Project& project) {
  std::vector<std::pair<double, std::string>> floors;
  const Storey& own = project.storeys[*panel.storey];
  for (const Storey& storey : project.storeys) {
    if (!storey.elevation_m || !own.elevation_m || storey.building != own.building) continue;
    const double above_m = storey.elevation_m->value - own.elevation_m->value;
    if (above_m > kAtEdge_m) floors.emplace_back(above_m, storey.name);
  }
  return floors;
}

bool is_lowest(const Panel& panel, const Project& project) {
  const Storey& own = project.storeys[*panel.storey];
  return std::none_of(project.storeys.begin(), project.storeys.end(), [&](const Storey& storey) {
    return storey.building == own.building && storey.elevation_m && own.elevation_m &&
           storey.elevation_m->value < own.elevation_m->value;
  });
}

void add_levels(std::vector<BarrierLine>& lines, const Panel& panel, const Project& project, bool floors) {
  const double width_m = panel.width_m.value;
  const double height_m = panel.height_m.value;
  const bool known = panel.storey.has_value();
  if (!known || is_lowest(panel, project)) {
    lines.push_back({"foot of the cavity", true, 0.0, {0.0, width_m}});
  } else if (floors) {
    lines.push_back({"floor '" + project.storeys[*panel.storey].name + "'", true, 0.0, {0.0, width_m}});
  }
  bool storey_above = false;
  if (known) {
    for (const auto& [above_m, name] : floors_above(panel, project)) {
      if (floors && above_m < height_m - kAtEdge_m)
        lines.push_back({"floor '" + name + "'", true, above_m, {0.0, width_m}});
      storey_above = storey_above || (above_m >= height_m - kAtEdge_m && above_m <= height_m + kFloorAboveHead_m);
    }
  }
  if (!storey_above) lines.push_back({"head of the cavity", true, height_m, {0.0, width_m}});
}

/// The parts of a level line that no opening takes away.
std::vector<BarrierLine> outside_openings(const Panel& panel, const BarrierLine& line) {
  std::vector<BarrierLine> pieces{line};
  for (const Opening& opening : panel.openings) {
    if (line.at_m < opening.z_min_m || line.at_m >= opening.z_max_m) continue;
    std::vector<BarrierLine> next;
    for (const BarrierLine& piece : pieces) {
      BarrierLine left = piece;
      BarrierLine right = piece;
      left.stretch.to = std::min(piece.stretch.to, opening.x_min_m);
      right.stretch.from = std::max(piece.stretch.from, opening.x_max_m);
      if (left.length_m() > 0.0) next.push_back(left);
      if (right.length_m() > 0.0) next.push_back(right);
    }
    pieces = std::move(next);
  }
  return pieces;
}

}  // namespace

std::optional<std::size_t> outer_cavity(const Panel& panel) {
  const auto framing = framing_layer(panel);
  if (!framing || !panel.outside_known) return std::nullopt;
  for (std::size_t i = *framing + 1; i < panel.layers.size(); ++i) {
    if (!panel.layers[i].material) return i;
  }
  return std::nullopt;
}

std::optional<Sourced<double>> cavity_limit_m(const Panel& panel, std::size_t cavity, const Project& project,
                                              const Settings& settings, const Tables& tables) {
  const auto jurisdiction = settings.text("project.jurisdiction");
  if (!jurisdiction || cavity + 1 >= panel.layers.size()) return std::nullopt;
  const std::string better = jurisdiction->value + "/better";
  const auto least = tables.cavity_limits.text(better, "least_class");
  const auto inner = class_at(panel, cavity - 1, project);
  const auto outer = class_at(panel, cavity + 1, project);
  const auto asked = least ? parse_reaction_class(least->value) : std::nullopt;
  if (!asked || !inner || !outer) return std::nullopt;
  const bool meets = inner->meets(*asked) && outer->meets(*asked);
  return tables.cavity_limits.number(meets ? better : jurisdiction->value + "/worse", "largest_m");
}

std::vector<BarrierLine> barrier_lines(const Panel& panel, const Project& project, const Settings& settings) {
  const auto floors = settings.logical("fire.compartment_floors");
  std::vector<BarrierLine> levels;
  add_levels(levels, panel, project, !floors || floors->value);
  std::vector<BarrierLine> lines;
  for (const BarrierLine& level : levels) {
    for (BarrierLine& piece : outside_openings(panel, level)) lines.push_back(std::move(piece));
  }
  for (const Opening& opening : panel.openings) add_opening(lines, panel, opening);
  return lines;
}

std::vector<BarrierLine> side_edges(const Panel& panel) {
  const double height_m = panel.height_m.value;
  return {{"left edge", false, 0.0, {0.0, height_m}}, {"right edge", false, panel.width_m.value, {0.0, height_m}}};
}

double provided_m(const Panel& panel, const BarrierLine& line) {
  std::vector<Stretch> barriers;
  for (const Part& part : panel.parts) {
    if (!is_barrier(part)) continue;
    const Box3& box = *part.bounds;
    const double across_m = line.horizontal ? box.centre().z : box.centre().x;
    if (std::abs(across_m - line.at_m) > kBesideLine_m) continue;
    barriers.push_back(line.horizontal ? Stretch{box.min.x, box.max.x} : Stretch{box.min.z, box.max.z});
  }
  return line.length_m() - bare_length_m(line.stretch, std::move(barriers));
}

bool has_barriers(const Panel& panel) {
  return std::any_of(panel.parts.begin(), panel.parts.end(), is_barrier);
}

}  // namespace panel_dossier::fire
