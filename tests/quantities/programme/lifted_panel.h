// A panel that a crane lifts, and the cycle of the lift, for the tests of this folder and those against published
// figures.
#pragma once

#include <string>

#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "tests/quantities/cassette.h"

namespace panel_dossier::quantities::test {

inline void add_fasteners(Panel& panel, const std::string& type, int count) {
  Part part;
  part.kind = PartKind::fastener;
  part.name = type;
  part.object_type = type;
  part.count = count;
  panel.parts.push_back(part);
}

/// 3.0 m x 3.3 m, two lifting loops, six brackets and two ties: eight fixings. Its foot stands `height_m` above the
/// ground, its middle `radius_m` from a crane at the origin.
inline Panel lifted_panel(double radius_m, double height_m) {
  Panel panel = cassette("P1");
  panel.width_m.value = 3.0;
  panel.height_m.value = 3.3;
  panel.thickness_m.value = 0.3;
  panel.frame.origin = {radius_m - 1.5, -0.15, height_m};
  add_fasteners(panel, "LIFTING LOOP", 2);
  add_fasteners(panel, "BRACKET", 6);
  add_fasteners(panel, "TIE_DOWN", 2);
  return panel;
}

/// Times, speeds and shares of an ordinary lift (common practice).
inline Settings lift_settings() {
  Settings result;
  result.set("quantities.lift_cycle.attach_min_per_point", 1.5);
  result.set("quantities.lift_cycle.clearance_m", 2.0);
  result.set("quantities.lift_cycle.hoist_m_per_min", 20.0);
  result.set("quantities.lift_cycle.turn_deg", 90.0);
  result.set("quantities.lift_cycle.travel_m_per_min", 40.0);
  result.set("quantities.lift_cycle.place_min", 8.0);
  result.set("quantities.lift_cycle.fix_min_per_fixing", 4.0);
  result.set("quantities.lift_cycle.fixers", 3.0);
  result.set("quantities.lift_cycle.fixed_before_release", 0.5);
  result.set("quantities.lift_cycle.release_min", 1.5);
  result.set("quantities.hours_per_day", 8.0);
  result.set("quantities.crane_hours_per_day", 6.0);
  result.set("building.ground_level_m", 0.0);
  result.set("structural.crane.x_m", 0.0);
  result.set("structural.crane.y_m", 0.0);
  return result;
}

}  // namespace panel_dossier::quantities::test
