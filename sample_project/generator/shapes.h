// Boxes and rectangles in millimetres, in the frame of a panel: x along the width, y from inside to outside, z up.
#pragma once

#include <vector>

namespace sample_export {

struct Point {
  double x = 0.0;
  double y = 0.0;
  double z = 0.0;
};

struct Box {
  Point min;
  Point max;

  double width() const { return max.x - min.x; }
  double depth() const { return max.y - min.y; }
  double height() const { return max.z - min.z; }
};

/// A rectangle in the panel's x-z plane.
struct Rectangle {
  double x_min = 0.0;
  double x_max = 0.0;
  double z_min = 0.0;
  double z_max = 0.0;

  double width() const { return x_max - x_min; }
  double height() const { return z_max - z_min; }
};

using Rectangles = std::vector<Rectangle>;

/// A corner of an outline in an upright plane: `across` is x in a panel's face and y in a member's side.
struct Corner {
  double across = 0.0;
  double z = 0.0;
};

using Outline = std::vector<Corner>;

/// from, from + step, from + 2 step, … as long as below `to`.
std::vector<double> steps(double from, double to, double step);

bool overlap(const Rectangle& a, const Rectangle& b);

/// What is left of `whole` outside `holes`, cut into full-height strips beside each hole first and pieces above and
/// below it second.
Rectangles minus(const Rectangle& whole, const Rectangles& holes);

/// Outline, anticlockwise, of what is left of `whole` when one of `holes` cuts a corner or a notch out of it; empty
/// when they leave a rectangle, several pieces or a closed hole.
Outline cut_outline(const Rectangle& whole, const Rectangles& holes);

/// What is left of `whole` outside `holes`, as vertical strips as wide as possible; pieces narrower or lower than
/// `smallest` are left out.
Rectangles free_strips(const Rectangle& whole, const Rectangles& holes, double smallest);

Box box_of(const Rectangle& face, double y_min, double y_max);

}  // namespace sample_export
