#include "plugins/quantities/cutting/member_cuts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string_view>
#include <vector>

#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier::quantities {

namespace {

constexpr double kSquare_deg = 90.0;
/// Sines below this are rounding of the export's coordinates: 1 mm in 2 m.
constexpr double kParallel = 5.0e-4;
constexpr double kCoincident_m = 1.0e-6;

Vec2 direction(const Vec2& from, const Vec2& to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  return {(to.x - from.x) / length, (to.y - from.y) / length};
}

/// Sine of the angle between two directions, not negative.
double sine(const Vec2& a, const Vec2& b) {
  return std::abs(a.x * b.y - a.y * b.x);
}

/// Without repeated points and points in the middle of a straight edge.
Polygon corners_of(const Polygon& outline) {
  Polygon points;
  for (const Vec2& p : outline) {
    if (points.empty() || std::hypot(p.x - points.back().x, p.y - points.back().y) > kCoincident_m) points.push_back(p);
  }
  Polygon corners;
  for (std::size_t i = 0; i < points.size() && points.size() > 2; ++i) {
    const Vec2& before = points[(i + points.size() - 1) % points.size()];
    const Vec2& after = points[(i + 1) % points.size()];
    if (sine(direction(before, points[i]), direction(points[i], after)) > kParallel) corners.push_back(points[i]);
  }
  return corners;
}

double angle_deg(double sine_of_angle) {
  return units::degrees_from_radians(std::asin(std::min(1.0, sine_of_angle)));
}

/// The member's side face is the outline: two parallel edges run along it, the other two are its ends.
std::optional<std::pair<double, double>> ends_of_side_face(const Polygon& outline) {
  const Polygon corners = corners_of(outline);
  if (corners.size() != 4) return std::nullopt;
  std::array<Vec2, 4> edges{};
  std::array<double, 4> lengths{};
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2& next = corners[(i + 1) % 4];
    edges[i] = direction(corners[i], next);
    lengths[i] = std::hypot(next.x - corners[i].x, next.y - corners[i].y);
  }
  const std::size_t along = lengths[0] + lengths[2] >= lengths[1] + lengths[3] ? 0 : 1;
  if (sine(edges[along], edges[along + 2]) > kParallel) return std::nullopt;
  const double first = angle_deg(sine(edges[along], edges[along + 1]));
  const double second = angle_deg(sine(edges[along], edges[(along + 3) % 4]));
  return std::minmax({first, second});
}

std::optional<double> positive_number(std::string_view text) {
  const auto value = parse_decimal(text);
  return value && *value > 0.0 ? value : std::nullopt;
}

/// Distances by diameter, both in mm.
using Holes = std::map<double, std::vector<double>>;

std::optional<Holes> parse_holes(std::string_view text) {
  Holes holes;
  while (!text.empty()) {
    const std::string_view entry = text.substr(0, text.find(';'));
    text.remove_prefix(std::min(text.size(), entry.size() + 1));
    const std::size_t at = entry.find('@');
    if (at == std::string_view::npos) return std::nullopt;
    const auto diameter = positive_number(entry.substr(0, at));
    const auto distance = positive_number(entry.substr(at + 1));
    if (!diameter || !distance) return std::nullopt;
    holes[*diameter].push_back(*distance);
  }
  return holes;
}

/// A solid with two straight end cuts that nothing else is taken from.
bool cut_at_ends_alone(const Part& part, const CutPart& cut) {
  if (!part.solid || !end_angles_deg(part, cut)) return false;
  return !part.volume_m3 || fills(part.volume_m3->value, part.solid->volume_m3());
}

std::string short_number(double value) {
  return fixed_text(value, value == std::floor(value) ? 0 : 1);
}

}  // namespace

std::optional<std::pair<double, double>> end_angles_deg(const Part& part, const CutPart& cut) {
  if (!part.solid) return std::nullopt;
  const bool along_extrusion = micrometres(part.solid->depth_m) == cut.length;
  if (!along_extrusion) return ends_of_side_face(part.solid->outline);
  if (corners_of(part.solid->outline).size() != 4) return std::nullopt;
  const double angle = angle_deg(std::abs(part.solid->direction.z));
  return std::pair(angle, angle);
}

std::string shape_in_words(const Part& part, const CutPart& cut) {
  if (cut.rectangular) return "rectangular";
  const auto angles = is_framing(part.kind) ? end_angles_deg(part, cut) : std::nullopt;
  if (!angles) return "shaped";
  const auto is_square = [](double angle) { return kSquare_deg - angle < 0.05; };
  // Square at both ends and yet short of its blank: notched or drilled.
  if (is_square(angles->first) && is_square(angles->second)) return "shaped";
  return "ends " + short_number(std::round(angles->first * 10.0) / 10.0) + "° and " +
         short_number(std::round(angles->second * 10.0) / 10.0) + "°";
}

bool same_mitres(const Part& a, const Part& b, const CutPart& cut) {
  if (!is_framing(a.kind) || !cut_at_ends_alone(a, cut) || !cut_at_ends_alone(b, cut)) return false;
  const auto same = [](double x, double y) { return micrometres(x) == micrometres(y); };
  const Extrusion& first = *a.solid;
  const Extrusion& second = *b.solid;
  const bool same_direction = same(first.direction.x, second.direction.x) &&
                              same(first.direction.y, second.direction.y) &&
                              same(first.direction.z, second.direction.z);
  return same(first.depth_m, second.depth_m) && same_direction &&
         std::equal(first.outline.begin(), first.outline.end(), second.outline.begin(), second.outline.end(),
                    [&](const Vec2& p, const Vec2& q) { return same(p.x, q.x) && same(p.y, q.y); });
}

std::optional<std::string> holes_in_words(const Part& part, const CutPart& cut) {
  const auto text = part.properties.text("Panel_Member", "Holes");
  if (!text) return std::string();
  const auto holes = parse_holes(text->value);
  if (!holes) return std::nullopt;
  std::string words;
  for (const auto& [diameter, distances] : *holes) {
    words += (words.empty() ? "" : "; ") + short_number(diameter) + " mm at ";
    for (std::size_t i = 0; i < distances.size(); ++i) {
      if (distances[i] >= millimetres(cut.length)) return std::nullopt;
      words += (i == 0 ? "" : ", ") + short_number(distances[i]);
    }
  }
  return words;
}

}  // namespace panel_dossier::quantities
