// Screws, lifting loops and frame brackets of a panel.
#pragma once

#include <vector>

#include "sample_project/generator/panel_parts.h"

namespace sample_export {

/// `parts` are the panel's other parts, whose edges set the number of screws.
std::vector<FastenerGroup> fasteners(const PlacedPanel& panel, const std::vector<PanelPart>& parts);

}  // namespace sample_export
