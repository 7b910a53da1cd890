// Adds to a panel what lifting, transport and fixing to the frame ask for.
#pragma once

#include <string>
#include <utility>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "tests/support/cassette_settings.h"

namespace panel_dossier::testing {

inline Part fastener_part(std::string name, std::string object_type, Box3 bounds, int count) {
  Part part = box_part(std::move(name), PartKind::fastener, kTimber, bounds);
  part.object_type = std::move(object_type);
  part.volume_m3.reset();
  part.count = count;
  part.properties.add("Panel_FastenerQuantities", "GrossWeight", property_of(1.0));
  return part;
}

inline Part lifting_loop(double x_m, double height_m, double limit_n) {
  Part part = fastener_part("Loop at " + std::to_string(static_cast<int>(x_m * 1000.0)), "LIFTING LOOP",
                            {{x_m - 0.04, 0.06, height_m - 0.3}, {x_m + 0.04, 0.10, height_m}}, 1);
  part.properties.add("Panel_Fastener", "WorkingLoadLimit", property_of(limit_n));
  part.properties.add("Panel_Fastener", "ScrewsPerPiece", property_of(4.0));
  return part;
}

/// Two loops at a quarter of the width from either edge, eight brackets, and no part without a shape.
inline void make_hoistable(Project& project) {
  Panel& panel = project.panels.front();
  const double width = panel.width_m.value;
  const double height = panel.height_m.value;
  std::erase_if(panel.parts, [](const Part& part) { return !part.bounds.has_value(); });
  std::erase_if(panel.layers, [](const Layer& layer) { return layer.name == "outer board"; });
  panel.layers.front().material = kOsb;
  panel.layers.back().material = kTimber;
  panel.parts.push_back(lifting_loop(width / 4.0, height, 10000.0));
  panel.parts.push_back(lifting_loop(width * 3.0 / 4.0, height, 10000.0));
  Part bracket = fastener_part("Brackets", "bracket", {{0.0, 0.012, 0.0}, {width, 0.157, height}}, 8);
  bracket.properties.add("Panel_Fastener", "Spacing", property_of(0.8));
  bracket.properties.add("Panel_Fastener", "ScrewsPerPiece", property_of(4.0));
  bracket.properties.add("Panel_Fastener", "ScrewDiameter", property_of(0.008));
  bracket.properties.add("Panel_Fastener", "ScrewPenetration", property_of(0.060));
  bracket.properties.add("Panel_Fastener", "DesignTension", property_of(9000.0));
  bracket.properties.add("Panel_Fastener", "DesignShear", property_of(8000.0));
  bracket.properties.add("Panel_Fastener", "Adjustment", property_of(0.020));
  panel.parts.push_back(std::move(bracket));
}

inline Settings hoisting_settings(Settings settings = cassette_settings()) {
  const std::pair<const char*, double> values[] = {{"frame.gap_m", 0.020},
                                                   {"frame.deflection_m", 0.012},
                                                   {"frame.head_movement_m", 0.020},
                                                   {"frame.tolerance_m", 0.015},
                                                   {"lifting.dynamic_factor", 1.3},
                                                   {"lifting.sling_angle_deg", 30.0},
                                                   {"lifting.stop_wind_m_per_s", 9.0},
                                                   {"crane.x_m", 0.0},
                                                   {"crane.y_m", -15.0},
                                                   {"crane.gear_kg", 300.0},
                                                   {"crane.capacities.0.radius_m", 10.0},
                                                   {"crane.capacities.0.capacity_kg", 5000.0},
                                                   {"crane.capacities.1.radius_m", 20.0},
                                                   {"crane.capacities.1.capacity_kg", 2000.0},
                                                   {"transport.bed_length_m", 13.6},
                                                   {"transport.deck_height_m", 0.9},
                                                   {"transport.overall_height_m", 4.9},
                                                   {"transport.payload_kg", 24000.0}};
  for (const auto& [key, value] : values) settings.set(std::string("structural.") + key, value);
  settings.set("structural.lifting.equalised", true);
  return settings;
}

/// Under 1.0 kPa of wind, ready for all checks.
inline Project hoisted_project() {
  Project project = cassette_project();
  project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
  make_hoistable(project);
  return project;
}

}  // namespace panel_dossier::testing
