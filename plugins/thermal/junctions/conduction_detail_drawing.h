// A solved junction detail as a drawing.
#pragma once

#include "core/api/finding/drawing.h"
#include "plugins/thermal/junctions/conduction_detail.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"

namespace panel_dossier::thermal::conduction {

/// How far a drawing shows the detail on either side of its origin, which lies at the junction, m. The panels run on to
/// their cut planes beyond that.
inline constexpr double kShownBefore_m = 0.6;
inline constexpr double kShownAfter_m = 0.8;

/// The materials of the detail round its junction with isotherms of its heat flow at whole multiples of `step_k`, every
/// third one lettered in °C, the air named, and a cross at the coldest internal surface where the drawing shows it.
/// `inside_c` above `outside_c`, `step_k` above 0; throws std::invalid_argument otherwise.
Drawing detail_drawing(const Detail& detail, const DetailResult& result, double inside_c, double outside_c,
                       double step_k = 2.0);

}  // namespace panel_dossier::thermal::conduction
