#include "plugins/structural/wind/facade.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

namespace panel_dossier::structural {

std::optional<GroundLevel> ground_level(const Project& project, const Settings& settings) {
  if (const auto given = settings.number("building.ground_level_m")) return GroundLevel{*given, false};
  // Storeys stand in ascending order; those without an elevation say nothing.
  for (const Storey& storey : project.storeys) {
    if (storey.elevation_m) return GroundLevel{*storey.elevation_m, true};
  }
  return std::nullopt;
}

HeightAboveGround height_above_ground(const Panel& panel, const GroundLevel& ground) {
  const double foot_m = panel.frame.origin.z - ground.level_m.value;
  return {foot_m, foot_m + panel.height_m.value};
}

std::string ground_note(const GroundLevel& ground) {
  if (!ground.assumed) return {};
  return "Ground is taken at the lowest storey's elevation, for setting building.ground_level_m is not given.";
}

namespace {

/// Directions within about half a degree are one: placements are written with rounded direction cosines.
constexpr double kSameDirectionCosine = 0.99996;
constexpr double kUprightCosine = 0.9999;
constexpr double kSquareCosine = 0.009;

bool is_placed(const Panel& panel) {
  const Vec3 corner = panel.frame.to_parent(Vec3{panel.width_m.value, panel.thickness_m.value, panel.height_m.value});
  const double sum = dot(corner, {1.0, 1.0, 1.0}) + dot(panel.frame.origin, {1.0, 1.0, 1.0});
  return std::isfinite(sum) && panel.width_m.value > 0.0 && panel.height_m.value > 0.0 &&
         panel.frame.z_axis.z > kUprightCosine;
}

Vec3 level(const Vec3& direction) {
  const Vec3 flat{direction.x, direction.y, 0.0};
  return flat * (1.0 / length(flat));
}

/// Splits panels into groups between which nothing stands over a length of `gap_m` along the axis.
std::vector<std::vector<std::size_t>> split_by_gaps(const Project& project, std::vector<std::size_t> panels,
                                                    const Vec3& axis, double gap_m) {
  std::map<std::size_t, Stretch> extents;
  for (const std::size_t index : panels) extents[index] = extent_along(project.panels[index], axis);
  std::stable_sort(panels.begin(), panels.end(),
                   [&](std::size_t a, std::size_t b) { return extents[a].from_m < extents[b].from_m; });
  std::vector<std::vector<std::size_t>> groups;
  double reach_m = 0.0;
  for (const std::size_t index : panels) {
    const Stretch& extent = extents[index];
    if (groups.empty() || extent.from_m - reach_m > gap_m) {
      groups.emplace_back();
      reach_m = extent.to_m;
    }
    groups.back().push_back(index);
    reach_m = std::max(reach_m, extent.to_m);
  }
  for (auto& group : groups) std::sort(group.begin(), group.end());
  return groups;
}

std::vector<std::vector<std::size_t>> blocks_of(const Project& project, const Settings& settings) {
  std::map<std::string, std::vector<std::size_t>> buildings;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    if (is_placed(project.panels[i])) buildings[project.panels[i].building].push_back(i);
  }
  const auto gap = settings.number("building.block_gap_m");
  const bool splits = gap && gap->value > 0.0;
  std::vector<std::vector<std::size_t>> blocks;
  for (auto& [name, panels] : buildings) {
    if (!splits) {
      blocks.push_back(std::move(panels));
      continue;
    }
    for (auto& column : split_by_gaps(project, std::move(panels), {1.0, 0.0, 0.0}, gap->value)) {
      for (auto& block : split_by_gaps(project, std::move(column), {0.0, 1.0, 0.0}, gap->value)) {
        blocks.push_back(std::move(block));
      }
    }
  }
  return blocks;
}

Stretch extent_of(const Project& project, const std::vector<std::size_t>& panels, const Vec3& along) {
  Stretch all = extent_along(project.panels[panels.front()], along);
  for (const std::size_t index : panels) {
    const Stretch one = extent_along(project.panels[index], along);
    all = {std::min(all.from_m, one.from_m), std::max(all.to_m, one.to_m)};
  }
  return all;
}

/// Whether the façades lie on the sides of one rectangle, and on how many of them.
void classify(std::vector<Facade>& facades, std::size_t first) {
  for (std::size_t i = first; i < facades.size(); ++i) {
    std::array<bool, 4> sides{};
    bool rectangular = true;
    for (std::size_t j = first; j < facades.size(); ++j) {
      const double ahead = dot(facades[i].outward, facades[j].outward);
      const double aside = dot(facades[i].along, facades[j].outward);
      if (std::abs(ahead) < kSquareCosine) {
        sides[aside > 0.0 ? 1 : 3] = true;
      } else if (std::abs(aside) < kSquareCosine) {
        sides[ahead > 0.0 ? 0 : 2] = true;
      } else {
        rectangular = false;
      }
    }
    facades[i].rectangular = rectangular;
    facades[i].sides = static_cast<std::size_t>(std::count(sides.begin(), sides.end(), true));
  }
}

void lay_out_block(const Project& project, const std::vector<std::size_t>& panels, std::size_t block,
                   FacadeLayout& layout) {
  const std::size_t first = layout.facades.size();
  for (const std::size_t index : panels) {
    const Panel& panel = project.panels[index];
    if (!panel.outside_known) continue;
    const Vec3 outward = level(panel.frame.y_axis);
    const auto begin = layout.facades.begin() + static_cast<std::ptrdiff_t>(first);
    auto facade = std::find_if(begin, layout.facades.end(),
                               [&](const Facade& one) { return dot(one.outward, outward) > kSameDirectionCosine; });
    if (facade == layout.facades.end()) {
      Facade made;
      made.block = block;
      made.outward = outward;
      made.along = cross({0.0, 0.0, 1.0}, outward);
      facade = layout.facades.insert(facade, std::move(made));
    }
    facade->panels.push_back(index);
    layout.facade[index] = static_cast<std::size_t>(facade - layout.facades.begin());
  }
  for (std::size_t i = first; i < layout.facades.size(); ++i) {
    Facade& facade = layout.facades[i];
    const Stretch along = extent_of(project, panels, facade.along);
    const Stretch across = extent_of(project, panels, facade.outward);
    facade.from_m = along.from_m;
    facade.to_m = along.to_m;
    facade.depth_m = across.to_m - across.from_m;
  }
  classify(layout.facades, first);
}

}  // namespace

