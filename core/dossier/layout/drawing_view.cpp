#include "core/dossier/layout/drawing_view.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

struct Family {
  double angle_rad;
  double spacing;
};

// Spacings in points. Each hatch differs from every other in direction, density or number of families.
std::vector<Family> families(Hatch hatch) {
  switch (hatch) {
    case Hatch::timber: return {{45 * kDegree, 3.4}};
    case Hatch::insulation: return {{62 * kDegree, 7.0}, {-62 * kDegree, 7.0}};
    case Hatch::board: return {{-45 * kDegree, 1.9}};
    case Hatch::masonry: return {{45 * kDegree, 5.0}, {0.0, 5.0}};
    case Hatch::glass: return {{20 * kDegree, 6.0}};
    case Hatch::metal: return {{45 * kDegree, 1.5}, {-45 * kDegree, 1.5}};
    case Hatch::air: return {{0.0, 3.0}};
    case Hatch::membrane:
    case Hatch::none: break;
  }
  return {};
}

double smaller_extent(const Polygon& outline) {
  const auto [left, right] =
      std::minmax_element(outline.begin(), outline.end(), [](Vec2 a, Vec2 b) { return a.x < b.x; });
  const auto [low, high] =
      std::minmax_element(outline.begin(), outline.end(), [](Vec2 a, Vec2 b) { return a.y < b.y; });
  return std::min(right->x - left->x, high->y - low->y);
}

// Crossings of the horizontal line at `height` with the outline, in ascending x.
std::vector<double> crossings(const Polygon& outline, double height) {
  std::vector<double> found;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2& a = outline[i];
    const Vec2& b = outline[(i + 1) % outline.size()];
    if ((a.y <= height) == (b.y <= height)) continue;
    found.push_back(a.x + (height - a.y) / (b.y - a.y) * (b.x - a.x));
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace

std::vector<Segment> hatch_lines(const Polygon& outline, double angle_rad, double spacing) {
  constexpr std::size_t kMostLines = 4000;  // an outline that asks for more would print black anyway
  std::vector<Segment> segments;
  if (outline.size() < 3 || spacing <= 0.0) return segments;
  const double cosine = std::cos(angle_rad);
  const double sine = std::sin(angle_rad);
  Polygon turned;
  for (const Vec2& point : outline)
    turned.push_back({point.x * cosine + point.y * sine, point.y * cosine - point.x * sine});
  const auto [low, high] = std::minmax_element(turned.begin(), turned.end(), [](Vec2 a, Vec2 b) { return a.y < b.y; });
  const double top = high->y;
  std::size_t lines = 0;
  // Lines lie at whole multiples of the spacing, so that the hatches of neighbouring outlines join up.
  for (double height = std::ceil(low->y / spacing) * spacing; height < top && lines < kMostLines;
       height += spacing, ++lines) {
    const auto at = crossings(turned, height);
    for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
      const auto back = [&](double x) { return Vec2{x * cosine - height * sine, x * sine + height * cosine}; };
      segments.emplace_back(back(at[i]), back(at[i + 1]));
    }
  }
  return segments;
}

HatchMarks hatch_marks(const Polygon& outline, Hatch hatch) {
  constexpr double kTooThinToHatch = 1.6;
  HatchMarks marks;
  if (hatch == Hatch::none || outline.size() < 3) return marks;
  marks.dashed = hatch == Hatch::air || hatch == Hatch::glass;
  marks.solid = hatch == Hatch::membrane || (hatch != Hatch::air && smaller_extent(outline) < kTooThinToHatch);
  if (marks.solid) return marks;
  for (const Family& family : families(hatch)) {
    const auto lines = hatch_lines(outline, family.angle_rad, family.spacing);
    marks.segments.insert(marks.segments.end(), lines.begin(), lines.end());
  }
  return marks;
}

