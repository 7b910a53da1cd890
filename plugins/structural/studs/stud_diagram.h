// A stud's system with its load, its moments, shear forces and deflected shape, to be drawn.
#pragma once

#include <vector>

#include "core/api/finding/drawing.h"
#include "plugins/structural/studs/stud_system.h"

namespace panel_dossier::structural {

/// Elevation of the member, its supports with the spans between them, and the loads across it, at true proportions.
Drawing load_diagram(const StudSystem& system, double depth_m, double line_load_n_per_m,
                     const std::vector<PointLoad>& point);

/// Moment in kNm over the height in m.
Series moment_diagram(const BeamResult& loaded);

/// Shear force in kN over the height in m.
Series shear_diagram(const BeamResult& loaded);

/// Deflection from bending and shear in mm over the height in m under load on all of the member, with the limit.
Series deflected_shape(const StudSystem& system, double line_load_n_per_m, const std::vector<PointLoad>& point,
                       double bending_stiffness_nm2, double shear_stiffness_n, double limit_m);

}  // namespace panel_dossier::structural
