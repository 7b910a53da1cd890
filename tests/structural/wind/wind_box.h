// A rectangular building of panels on its four sides, with settings for wind by zones.
#pragma once

#include <stdexcept>
#include <string>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "tests/support/cassette_settings.h"

namespace panel_dossier::testing {

/// Outer size of the building in plan, in m; its south-west corner is the origin.
inline constexpr double kBoxWidth_m = 24.0;
inline constexpr double kBoxDepth_m = 12.0;

/// One panel, its left lower corner seen from inside at `start`, running along `x_axis`.
inline Panel box_panel(const std::string& mark, double width_m, Vec3 start, Vec3 x_axis) {
  Panel panel = cassette_project().panels.front();
  panel.global_id = "guid-" + mark;
  panel.mark = mark;
  panel.width_m.value = width_m;
  panel.frame = {start, x_axis, cross({0.0, 0.0, 1.0}, x_axis), {0.0, 0.0, 1.0}};
  return panel;
}

/// Panels 3 m wide and high from corner to corner, in one storey; marks N1, N2 … from the left seen from inside, the
/// panels of the short sides between those of the long ones.
inline Project box_project() {
  Project project = cassette_project();
  const double thickness_m = project.panels.front().thickness_m.value;
  project.panels.clear();
  for (int i = 0; i < 8; ++i) {
    const std::string number = std::to_string(i + 1);
    const double from_m = 3.0 * i;
    project.panels.push_back(box_panel("N" + number, 3.0, {from_m, kBoxDepth_m - thickness_m, 0.0}, {1.0, 0.0, 0.0}));
    project.panels.push_back(box_panel("S" + number, 3.0, {kBoxWidth_m - from_m, thickness_m, 0.0}, {-1.0, 0.0, 0.0}));
  }
  for (int i = 0; i < 4; ++i) {
    const std::string number = std::to_string(i + 1);
    const double share_m = (kBoxDepth_m - 2.0 * thickness_m) / 4.0;
    const double from_m = thickness_m + share_m * i;
    project.panels.push_back(
        box_panel("E" + number, share_m, {kBoxWidth_m - thickness_m, kBoxDepth_m - from_m, 0.0}, {0.0, -1.0, 0.0}));
    project.panels.push_back(box_panel("W" + number, share_m, {thickness_m, from_m, 0.0}, {0.0, 1.0, 0.0}));
  }
  return project;
}

/// The building is 10 m high in terrain category III at 22.5 m/s: q_p(10 m) = 540.8 Pa.
inline Settings box_settings() {
  return without(cassette_settings(), "structural.wind.external_pressure_coefficient");
}

inline const Panel& panel_marked(const Project& project, const std::string& mark) {
  for (const Panel& panel : project.panels) {
    if (panel.mark == mark) return panel;
  }
  throw std::out_of_range("no panel " + mark);
}

}  // namespace panel_dossier::testing