const char* hatch_name(Hatch hatch) {
  switch (hatch) {
    case Hatch::timber: return "timber";
    case Hatch::insulation: return "insulation";
    case Hatch::board: return "board";
    case Hatch::membrane: return "membrane";
    case Hatch::masonry: return "masonry";
    case Hatch::glass: return "glass";
    case Hatch::metal: return "metal";
    case Hatch::air: return "air";
    case Hatch::none: break;
  }
  return "not hatched";
}

namespace {

constexpr TextStyle kDrawingText{Face::regular, 8.0, 9.0, kInk};
constexpr Stroke kHatchStroke{0.22, kMidGrey, 0, 0};
constexpr Stroke kDimensionStroke{0.35, kMidGrey, 0, 0};
constexpr double kTick = 2.2;

Stroke stroke_of(LineStyle style) {
  switch (style) {
    case LineStyle::thin: return {0.25, kInk, 0, 0};
    case LineStyle::normal: return {0.5, kInk, 0, 0};
    case LineStyle::heavy: return {1.1, kInk, 0, 0};
    case LineStyle::dashed: return {0.4, kInk, 3, 2};
    case LineStyle::centre: return {0.35, kAccent, 7, 2};
  }
  return {};
}

void include(std::optional<Extent>& covered, Vec2 point) {
  if (!std::isfinite(point.x) || !std::isfinite(point.y)) return;
  if (!covered) covered = Extent{point, point};
  covered->min = {std::min(covered->min.x, point.x), std::min(covered->min.y, point.y)};
  covered->max = {std::max(covered->max.x, point.x), std::max(covered->max.y, point.y)};
}

// The unit vector to the left of from-to; zero for a point.
Vec2 left_normal(Vec2 from, Vec2 to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length <= 0.0) return {};
  return {-(to.y - from.y) / length, (to.x - from.x) / length};
}

Vec2 moved(Vec2 point, Vec2 direction, double distance) {
  return {point.x + direction.x * distance, point.y + direction.y * distance};
}

void paint_polygon(PdfDocument& pdf, std::size_t page, const DrawnPolygon& polygon, const DrawingFrame& frame) {
  Polygon outline;
  for (const Vec2& point : polygon.outline) outline.push_back(frame.on_page(point));
  const HatchMarks marks = hatch_marks(outline, polygon.hatch);
  const Colour ground = marks.solid ? kMidGrey : polygon.tint == 0 ? kWhite : kTintColours[(polygon.tint - 1) % kTints];
  pdf.polygon(page, outline, ground, std::nullopt);
  Stroke hatch = kHatchStroke;
  if (marks.dashed) {
    hatch.dash_on = 1;
    hatch.dash_off = polygon.hatch == Hatch::air ? 3 : 1;
  }
  pdf.segments(page, marks.segments, hatch);
  pdf.polygon(page, outline, std::nullopt, stroke_of(polygon.style));
  if (polygon.label.empty() || outline.size() < 3) return;
  const auto [left, right] =
      std::minmax_element(outline.begin(), outline.end(), [](Vec2 a, Vec2 b) { return a.x < b.x; });
  const auto [low, high] =
      std::minmax_element(outline.begin(), outline.end(), [](Vec2 a, Vec2 b) { return a.y < b.y; });
  const double width = pdf.text_width(polygon.label, kDrawingText.face, kDrawingText.size);
  const double breadth = right->x - left->x;
  const double rise = high->y - low->y;
  const Vec2 centre = centroid(outline);
  const double half = 0.36 * kDrawingText.size;
  const auto ground_under_label = [&](double half_width, double half_height) {
    pdf.rectangle(page, {centre.x - half_width, centre.y - half_height, centre.x + half_width, centre.y + half_height},
                  kWhite, std::nullopt);
  };
  const bool hatched = !marks.segments.empty();
  if (width + 2.0 <= breadth && rise >= kDrawingText.leading) {
    if (hatched) ground_under_label(width / 2.0 + 1.0, kDrawingText.size * 0.6);
    pdf.text(page, {centre.x - width / 2.0, centre.y - half}, polygon.label, kDrawingText);
  } else if (width + 2.0 <= rise && breadth >= kDrawingText.leading) {
    if (hatched) ground_under_label(kDrawingText.size * 0.6, width / 2.0 + 1.0);
    pdf.text(page, {centre.x + half, centre.y - width / 2.0}, polygon.label, kDrawingText, std::acos(0.0));
  }
}

