// Head and sole rails between the fixings that hold the panel to the frame of the building.
#pragma once

#include <optional>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// Spacing in m: the widest Panel_Fastener.Spacing of brackets, anchors and bolts among the parts, else setting
/// structural.fixing_spacing_m.
std::optional<Sourced<double>> fixing_spacing(const Panel& panel, const Settings& settings);

/// What to name when there is none.
inline constexpr const char* kNoFixingSpacing =
    "spacing of the fixings to the frame (Panel_Fastener.Spacing of brackets or anchors, or setting "
    "structural.fixing_spacing_m)";

/// structural.rail_bending: the largest share of bending or shear resistance of the rails, at most 1.
Finding rail_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                     const StudDesign& design);

}  // namespace panel_dossier::structural
