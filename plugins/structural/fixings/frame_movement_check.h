// Room for the frame to move and to stand off its lines.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"

namespace panel_dossier::structural {

/// `structural.frame_movement`: the larger of the frame's movement at the head over what the joint allows and of its
/// tolerance over the brackets' adjustment, at most 1.
Finding frame_movement(const Panel& panel, const Settings& settings);

}  // namespace panel_dossier::structural