/// Sets the texts of a drawing one after the other, each beside those before it: one that would stand over another goes
/// up by lines, as seen by who reads it, as long as that helps.
class TextPlacer {
 public:
  TextPlacer(PdfDocument& pdf, std::size_t page) : pdf_(pdf), page_(page) {}

  void place(Vec2 at, const std::string& text, double angle_rad = 0.0) {
    constexpr int kMostLines = 4;
    const double width = pdf_.text_width(text, kDrawingText.face, kDrawingText.size);
    const Vec2 along{std::cos(angle_rad), std::sin(angle_rad)};
    const Vec2 up{-along.y, along.x};
    Vec2 chosen = at;
    for (int line = 0; line < kMostLines; ++line) {
      const Vec2 tried = moved(at, up, line * kDrawingText.leading);
      if (!is_free(box_of(tried, along, up, width))) continue;
      chosen = tried;
      break;
    }
    taken_.push_back(box_of(chosen, along, up, width));
    pdf_.text(page_, chosen, text, kDrawingText, angle_rad);
  }

 private:
  PdfDocument& pdf_;
  std::size_t page_;
  std::vector<Rect> taken_;

  static Rect box_of(Vec2 at, Vec2 along, Vec2 up, double width) {
    const Vec2 opposite = moved(moved(at, along, width), up, kDrawingText.size * 0.7);
    return {std::min(at.x, opposite.x), std::min(at.y, opposite.y), std::max(at.x, opposite.x),
            std::max(at.y, opposite.y)};
  }

  bool is_free(const Rect& box) const {
    return std::none_of(taken_.begin(), taken_.end(), [&box](const Rect& other) {
      return box.left < other.right && other.left < box.right && box.bottom < other.top && other.bottom < box.top;
    });
  }
};

void paint_dimension(PdfDocument& pdf, std::size_t page, const DrawnDimension& dimension, const DrawingFrame& frame,
                     TextPlacer& placer) {
  const Vec2 normal = left_normal(dimension.from, dimension.to);
  const double offset = dimension.offset * points_per_metre(frame.scale);
  const Vec2 from = frame.on_page(dimension.from);
  const Vec2 to = frame.on_page(dimension.to);
  const Vec2 line_from = moved(from, normal, offset);
  const Vec2 line_to = moved(to, normal, offset);
  const double beyond = offset < 0.0 ? -kTick : kTick;
  const double gap = offset < 0.0 ? -std::min(2.0, -offset) : std::min(2.0, offset);
  std::vector<Segment> marks{{line_from, line_to}};
  if (offset != 0.0) {
    marks.emplace_back(moved(from, normal, gap), moved(line_from, normal, beyond));
    marks.emplace_back(moved(to, normal, gap), moved(line_to, normal, beyond));
  }
  for (const Vec2 end : {line_from, line_to})
    marks.emplace_back(Vec2{end.x - kTick, end.y - kTick}, Vec2{end.x + kTick, end.y + kTick});
  pdf.segments(page, marks, kDimensionStroke);

  const double length_m = std::hypot(dimension.to.x - dimension.from.x, dimension.to.y - dimension.from.y);
  const std::string text = dimension.text.empty() ? format_millimetres(length_m) : dimension.text;
  const double width = pdf.text_width(text, kDrawingText.face, kDrawingText.size);
  double angle = std::atan2(to.y - from.y, to.x - from.x);
  // Read from below or from the right, never upside down.
  constexpr double kQuarter = 1.5707963267948966;
  if (angle > kQuarter + 1e-6) angle -= 2.0 * kQuarter;
  if (angle <= -kQuarter + 1e-6) angle += 2.0 * kQuarter;
  const Vec2 along{std::cos(angle), std::sin(angle)};
  const Vec2 up{-along.y, along.x};
  const Vec2 middle{(line_from.x + line_to.x) / 2.0, (line_from.y + line_to.y) / 2.0};
  placer.place(moved(moved(middle, along, -width / 2.0), up, 1.6), text, angle);
}

}  // namespace

