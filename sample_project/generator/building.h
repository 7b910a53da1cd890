// The fictional building: where each panel stands.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sample_project/generator/panel_types.h"
#include "sample_project/generator/shapes.h"

namespace sample_export {

inline constexpr double kStoreyHeight_mm = 3600.0;
inline constexpr int kStoreys = 3;

/// An opening of a panel, in the panel's x-z plane, with what fills it.
struct PlacedOpening {
  Rectangle face;
  const FillingSpec* filling = nullptr;
};

struct PlacedPanel {
  std::string mark;
  const PanelType* type = nullptr;
  std::string elevation;  ///< North, East, South or West
  std::size_t wing = 0;   ///< index of the building
  std::size_t storey = 0;
  Point origin;     ///< lower corner of the inner face, in the site's frame
  Point direction;  ///< unit vector along the panel's width, in the site's frame
  double width_mm = 0.0;
  double height_mm = 0.0;
  int erection_order = 0;
  std::vector<PlacedOpening> openings;

  Rectangle face() const { return {0.0, width_mm, 0.0, height_mm}; }
  Rectangles opening_faces() const;
};

struct Storey {
  std::string name;
  double elevation_mm = 0.0;
};

const std::vector<Storey>& storeys();

/// The first `count` panels of as many equal wings as that takes, each wing a building of its own in the project.
std::vector<PlacedPanel> place_panels(std::size_t count);

/// Panels of one wing, which is the whole of the sample project.
std::size_t panels_per_wing();

}  // namespace sample_export