Stretch extent_along(const Panel& panel, const Vec3& along) {
  const double start_m = dot(panel.frame.origin, along);
  const double x_m = panel.width_m.value * dot(panel.frame.x_axis, along);
  const double y_m = panel.thickness_m.value * dot(panel.frame.y_axis, along);
  return {start_m + std::min(x_m, 0.0) + std::min(y_m, 0.0), start_m + std::max(x_m, 0.0) + std::max(y_m, 0.0)};
}

FacadeLayout lay_out_facades(const Project& project, const Settings& settings) {
  FacadeLayout layout;
  layout.facade.resize(project.panels.size());
  const auto blocks = blocks_of(project, settings);
  for (std::size_t i = 0; i < blocks.size(); ++i) lay_out_block(project, blocks[i], i, layout);
  return layout;
}

std::string facade_name(const Facade& facade, const Project& project) {
  constexpr std::array<const char*, 8> kPoints{"north", "north-east", "east", "south-east",
                                               "south", "south-west", "west", "north-west"};
  constexpr double kDegrees = 180.0 / std::numbers::pi;
  const double anticlockwise_deg = std::atan2(facade.outward.y, facade.outward.x) * kDegrees;
  const double bearing_deg = std::fmod(90.0 + project.true_north_rad * kDegrees - anticlockwise_deg + 720.0, 360.0);
  const auto point = static_cast<std::size_t>(std::lround(bearing_deg / 45.0)) % kPoints.size();
  const auto whole_deg = std::lround(bearing_deg) % 360;
  return "facing " + std::string(kPoints[point]) + " (bearing " + std::to_string(whole_deg) + "° from true north)";
}

}  // namespace panel_dossier::structural
