// The checks of what holds a panel to the frame of the building.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

extern const CheckDeclaration kFrameFixingsCheck;
extern const CheckDeclaration kFrameMovementCheck;

/// The greatest of bracket and screws against what they allow, at most 1. `design` is that of the panel's studs.
Finding frame_fixings(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                      const StudDesign& design);

/// The larger of the frame's movement at the head over what the joint allows and of its
/// tolerance over the brackets' adjustment, at most 1.
Finding frame_movement(const Panel& panel, const Settings& settings);

}  // namespace panel_dossier::structural
