// Areas on the face of a panel: what covers which share of it, layer by layer, nothing counted twice.
#pragma once

#include <cstddef>
#include <vector>

namespace panel_dossier::thermal {

/// A rectangle in the panel's x-z plane, in m.
struct Rectangle {
  double x_min = 0.0;
  double x_max = 0.0;
  double z_min = 0.0;
  double z_max = 0.0;
};

/// A part that replaces the main material of a layer over a rectangle.
struct Cover {
  std::size_t layer = 0;
  std::size_t slot = 0;  ///< which material of the layer, from 1; 0 is the main material
  Rectangle face;
};

/// All of the face that has the same materials in every layer.
struct SectionArea {
  std::vector<std::size_t> slots;  ///< one a layer
  double area_m2 = 0.0;
};

struct FaceMeasure {
  double net_area_m2 = 0.0;            ///< without openings
  std::vector<SectionArea> sections;   ///< largest first; they add up to the net area
  std::vector<double> cover_areas_m2;  ///< one a cover, net; where covers of one layer overlap, the first counts
};

/// Projects `covers` on the face 0..width × 0..height without `openings`. Coordinates are taken to 0.01 mm. Exact for
/// rectangles; work grows with the product of distinct x and z coordinates.
FaceMeasure measure_face(double width_m, double height_m, const std::vector<Rectangle>& openings,
                         const std::vector<Cover>& covers, std::size_t layer_count);

}  // namespace panel_dossier::thermal
