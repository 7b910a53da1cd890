#include "core/dossier/handover/svg_drawing.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string_view>
#include <vector>

#include "core/dossier/handover/html_text.h"
#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

/// Mean width of a letter against its height, of a sans serif face.
constexpr double kHalfPi = std::numbers::pi / 2.0;

std::string_view style_name(LineStyle style) {
  switch (style) {
    case LineStyle::thin: return "thin";
    case LineStyle::normal: return "normal";
    case LineStyle::heavy: return "heavy";
    case LineStyle::dashed: return "dashed";
    case LineStyle::centre: return "centre";
  }
  return "normal";
}

std::string fill_name(const DrawnPolygon& polygon) {
  if (polygon.hatch != Hatch::none) return std::string("h-") + hatch_name(polygon.hatch);
  return polygon.tint == 0 ? "h-none" : "t-" + std::to_string((polygon.tint - 1) % kTints + 1);
}

/// A tenth of a unit, without needless digits: `12.5`, `-3`, `0`.
std::string number(double value) {
  const long tenths = std::lround(value * 10.0);
  std::string text = (tenths < 0 ? "-" : "") + std::to_string(std::labs(tenths) / 10);
  if (tenths % 10 != 0) text += "." + std::to_string(std::labs(tenths) % 10);
  return text;
}

