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
  int made_on_day = 0;   ///< working day of the workshop, 0 the first
  int batch = 0;         ///< of production, from 1; panels of one batch share the batches of their materials
  bool erected = false;  ///< on the day of the export
  std::vector<PlacedOpening> openings;

  Rectangle face() const { return {0.0, width_mm, 0.0, height_mm}; }
  Rectangles opening_faces() const;
};

struct Storey {
  std::string name;
  double elevation_mm = 0.0;
};

const std::vector<Storey>& storeys();

/// Panels of one wing, which is the whole of the sample project.
std::size_t panels_per_wing();

/// Pace of workshop and site. The sample's own up to a few thousand panels; beyond that more of both, so that any
/// project is made before the day of the export and erected within years.
struct Programme {
  int made_a_day = 0;
  int panels_per_batch = 0;
  int erected = 0;  ///< panels that stand on the day of the export, the first of the order
  int cranes = 0;
  std::string erection_start;  ///< ISO 8601
};

Programme programme_of(std::size_t panels);

/// The first `panels` panels of as many equal wings as that takes, each wing a building of its own in the project.
/// Wings are placed when they are asked for, so that a project of any size takes the memory of one.
class Site {
 public:
  explicit Site(std::size_t panels) : panels_(panels), programme_(programme_of(panels)) {}

  /// Leaves all other panels out; the rest stay what and where they are.
  void keep_only(std::vector<std::string> marks);

  /// Up to the last wing of which a panel is left.
  std::size_t wings() const;
  /// In the order of storeys.
  std::vector<PlacedPanel> panels_of(std::size_t wing) const;

 private:
  std::size_t panels_;
  Programme programme_;
  std::vector<std::string> marks_;  ///< empty: all
};

/// Lower left corner of the wing's slabs in the site's frame. Wings stand in rows of ten.
Point wing_corner(std::size_t wing);

}  // namespace sample_export
