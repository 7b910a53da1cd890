// The timber frame of a cassette, and the screws, lifting loops and frame brackets of a panel.
#pragma once

#include <vector>

#include "sample_project/generator/panel_parts.h"

namespace sample_export {

inline constexpr double kStudWidth_mm = 45.0;
inline constexpr double kStudSpacing_mm = 600.0;
inline constexpr double kSheetWidth_mm = 1200.0;
inline constexpr double kSheetHeight_mm = 2400.0;

/// Centres of the studs on the module and at both edges, from left to right, whatever the openings.
std::vector<double> stud_centres(double width_mm);

/// Heads and soles, studs, posts beside openings, trimmers, lintels, cripple studs and blocking at sheet joints,
/// between `y_min` and `y_max`.
std::vector<PanelPart> frame_parts(const PlacedPanel& panel, double y_min, double y_max);

/// `parts` are the panel's other parts, whose edges set the number of screws.
std::vector<FastenerGroup> fasteners(const PlacedPanel& panel, const std::vector<PanelPart>& parts);

}  // namespace sample_export
