// Fixing back to the frame.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

/// `structural.frame_fixings`: the greatest of bracket, screws, movement at the head and tolerance against what they
/// allow, at most 1. `design` is that of the panel's studs.
Finding frame_fixings(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                      const StudDesign& design);

}  // namespace panel_dossier::structural
