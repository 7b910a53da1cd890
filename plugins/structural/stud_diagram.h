// Moment and deflected shape of a simply supported member under uniform load, as curves for a chart.
#pragma once

#include "core/api/drawing.h"

namespace panel_dossier::structural {

/// Bending moment M(x) = w·x·(l − x)/2 in kNm over the height in m.
Series moment_diagram(double span_m, double line_load_n_per_m);

/// Bending moment M(x) = w·(a − x)²/2 in kNm of a part that projects above its support, over the height in m.
Series projecting_moment_diagram(double projection_m, double line_load_n_per_m);

/// Deflection from bending and shear, u(x) = w·x·(l³ − 2·l·x² + x³)/(24·E·I) + w·x·(l − x)/(2·S), in mm over the height
/// in m, with the limit. S = G·A/1.2 for a rectangle.
Series deflected_shape(double span_m, double line_load_n_per_m, double bending_stiffness_nm2, double shear_stiffness_n,
                       double limit_m);

}  // namespace panel_dossier::structural
