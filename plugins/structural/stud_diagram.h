// A stud's system with its load, its moments, shear forces and deflected shape, to be drawn.
#pragma once

#include "core/api/drawing.h"
#include "plugins/structural/stud_system.h"

namespace panel_dossier::structural {

/// Elevation of the member, its supports with the spans between them, and the wind on it, at true proportions.
Drawing load_diagram(const StudSystem& system, double depth_m, double line_load_n_per_m);

/// Moment in kNm over the height in m under load on all of the member.
Series moment_diagram(const UnitEffects& effects, double line_load_n_per_m);

/// Likewise the shear force in kN.
Series shear_diagram(const UnitEffects& effects, double line_load_n_per_m);

/// Deflection from bending and shear in mm over the height in m under load on all of the member, with the limit.
Series deflected_shape(const StudSystem& system, double line_load_n_per_m, double bending_stiffness_nm2,
                       double shear_stiffness_n, double limit_m);

}  // namespace panel_dossier::structural