std::optional<Extent> extent(const Drawing& drawing) {
  std::optional<Extent> covered;
  for (const DrawnPolygon& polygon : drawing.polygons) {
    for (const Vec2& point : polygon.outline) include(covered, point);
  }
  for (const DrawnLine& line : drawing.lines) {
    include(covered, line.from);
    include(covered, line.to);
  }
  for (const DrawnDimension& dimension : drawing.dimensions) {
    const Vec2 normal = left_normal(dimension.from, dimension.to);
    include(covered, moved(dimension.from, normal, dimension.offset));
    include(covered, moved(dimension.to, normal, dimension.offset));
  }
  for (const DrawnText& text : drawing.texts) include(covered, text.at);
  return covered;
}

double points_per_metre(double scale) {
  return kPointsPerMetre / scale;
}

double choose_scale(double width_m, double height_m, const Rect& area) {
  constexpr std::array<double, 7> kSteps{1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5};
  constexpr int kDecades = 9;
  double decade = 1.0;
  for (int power = 0; power < kDecades; ++power, decade *= 10.0) {
    for (const double step : kSteps) {
      const double scale = step * decade;
      if (scale != std::floor(scale)) continue;  // 1:2.5 and 1:7.5 are not customary
      const double points = points_per_metre(scale);
      if (width_m * points <= area.width() && height_m * points <= area.height()) return scale;
    }
  }
  return decade;
}

std::string scale_text(double scale) {
  return "1:" + format_fixed(scale, 0);
}

Vec2 DrawingFrame::on_page(Vec2 point_m) const {
  const double points = points_per_metre(scale);
  return {origin.x + point_m.x * points, origin.y + point_m.y * points};
}

DrawingFrame centred_frame(const Extent& covered, const Rect& area, double scale) {
  const double points = points_per_metre(scale);
  const double middle_x = (covered.min.x + covered.max.x) / 2.0;
  const double middle_y = (covered.min.y + covered.max.y) / 2.0;
  return {{(area.left + area.right) / 2.0 - middle_x * points, (area.bottom + area.top) / 2.0 - middle_y * points},
          scale};
}

void paint_drawing(PdfDocument& pdf, std::size_t page, const Drawing& drawing, const DrawingFrame& frame) {
  for (const DrawnPolygon& polygon : drawing.polygons) paint_polygon(pdf, page, polygon, frame);
  for (const DrawnLine& line : drawing.lines)
    pdf.line(page, frame.on_page(line.from), frame.on_page(line.to), stroke_of(line.style));
  TextPlacer placer(pdf, page);
  for (const DrawnDimension& dimension : drawing.dimensions) paint_dimension(pdf, page, dimension, frame, placer);
  for (const DrawnText& text : drawing.texts) placer.place(frame.on_page(text.at), text.text);
}

double fit_drawing(PdfDocument& pdf, std::size_t page, const Drawing& drawing, const Rect& area) {
  const auto covered = extent(drawing);
  if (!covered) return 1.0;
  constexpr double kTextMargin = 12.0;
  const Rect inner{area.left + kTextMargin, area.bottom + kTextMargin, area.right - kTextMargin,
                   area.top - kTextMargin};
  const double scale = choose_scale(covered->width(), covered->height(), inner);
  const Tagged tagged(pdf, Tag::figure, "Drawing: " + drawing.title + ", scale " + scale_text(scale));
  paint_drawing(pdf, page, drawing, centred_frame(*covered, inner, scale));
  return scale;
}

}  // namespace panel_dossier
