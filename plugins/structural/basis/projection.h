// The part of a panel above its highest support: a cantilever on the span below it.
#pragma once

namespace panel_dossier::structural {

/// What is left of `height_m` above the last of supports at `spacing_m` from the foot up; both > 0. 0 where the head is
/// within 1 mm of a support or the spacing reaches over the whole height.
double height_above_last_support_m(double height_m, double spacing_m);

}  // namespace panel_dossier::structural