std::size_t letters(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

constexpr double kLetterWidth = 0.56;  // of the size of text, on average

bool is_finite(Vec2 point) {
  return std::isfinite(point.x) && std::isfinite(point.y);
}

class SvgWriter {
 public:
  SvgWriter(const Drawing& drawing, const SvgSize& size) : drawing_(drawing), size_(size) {}

  std::string write() {
    std::optional<Extent> covered = extent(drawing_);
    if (!covered) return {};
    for (const DrawnText& text : drawing_.texts) {
      if (is_finite(text.at)) covered->max.x = std::max(covered->max.x, text.at.x + width_m(text.text));
    }
    top_m_ = covered->max.y;
    left_m_ = covered->min.x;
    for (const DrawnPolygon& polygon : drawing_.polygons) add_polygon(polygon);
    for (const DrawnLine& line : drawing_.lines) add_line(line);
    for (const DrawnDimension& dimension : drawing_.dimensions) add_dimension(dimension);
    for (const DrawnText& text : drawing_.texts) add_text(at(text.at), text.text, 0.0, false);
    end_group();
    const double margin = 1.6 * size_.text;
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"" + number(-margin) + " " + number(-margin) + " " +
           number(covered->width() * size_.units_per_metre + 2.0 * margin) + " " +
           number(covered->height() * size_.units_per_metre + 2.0 * margin) + "\">" + body_ + texts_ + "</svg>";
  }

 private:
  const Drawing& drawing_;
  const SvgSize& size_;
  double top_m_ = 0.0;
  double left_m_ = 0.0;
  std::string body_;
  std::string texts_;  ///< above everything else
  std::string group_;  ///< class of the group that is open

  double width_m(std::string_view text) const {
    return static_cast<double>(letters(text)) * kLetterWidth * size_.text / size_.units_per_metre;
  }

  /// The point on the picture, where y goes down.
  Vec2 at(Vec2 point_m) const {
    return {(point_m.x - left_m_) * size_.units_per_metre, (top_m_ - point_m.y) * size_.units_per_metre};
  }

  void end_group() {
    if (!group_.empty()) body_ += "</g>";
    group_.clear();
  }

  /// Shapes of one look that follow each other share a group.
  void begin_group(const std::string& looks) {
    if (looks == group_) return;
    end_group();
    group_ = looks;
    body_ += "<g class=\"" + looks + "\">";
  }

  void add_polygon(const DrawnPolygon& polygon) {
    if (polygon.outline.empty() || !std::all_of(polygon.outline.begin(), polygon.outline.end(), is_finite)) return;
    begin_group("o-" + std::string(style_name(polygon.style)) + " " + fill_name(polygon));
    body_ += "<path d=\"";
    for (std::size_t i = 0; i < polygon.outline.size(); ++i) {
      const Vec2 point = at(polygon.outline[i]);
      body_ += (i == 0 ? "M" : "L") + number(point.x) + " " + number(point.y);
    }
    body_ += "Z\"/>";
    if (!polygon.label.empty()) add_label(polygon);
  }

  /// In the middle of its outline where it fits there, lying or standing.
  void add_label(const DrawnPolygon& polygon) {
    const auto [left, right] =
        std::minmax_element(polygon.outline.begin(), polygon.outline.end(), [](Vec2 a, Vec2 b) { return a.x < b.x; });
    const auto [low, high] =
        std::minmax_element(polygon.outline.begin(), polygon.outline.end(), [](Vec2 a, Vec2 b) { return a.y < b.y; });
    const double breadth = (right->x - left->x) * size_.units_per_metre;
    const double rise = (high->y - low->y) * size_.units_per_metre;
    const double width = (static_cast<double>(letters(polygon.label)) + 1.0) * kLetterWidth * size_.text;
    const double height = 1.3 * size_.text;
    const Vec2 middle = at(centroid(polygon.outline));
    if (width <= breadth && height <= rise) {
      add_text(middle, polygon.label, 0.0, true);
    } else if (width <= rise && height <= breadth) {
      add_text(middle, polygon.label, -kHalfPi, true);
    }
  }

  void add_line(const DrawnLine& line) {
    if (!is_finite(line.from) || !is_finite(line.to)) return;
    begin_group("l-" + std::string(style_name(line.style)));
    body_ += path(at(line.from), at(line.to));
  }

  static std::string path(Vec2 from, Vec2 to) {
    return "<path d=\"M" + number(from.x) + " " + number(from.y) + "L" + number(to.x) + " " + number(to.y) + "\"/>";
  }

  /// As the dossier draws them: extension lines, slanted ticks, the figure above the line, read from below or from the
  /// right.
  void add_dimension(const DrawnDimension& dimension) {
    if (!is_finite(dimension.from) || !is_finite(dimension.to)) return;
    const double length_m = std::hypot(dimension.to.x - dimension.from.x, dimension.to.y - dimension.from.y);
    if (length_m <= 0.0) return;
    begin_group("dim");
    const Vec2 along_m{(dimension.to.x - dimension.from.x) / length_m, (dimension.to.y - dimension.from.y) / length_m};
    const Vec2 normal_m{-along_m.y, along_m.x};
    const auto moved_m = [&normal_m](Vec2 point, double distance_m) {
      return Vec2{point.x + normal_m.x * distance_m, point.y + normal_m.y * distance_m};
    };
    const double tick_m = 0.3 * size_.text / size_.units_per_metre;
    const double sign = dimension.offset < 0.0 ? -1.0 : 1.0;
    const Vec2 from_m = moved_m(dimension.from, dimension.offset);
    const Vec2 to_m = moved_m(dimension.to, dimension.offset);
    body_ += path(at(from_m), at(to_m));
    if (dimension.offset != 0.0) {
      for (const auto& [foot_m, end_m] : {std::pair{dimension.from, from_m}, std::pair{dimension.to, to_m}})
        body_ += path(at(moved_m(foot_m, sign * tick_m)), at(moved_m(end_m, sign * tick_m)));
    }
    for (const Vec2 end_m : {from_m, to_m})
      body_ += path(at({end_m.x - tick_m, end_m.y - tick_m}), at({end_m.x + tick_m, end_m.y + tick_m}));

    double angle = std::atan2(along_m.y, along_m.x);
    constexpr double kSame = 1e-6;
    if (angle > kHalfPi + kSame) angle -= std::numbers::pi;
    if (angle <= -kHalfPi + kSame) angle += std::numbers::pi;
    const Vec2 up_m{-std::sin(angle), std::cos(angle)};
    const double above_m = 0.65 * size_.text / size_.units_per_metre;
    const Vec2 middle_m{(from_m.x + to_m.x) / 2.0 + up_m.x * above_m, (from_m.y + to_m.y) / 2.0 + up_m.y * above_m};
    add_text(at(middle_m), dimension.text.empty() ? format_millimetres(length_m) : dimension.text, -angle, true);
  }

  /// `angle_rad` turns it clockwise, as SVG does.
  void add_text(Vec2 point, const std::string& text, double angle_rad, bool is_centred) {
    if (!is_finite(point) || text.empty()) return;
    const std::string x = number(point.x);
    const std::string y = number(point.y);
    texts_ += std::string("<text class=\"tx") + (is_centred ? " mid" : "") + "\" x=\"" + x + "\" y=\"" + y + "\"";
    const double degrees = angle_rad * 180.0 / std::numbers::pi;
    if (std::fabs(degrees) > 0.05) texts_ += " transform=\"rotate(" + number(degrees) + " " + x + " " + y + ")\"";
    texts_ += ">" + html_escaped(text) + "</text>";
  }
};

}  // namespace

std::string svg_of(const Drawing& drawing, const SvgSize& size) {
  return SvgWriter(drawing, size).write();
}

}  // namespace panel_dossier
