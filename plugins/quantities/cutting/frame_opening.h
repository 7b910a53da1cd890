// The opening in the frame that a panel is to fill, and the joints it leaves.
#pragma once

#include <optional>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities {

/// The size of a panel as measured in the workshop, in m; none where it was not.
struct ActualSize {
  std::optional<double> width_m;
  std::optional<double> height_m;
};

/// A joint clearance in m that lies outside its limits.
struct JointOutside {
  double clearance_m = 0.0;
  double limit_m = 0.0;
  bool too_narrow = true;  ///< else too wide
  std::string place;       ///< `at each side`, `at the head`
};

/// Compares the actual size with `Panel_AsBuilt.FrameOpeningWidth` and `FrameOpeningHeight`, as surveyed: half of what
/// the panel leaves of the width is the joint at each side, all that it leaves of the height the joint at the head,
/// for the panel stands on the sill of its opening. Limits are settings `quantities.least_joint_m` and, where given,
/// `quantities.largest_joint_m`; without the former a surveyed opening is noted as missing it. Adds inputs and steps.
/// An infill panel without survey is only noted. Gives the joint furthest outside its limits, none when all hold.
std::optional<JointOutside> joint_outside_limits(FindingBuilder& finding, const Panel& panel, const Settings& settings,
                                                 const ActualSize& actual);

}  // namespace panel_dossier::quantities
