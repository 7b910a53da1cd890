// The cycle of one lift: attach, hoist, place, fix, release and back, for crane and crew.
#pragma once

#include <optional>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities {

/// Whether the settings describe the cycle, `quantities.lift_cycle`.
bool cycle_given(const Settings& settings);

/// Those inputs, what the cycle reads of the panel and the settings, and the output of a crew that may stand in its
/// place: what a declaration names of which hours of erection are read.
std::vector<CheckInput> erection_inputs(std::vector<CheckInput> inputs);

/// Hours from attaching the panel to the hook's return, or those of the crew on it where these are more (common
/// practice: the crane is free for the next panel when so many fixings hold this one, and the crew when all do). From
/// the lifting points and the fixings to the frame that the panel has, its height above the ground, its distance from
/// the nearest place of the crane, and the times and speeds of setting `quantities.lift_cycle`. None where anything is
/// missing, which is noted in `finding`; a panel without lifting points or fixings is missing them.
std::optional<double> cycle_hours(FindingBuilder& finding, const Panel& panel, const Settings& settings);

}  // namespace panel_dossier::quantities
