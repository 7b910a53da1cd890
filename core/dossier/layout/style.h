// The look of the pages in one place: type sizes, greys, the one accent and the page grid. Lengths in points.
#pragma once

#include <array>

#include "core/api/finding/drawing.h"
#include "core/api/support/geometry.h"

namespace panel_dossier {

inline constexpr double kPointsPerMetre = 72.0 / 0.0254;
inline constexpr double kPointsPerMillimetre = kPointsPerMetre / 1000.0;

enum class Face { regular, bold, italic };

struct Colour {
  float red = 0.0F;
  float green = 0.0F;
  float blue = 0.0F;

  bool operator==(const Colour&) const = default;
};

inline constexpr Colour kInk{0.12F, 0.13F, 0.14F};
inline constexpr Colour kMidGrey{0.38F, 0.40F, 0.42F};
inline constexpr Colour kRule{0.72F, 0.74F, 0.76F};
inline constexpr Colour kPale{0.945F, 0.95F, 0.955F};
inline constexpr Colour kAccent{0.09F, 0.24F, 0.35F};
inline constexpr Colour kWhite{1.0F, 1.0F, 1.0F};

/// Grounds of drawings, pale enough for text and hatch in black, neighbours far apart in hue.
inline constexpr std::array<Colour, kTints> kTintColours{{{0.80F, 0.88F, 0.97F},
                                                          {0.99F, 0.90F, 0.70F},
                                                          {0.81F, 0.93F, 0.79F},
                                                          {0.97F, 0.83F, 0.84F},
                                                          {0.76F, 0.93F, 0.93F},
                                                          {0.90F, 0.84F, 0.96F},
                                                          {0.97F, 0.96F, 0.72F},
                                                          {0.88F, 0.86F, 0.83F}}};

/// A page area; `bottom` and `top` measure up from the lower page edge.
struct Rect {
  double left = 0.0;
  double bottom = 0.0;
  double right = 0.0;
  double top = 0.0;

  double width() const { return right - left; }
  double height() const { return top - bottom; }
};

struct Stroke {
  double width = 0.5;
  Colour colour = kInk;
  int dash_on = 0;  ///< 0: solid
  int dash_off = 0;
};

struct TextStyle {
  Face face = Face::regular;
  double size = 9.0;
  double leading = 12.0;
  Colour colour = kInk;
};

/// A4 portrait.
namespace grid {
inline constexpr double kPageWidth = 595.276;
inline constexpr double kPageHeight = 841.890;
inline constexpr double kLeft = 56.0;
inline constexpr double kRight = kPageWidth - 48.0;
inline constexpr double kTop = kPageHeight - 64.0;
inline constexpr double kBottom = 56.0;
inline constexpr double kColumnGap = 15.0;
inline constexpr double kBaseline = 3.0;
inline constexpr double kWidth = kRight - kLeft;
}  // namespace grid

namespace type {
inline constexpr TextStyle kBody{Face::regular, 9.5, 12.6, kInk};
inline constexpr TextStyle kNote{Face::italic, 8.5, 11.0, kMidGrey};
inline constexpr TextStyle kTable{Face::regular, 8.5, 10.5, kInk};
inline constexpr TextStyle kFine{Face::regular, 8.0, 9.5, kInk};
inline constexpr TextStyle kPart{Face::bold, 18.0, 22.0, kAccent};
inline constexpr TextStyle kHeading{Face::bold, 12.0, 15.6, kAccent};
inline constexpr TextStyle kSubheading{Face::bold, 9.5, 12.6, kInk};
}  // namespace type

}  // namespace panel_dossier
