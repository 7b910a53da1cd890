#include "core/dossier/parts/panel/panel_drawings.h"

#include <algorithm>

#include "core/dossier/parts/panel/build_up_section.h"
#include "core/dossier/parts/panel/drawing_caption.h"
#include "core/dossier/parts/panel/elevation.h"

namespace panel_dossier {

void write_build_up(Book& book, const Panel& panel, double height) {
  draw_build_up(book, panel, book.flow.take(height));
}

double write_panel_drawings(Book& book, const Panel& panel, double height) {
  constexpr double kTallShare = 0.52;
  // Beside a tall elevation: room for the names of the layers.
  constexpr double kSectionHeight = 225.0;
  constexpr double kHighestSection = 330.0;
  constexpr double kRounding = 0.01;  // so that what is taken for a scale has room for that scale
  const double build_up_height = std::min(165.0, 0.42 * height);
  const double split = grid::kWidth * kTallShare;
  const double beside_scale = elevation_scale(panel, {0.0, 0.0, split, height - kCaptionHeight});
  const double above_scale =
      elevation_scale(panel, {0.0, 0.0, grid::kWidth, height - build_up_height - kCaptionHeight});
  const bool slender = panel.height_m.value > 3.0 * panel.width_m.value;
  const bool tall = beside_scale < above_scale || (beside_scale == above_scale && slender);
  const double drawn = panel.height_m.value * points_per_metre(tall ? beside_scale : above_scale) + bands_up(panel) +
                       kCaptionHeight + kRounding;
  const double used = std::min(height, tall ? std::max(drawn, kSectionHeight) : drawn + build_up_height);
  const Rect area = book.flow.take(used);
  if (tall) {
    draw_build_up(book, panel,
                  {area.left + split + 20.0, std::max(area.bottom, area.top - kHighestSection), area.right, area.top});
    return draw_elevation(book, panel, {area.left, area.bottom, area.left + split, area.top});
  }
  draw_build_up(book, panel, {area.left, area.bottom, area.right, area.bottom + build_up_height});
  return draw_elevation(book, panel, {area.left, area.bottom + build_up_height, area.right, area.top});
}

void write_large_elevation(Book& book, const Panel& panel) {
  constexpr double kRoomBelow = 180.0;  // for what is stated of the panel, where the drawing stays legible all the same
  const auto scale_within = [&](double height) {
    return elevation_scale(panel, {grid::kLeft, 0.0, grid::kRight, height - kCaptionHeight});
  };
  double height = book.flow.room() - kRoomBelow;
  if (!is_legible(scale_within(height))) height = book.flow.room();
  const double drawn = panel.height_m.value * points_per_metre(scale_within(height)) + bands_up(panel);
  draw_elevation(book, panel, book.flow.take(std::min(height, drawn + kCaptionHeight)));
}

}  // namespace panel_dossier
