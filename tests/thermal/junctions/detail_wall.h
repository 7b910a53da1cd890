// A wall and the settings with which every junction detail of it can be drawn up.
#pragma once

#include <string>
#include <utility>

#include "core/api/model/settings.h"
#include "plugins/thermal/junctions/conduction_detail.h"

namespace panel_dossier::testing {

using thermal::conduction::DetailBuildUp;

inline DetailBuildUp wall() {
  DetailBuildUp build_up;
  build_up.layers = {{"lining", 0.0125, 0.25, Hatch::board, false},
                     {"wool", 0.240, 0.035, Hatch::insulation, true},
                     {"board", 0.015, 0.24, Hatch::board, false}};
  build_up.framing_conductivity_w_per_mk = 0.13;
  build_up.edge_stud_m = 0.045;
  build_up.head_rail_m = 0.045;
  build_up.sole_rail_m = 0.045;
  build_up.opening_head_m = 0.195;
  build_up.opening_sill_m = 0.045;
  build_up.opening_jamb_m = 0.090;
  return build_up;
}

inline Settings detail_settings() {
  Settings settings;
  const std::pair<const char*, double> values[] = {{"joint_width_m", 0.010},
                                                   {"joint_conductivity_w_per_mk", 0.040},
                                                   {"slab_thickness_m", 0.250},
                                                   {"slab_conductivity_w_per_mk", 2.3},
                                                   {"slab_edge_setback_m", 0.100},
                                                   {"slab_edge_insulation_thickness_m", 0.100},
                                                   {"slab_edge_insulation_conductivity_w_per_mk", 0.035},
                                                   {"column_width_m", 0.400},
                                                   {"column_depth_m", 0.400},
                                                   {"column_conductivity_w_per_mk", 2.3},
                                                   {"window_frame_depth_m", 0.080},
                                                   {"window_frame_width_m", 0.100},
                                                   {"window_frame_u_w_per_m2k", 1.2},
                                                   {"window_frame_offset_m", 0.120},
                                                   {"window_gap_m", 0.012},
                                                   {"window_gap_conductivity_w_per_mk", 0.035},
                                                   {"roof_slab_thickness_m", 0.250},
                                                   {"roof_slab_conductivity_w_per_mk", 2.3},
                                                   {"roof_insulation_thickness_m", 0.200},
                                                   {"roof_insulation_conductivity_w_per_mk", 0.030},
                                                   {"parapet_height_m", 0.500}};
  for (const auto& [key, value] : values) settings.set(std::string("thermal.details.") + key, value);
  return settings;
}

inline Settings changed(const std::string& key, double value) {
  Settings settings = detail_settings();
  settings.set("thermal.details." + key, value);
  return settings;
}

}  // namespace panel_dossier::testing
