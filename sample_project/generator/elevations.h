// The four elevations as tables: where the panels stand along each and of which type they are.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "sample_project/generator/building.h"
#include "sample_project/generator/shapes.h"

namespace sample_export {

inline constexpr double kFeaturePanelHeight_mm = 12000.0;  ///< three storeys and the parapet

/// A place for a panel along an elevation.
struct Slot {
  double from_mm;  ///< from the start of the elevation
  double width_mm;
};

/// Runs from left to right seen from inside.
struct Elevation {
  std::string name;
  Point outer_start;  ///< foot of the outer face of its panels, at the first place
  Point direction;    ///< unit vector
  double panel_height_mm;
  std::vector<Slot> slots;
  /// Type of the panel in each slot, one row a storey from the ground up; empty where no panel stands.
  std::array<std::vector<std::string_view>, kStoreys> type_keys;
};

const std::vector<Elevation>& elevations();

}  // namespace sample_export
