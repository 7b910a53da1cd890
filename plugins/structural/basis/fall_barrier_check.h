// structural.fall_barrier: whether somebody said if a panel above ground stops persons from falling.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::structural {

extern const CheckDeclaration kFallBarrierCheck;

/// Drop beside a floor from which persons are guarded against falling (common practice; building rules set their own).
inline constexpr double kGuardedDrop_m = 0.6;

/// Whether a floor that the panel encloses lies higher above ground than the guarded drop: at its foot, or that of a
/// storey of its building which it passes at least 0.8 m below its top.
bool guards_a_drop(const Panel& panel, const Project& project, double ground_m);

/// `information` where the panel states its category of use or `NONE`, or need not; else `evidence needed`.
Finding fall_barrier(const Panel& panel, const Project& project, const Settings& settings);

}  // namespace panel_dossier::structural
