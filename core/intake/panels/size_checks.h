// Sizes and positions that cannot be meant.
#pragma once

#include <vector>

#include "core/api/model/panel.h"
#include "core/intake/panels/part_reader.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// A part may stick out of its panel by this much: above the rounding of any exporter (1 mm) and the cutting tolerance
/// of the workshop (2 mm), below the thickness of any part that a check depends on. Common practice.
inline constexpr double kOutsideTolerance_m = 0.005;

/// Boards, membranes and claddings may lap over the next panel or the slab edge by this much. Common practice.
inline constexpr double kLapAllowance_m = 0.3;

/// Reports a panel whose size no factory could make: metres and millimetres were confused. False then.
bool check_panel_size(const ReadContext& context, const Element& entity, const Panel& panel);

/// Reports parts outside the panel's box. The parts and the size of the panel are set.
void check_parts_inside(const ReadContext& context, const Panel& panel, const std::vector<PlacedPart>& placed);

/// True where two measures of one length differ by more than 1 mm and 0.1 %, the rounding of exporters.
bool differs(double a_m, double b_m);

}  // namespace panel_dossier
