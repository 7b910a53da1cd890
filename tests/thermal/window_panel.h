// The ordinary timber panel with a window whose junctions can be calculated.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "tests/thermal/heated_panel.h"

namespace panel_dossier::testing {

/// A window between the second and third stud, with timber over and under it and the settings of its details.
inline HeatedPanel panel_with_window(std::optional<double> u_value = 1.2) {
  HeatedPanel model;
  add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, u_value);
  add_part(model.panel(), PartKind::lintel, "Lintel", model.timber, {{0.6225, 0.0125, 2.0}, {1.1775, 0.1525, 2.145}});
  add_part(model.panel(), PartKind::blocking, "Sill", model.timber, {{0.6225, 0.0125, 0.955}, {1.1775, 0.1525, 1.0}});
  const std::pair<const char*, double> details[] = {
      {"window_frame_depth_m", 0.080},  {"window_frame_width_m", 0.100}, {"window_frame_u_w_per_m2k", 1.2},
      {"window_frame_offset_m", 0.050}, {"window_gap_m", 0.012},         {"window_gap_conductivity_w_per_mk", 0.035}};
  for (const auto& [key, value] : details) model.settings.set(std::string("thermal.details.") + key, value);
  return model;
}

}  // namespace panel_dossier::testing
