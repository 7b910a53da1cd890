#include "core/dossier/parts/sheet_drawings.h"

#include <algorithm>
#include <cmath>

#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/text_layout.h"
#include "core/dossier/parts/build_up_section.h"
#include "core/dossier/parts/elevation.h"

namespace panel_dossier {

namespace {

constexpr TextStyle kDrawingCaption{Face::regular, 6.5, 8.4, kMidGrey};
constexpr TextStyle kDrawingLabel{Face::regular, 6.5, 8.2, kInk};
constexpr double kCaptionHeight = 20.0;

std::vector<std::string> wrapped(const PdfDocument& pdf, std::string_view text, const TextStyle& style, double width) {
  return wrap(text, width, [&](std::string_view piece) { return pdf.text_width(piece, style.face, style.size); });
}

double caption(Book& book, const std::string& text, const Rect& area) {
  double y = area.top;
  for (const std::string& line : wrapped(book.pdf, text, kDrawingCaption, area.width())) {
    y -= kDrawingCaption.leading;
    book.pdf.text(book.flow.page(), {area.left, y}, line, kDrawingCaption);
  }
  return area.top - y;
}

void draw_elevation(Book& book, const Panel& panel, const Rect& area) {
  Rect inner = area;
  const double scale_guess = elevation_scale(panel, {area.left, area.bottom, area.right, area.top - kCaptionHeight});
  std::string text = "Elevation, seen from inside, scale " + scale_text(scale_guess) + ". Dimensions in mm.";
  if (std::any_of(panel.parts.begin(), panel.parts.end(),
                  [](const Part& part) { return part.kind == PartKind::sheet; }))
    text += " Dashed: sheet joints.";
  const std::string missing = missing_in_elevation(panel);
  if (!missing.empty()) text += " " + missing;
  inner.top -= caption(book, text, area) + 4.0;
  const double scale = std::max(scale_guess, elevation_scale(panel, inner));
  const double points = points_per_metre(scale);
  const double width = panel.width_m.value * points + kDimensionBand;
  const double height = panel.height_m.value * points + kDimensionBand;
  const Vec2 origin{inner.left + (inner.width() - width) / 2.0 + kDimensionBand, inner.top - height + kDimensionBand};
  paint_drawing(book.pdf, book.flow.page(), elevation_drawing(panel, scale), {origin, scale});
}

void draw_labels(Book& book, const BuildUpSection& section, const DrawingFrame& frame, const Rect& area) {
  const double right_edge = frame.on_page({section.length_m, 0.0}).x;
  std::vector<std::vector<std::string>> texts;
  std::vector<double> wanted;
  std::vector<double> heights;
  for (const LayerLabel& label : section.labels) {
    texts.push_back(wrapped(book.pdf, label.text, kDrawingLabel, area.width()));
    wanted.push_back(frame.on_page({0.0, label.y_m}).y);
    heights.push_back(static_cast<double>(texts.back().size()) * kDrawingLabel.leading + 1.5);
  }
  const auto centres = spread_labels(wanted, heights, area.bottom, area.top);
  const std::size_t page = book.flow.page();
  for (std::size_t i = 0; i < texts.size(); ++i) {
    book.pdf.polyline(page,
                      {{right_edge - 5.0, wanted[i]}, {right_edge + 4.0, wanted[i]}, {area.left - 3.0, centres[i]}},
                      {0.3, kMidGrey, 0, 0});
    double y = centres[i] + (heights[i] - 1.5) / 2.0;
    for (const std::string& line : texts[i]) {
      y -= kDrawingLabel.leading;
      book.pdf.text(page, {area.left, y + 2.0}, line, kDrawingLabel);
    }
  }
}

void draw_build_up(Book& book, const Panel& panel, const Rect& area) {
  constexpr double kLabelShare = 0.5;
  constexpr double kShownLengthMetres = 0.7;
  constexpr double kSideText = 14.0;
  Rect inner = area;
  inner.right = area.left + area.width() * (1.0 - kLabelShare);
  inner.top -= 2.0 * kCaptionHeight;
  const Rect clear{inner.left, inner.bottom + kSideText, inner.right, inner.top - kSideText};
  const double thickness =
      panel.layers.empty()
          ? panel.thickness_m.value
          : std::max(panel.thickness_m.value, panel.layers.back().y_outside_m - panel.layers.front().y_inside_m);
  const double scale = choose_scale(std::min(kShownLengthMetres, panel.width_m.value), thickness, clear);
  const BuildUpSection section =
      build_up_section(panel, book.project(), std::floor(clear.width() / points_per_metre(scale) * 20.0) / 20.0);
  std::string text = "Horizontal section " + format_millimetres(section.cut_height_m) + " mm above the foot, scale " +
                     scale_text(scale) + ", the left " + format_millimetres(section.length_m) + " mm of " +
                     format_millimetres(panel.width_m.value) + " mm.";
  if (panel.layers.empty())
    text += panel.outside_known ? " The export gives no layers for this panel."
                                : " Layers are not drawn: the export does not tell which face is outside.";
  caption(book, text, area);
  const double middle = (clear.bottom + clear.top) / 2.0;
  const DrawingFrame frame{{clear.left, middle - thickness * points_per_metre(scale) / 2.0}, scale};
  const std::size_t page = book.flow.page();
  paint_drawing(book.pdf, page, section.drawing, frame);
  const bool known = panel.outside_known;
  const double top = frame.on_page({0.0, thickness}).y;
  book.pdf.text(page, {clear.left, top + 4.0}, known ? "outside" : "one face", kDrawingCaption);
  book.pdf.text(page, {clear.left, frame.origin.y - 9.0}, known ? "inside" : "other face", kDrawingCaption);
  draw_labels(book, section, frame, {inner.right + 16.0, area.bottom, area.right, inner.top});
}

}  // namespace

std::vector<double> spread_labels(const std::vector<double>& wanted, const std::vector<double>& heights, double low,
                                  double high) {
  std::vector<double> centres(wanted);
  double floor_y = low;
  for (std::size_t i = 0; i < centres.size(); ++i) {
    centres[i] = std::max(centres[i], floor_y + heights[i] / 2.0);
    floor_y = centres[i] + heights[i] / 2.0;
  }
  double ceiling = std::max(
      high, low + [&] {
        double sum = 0.0;
        for (const double height : heights) sum += height;
        return sum;
      }());
  for (std::size_t i = centres.size(); i-- > 0;) {
    centres[i] = std::min(centres[i], ceiling - heights[i] / 2.0);
    ceiling = centres[i] - heights[i] / 2.0;
  }
  return centres;
}

void write_sheet_drawings(Book& book, const Panel& panel) {
  constexpr double kBuildUpHeight = 165.0;
  constexpr double kTallShare = 0.46;
  const Rect area{grid::kLeft, book.flow.y() - book.flow.room(), grid::kRight, book.flow.y()};
  const Rect above{area.left, area.bottom + kBuildUpHeight, area.right, area.top};
  const double split = area.left + area.width() * kTallShare;
  const Rect beside{area.left, area.bottom, split, area.top};
  const auto without_caption = [](Rect rect) {
    rect.top -= kCaptionHeight;
    return rect;
  };
  const double beside_scale = elevation_scale(panel, without_caption(beside));
  const double above_scale = elevation_scale(panel, without_caption(above));
  const bool slender = panel.height_m.value > 3.0 * panel.width_m.value;
  const bool tall = beside_scale < above_scale || (beside_scale == above_scale && slender);
  draw_elevation(book, panel, tall ? beside : above);
  draw_build_up(book, panel,
                tall ? Rect{split + 20.0, area.top - 330.0, area.right, area.top}
                     : Rect{area.left, area.bottom, area.right, area.bottom + kBuildUpHeight});
  book.flow.move_to(area.bottom);
}

}  // namespace panel_dossier
