// The detail that the benchmark and the finite-element check share.
#pragma once

#include "plugins/thermal/junctions/conduction_detail.h"

namespace panel_dossier::bench {

/// Two wall panels of 325 mm with timber studs of 45 mm at their edges and a joint of 10 mm between them.
inline thermal::conduction::Model panel_joint() {
  thermal::conduction::DetailBuildUp build_up;
  build_up.layers = {{"gypsum board", 0.0125, 0.25, Hatch::board, false},
                     {"service void", 0.045, 0.25, Hatch::air, false},
                     {"sheathing", 0.012, 0.13, Hatch::board, false},
                     {"mineral wool", 0.240, 0.035, Hatch::insulation, true},
                     {"board", 0.015, 0.24, Hatch::board, false}};
  build_up.framing_conductivity_w_per_mk = 0.13;
  build_up.edge_stud_m = 0.045;
  Settings settings;
  settings.set("thermal.details.joint_width_m", 0.010);
  settings.set("thermal.details.joint_conductivity_w_per_mk", 0.040);
  return make_detail(thermal::conduction::DetailKind::panel_joint, build_up, settings).model;
}

}  // namespace panel_dossier::bench
