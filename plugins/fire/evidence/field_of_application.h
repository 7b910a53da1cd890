// The field of application of a fire test against the panel: size, load, studs, openings, fixings and the layers that
// the test was made on.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"

namespace panel_dossier::fire {

struct TestedLayer {
  std::string material;
  double thickness_mm = 0.0;  ///< > 0
};

/// Reads `Gypsum plasterboard type F 15; Stone wool slab 220` (Panel_FireEvidence.BuildUp): from inside to outside,
/// each a material's name and its thickness in mm. None for anything else.
std::optional<std::vector<TestedLayer>> parse_tested_layers(std::string_view text);

/// Compares the panel with the limits of Panel_FireEvidence, records both as inputs and adds them as a table. Returns
/// an open point for each limit that the panel does not meet or that is not given, and for each value of the panel that
/// is not known: height, width, stud depth and spacing, the boards' fasteners, layers, where there are openings their
/// size and when `load_bearing` the load. The finding gives height and width already.
/// A tested layer is covered by one of the same material and at least its thickness, in the same order; the panel may
/// have further layers.
std::vector<std::string> compare_field_of_application(FindingBuilder& builder, const Panel& panel,
                                                      const Project& project, bool load_bearing);
/// What it reads beside the panel's geometry.
std::vector<CheckInput> field_of_application_inputs();

}  // namespace panel_dossier::fire
