// The field of application of a fire test against the panel: size, load, studs, openings, fixings and the layers that
// the test was made on.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"

namespace panel_dossier::fire {

/// Compares the panel with the limits of Panel_FireEvidence, records both as inputs and adds them as a table. Returns
/// an open point for each limit that the panel does not meet or that is not given, and for each value of the panel that
/// is not known: height, width, stud depth and spacing, the boards' fasteners, layers, where there are openings their
/// size and when `load_bearing` the load. The finding gives height and width already.
/// The layers are compared by tested_layers.h.
std::vector<std::string> compare_field_of_application(FindingBuilder& builder, const Panel& panel,
                                                      const Project& project, bool load_bearing);
/// What it reads beside the panel's geometry.
std::vector<CheckInput> field_of_application_inputs();

}  // namespace panel_dossier::fire
