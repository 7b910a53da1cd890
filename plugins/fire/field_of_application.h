// The field of application of a fire test against the panel: size, load, studs and openings.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding_builder.h"
#include "core/api/panel.h"

namespace panel_dossier::fire {

/// Compares the panel with the limits of Panel_FireEvidence, records both as inputs and adds them as a table. Returns
/// an open point for each limit that the panel does not meet, and for a height, width or (when `load_bearing`) load
/// whose limit is not given. Stud depth, stud spacing and the size of openings are compared where a limit is given; a
/// note names those that were not compared.
std::vector<std::string> compare_field_of_application(FindingBuilder& builder, const Panel& panel, bool load_bearing);

}  // namespace panel_dossier::fire
