// The part of a panel above its highest support: a cantilever on the span below it.
#pragma once

namespace panel_dossier::structural {

/// What is left of `height_m` above the last of supports at `spacing_m` from the foot up; both > 0. 0 where the head is
/// within 1 mm of a support or the spacing reaches over the whole height.
double height_above_last_support_m(double height_m, double spacing_m);

/// Tip deflection from bending under a load on the projecting part alone, w·a³·(4·l + 3·a)/(24·E·I): the load on the
/// span below would lift the tip, so it is left out. a >= 0; l and E·I > 0.
double tip_deflection_from_bending_m(double projection_m, double span_m, double line_load_n_per_m,
                                     double bending_stiffness_nm2);

/// Likewise from shear, w·a²/(2·S)·(1 + a/l), S = G·A/1.2 for a rectangle.
double tip_deflection_from_shear_m(double projection_m, double span_m, double line_load_n_per_m,
                                   double shear_stiffness_n);

}  // namespace panel_dossier::structural
