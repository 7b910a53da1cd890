// A solved junction detail as a drawing.
#pragma once

#include "core/api/drawing.h"
#include "plugins/thermal/conduction_detail.h"
#include "plugins/thermal/conduction_detail_result.h"

namespace panel_dossier::thermal::conduction {

/// The materials of the detail with isotherms of its heat flow at whole multiples of `step_k`, each lettered in °C,
/// and the coldest internal surface marked. `inside_c` above `outside_c`, `step_k` above 0; throws
/// std::invalid_argument otherwise.
Drawing detail_drawing(const Detail& detail, const DetailResult& result, double inside_c, double outside_c,
                       double step_k = 2.0);

}  // namespace panel_dossier::thermal::conduction
