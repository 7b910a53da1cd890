#include "core/intake/panels/panel_size.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

#include "core/intake/panels/placement.h"

namespace panel_dossier {

namespace {

// Within 8 degrees of the vertical: beyond a batter, short of any roof.
constexpr double kMinVerticalCosine = 0.99;
// No cassette is as thick as this, so a longer y extent is the width of a panel modelled along y.
constexpr double kThickerThanAnyCassette_m = 1.0;

const Vec3 kUp{0.0, 0.0, 1.0};

}  // namespace

Frame turned_about(const Frame& frame) {
  return {frame.origin, frame.x_axis * -1.0, frame.y_axis * -1.0, frame.z_axis};
}

Frame upright(const Frame& placement, const Vec3& size, bool along_x) {
  const std::array<Vec3, 3> axes{placement.x_axis, placement.y_axis, placement.z_axis};
  const std::array<double, 3> extents{size.x, size.y, size.z};
  std::size_t up = 2;
  for (std::size_t i = 0; i < axes.size(); ++i) {
    if (std::abs(dot(axes[i], kUp)) > kMinVerticalCosine) up = i;
  }
  const std::size_t a = (up + 1) % 3;
  const std::size_t b = (up + 2) % 3;
  std::size_t through = extents[a] < extents[b] ? a : b;
  if (up == 2) {
    const bool is_along_x = extents[1] > extents[0] && extents[1] > kThickerThanAnyCassette_m;
    through = along_x || is_along_x ? 0 : 1;
  }
  const Vec3 z = axes[up] * (dot(axes[up], kUp) < 0.0 ? -1.0 : 1.0);
  const Vec3 y = axes[through];
  return {placement.origin, cross(y, z), y, z};
}

std::string metres(double value_m) {
  constexpr double kLargestFixed = 1e15;
  std::array<char, 64> digits{};
  const auto format = std::abs(value_m) < kLargestFixed ? std::chars_format::fixed : std::chars_format::scientific;
  const auto result = std::to_chars(digits.data(), digits.data() + digits.size(), value_m, format, 4);
  std::string text(digits.data(), result.ptr);
  if (format == std::chars_format::fixed) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text + " m";
}

namespace {

// Panels up to 4.5 m wide and above 20 m tall are made; 60 m is beyond any road transport.
constexpr double kLargest_m = 60.0;
constexpr double kSmallestFace_m = 0.05;
constexpr double kThinnest_m = 0.005;
constexpr double kThickest_m = 2.0;

struct Range {
  std::string_view name;
  double value_m;
  double at_least_m;
  double at_most_m;
};

bool may_lap(PartKind kind) {
  return kind == PartKind::sheet || kind == PartKind::membrane || kind == PartKind::cladding || kind == PartKind::other;
}

/// How far the box reaches beyond the panel, in m; the largest over all sides.
double overhang(const Box3& box, const Panel& panel, double lap_m) {
  const Vec3 size{panel.width_m.value, panel.thickness_m.value, panel.height_m.value};
  const double in_plane = std::max({-box.min.x, box.max.x - size.x, -box.min.z, box.max.z - size.z});
  const double through = std::max(-box.min.y, box.max.y - size.y);
  return std::max(in_plane - lap_m, through);
}

}  // namespace

bool differs(double a_m, double b_m) {
  return std::abs(a_m - b_m) > 0.001 + 0.001 * std::max(std::abs(a_m), std::abs(b_m));
}

bool check_panel_size(const ReadContext& context, const Element& entity, const Panel& panel) {
  const std::array ranges{
      Range{"wide", panel.width_m.value, kSmallestFace_m, kLargest_m},
      Range{"high", panel.height_m.value, kSmallestFace_m, kLargest_m},
      Range{"thick", panel.thickness_m.value, kThinnest_m, kThickest_m},
  };
  bool is_sound = true;
  for (const Range& range : ranges) {
    if (range.value_m >= range.at_least_m && range.value_m <= range.at_most_m) continue;
    is_sound = false;
    context.report.error(entity,
                         "the panel is " + metres(range.value_m) + " " + std::string(range.name) + ", not between " +
                             metres(range.at_least_m) + " and " + metres(range.at_most_m),
                         "check the length unit: millimetres and metres may be confused");
  }
  return is_sound;
}

void check_parts_inside(const ReadContext& context, const Panel& panel, const std::vector<PlacedPart>& placed) {
  for (const PlacedPart& item : placed) {
    const Part& part = item.part;
    // Brackets and lifting straps stick out by design.
    if (!part.bounds || part.kind == PartKind::fastener) continue;
    const double beyond_m = overhang(*part.bounds, panel, may_lap(part.kind) ? kLapAllowance_m : 0.0);
    if (beyond_m <= kOutsideTolerance_m) continue;
    context.report.error(item.entity, "the part reaches " + metres(beyond_m) + " out of its panel '" + panel.mark + "'",
                         "check the placement of the part and the length unit");
  }
}

namespace {

constexpr std::string_view kQuantitySets[] = {"Qto_WallBaseQuantities", "BaseQuantities"};

std::optional<Sourced<double>> stated(const Properties& properties, std::string_view name) {
  for (const std::string_view set : kQuantitySets) {
    if (auto value = properties.number(set, name)) return value;
  }
  return std::nullopt;
}

std::optional<Box3> box_of(const Shape& in_world, const Frame& frame) {
  const auto bounds = in_world.moved(Frame{}, frame).bounds();
  return bounds ? std::optional<Box3>(to_nanometre(*bounds)) : std::nullopt;
}

/// Box of the parts of the accepted kinds.
template <typename Accepts>
std::optional<Box3> box_of_parts(const std::vector<PlacedPart>& parts, const Frame& frame, Accepts accepts) {
  std::optional<Box3> all;
  for (const PlacedPart& placed : parts) {
    if (!accepts(placed.part.kind)) continue;
    if (const auto box = box_of(placed.shape, frame)) all = all ? united(*all, *box) : *box;
  }
  return all;
}

/// The part that stands farthest from the middle of all parts.
Element farthest_part(const std::vector<PlacedPart>& parts, const Element& panel) {
  Vec3 sum;
  double count = 0.0;
  for (const PlacedPart& placed : parts) {
    if (!placed.part.bounds) continue;
    sum = sum + placed.part.bounds->centre();
    count += 1.0;
  }
  Element farthest = panel;
  double largest_m = 0.0;
  for (const PlacedPart& placed : parts) {
    if (!placed.part.bounds) continue;
    const double away_m = length(placed.part.bounds->centre() - sum * (1.0 / count));
    if (away_m > largest_m) farthest = placed.entity;
    largest_m = std::max(largest_m, away_m);
  }
  return farthest;
}

}  // namespace

std::optional<OverallBox> overall_box(const Shape& body, const std::vector<PlacedPart>& parts, const Frame& frame) {
  if (const auto own = box_of(body, frame)) return OverallBox{*own, OverallBox::Source::body};
  const auto solid = [](PartKind kind) { return kind != PartKind::fastener; };
  const auto rigid = [&](PartKind kind) { return solid(kind) && kind != PartKind::membrane; };
  const auto face = box_of_parts(parts, frame, rigid);
  auto all = box_of_parts(parts, frame, solid);
  if (!all) all = box_of_parts(parts, frame, [](PartKind) { return true; });
  if (!all) return std::nullopt;
  // Membranes lap over the joints to the next panel, so they count for the thickness and not for the face.
  if (face) {
    all->min = {face->min.x, all->min.y, face->min.z};
    all->max = {face->max.x, all->max.y, face->max.z};
  }
  return OverallBox{*all, OverallBox::Source::parts};
}

std::optional<OverallBox> stated_box(const Properties& properties, double layers_total_m) {
  const auto length = stated(properties, "Length");
  const auto height = stated(properties, "Height");
  const auto width = stated(properties, "Width");
  if (!length || !height || (!width && layers_total_m <= 0.0)) return std::nullopt;
  const double thickness_m = width ? width->value : layers_total_m;
  return OverallBox{{{}, {length->value, thickness_m, height->value}}, OverallBox::Source::quantities};
}

void compare_with_quantities(const ReadContext& context, const Element& entity, const Panel& panel,
                             const std::vector<PlacedPart>& parts, OverallBox::Source source) {
  struct Pair {
    std::string_view quantity;
    double actual_m;
  };
  const std::array pairs{Pair{"Length", panel.width_m.value}, Pair{"Height", panel.height_m.value},
                         Pair{"Width", panel.thickness_m.value}};
  for (const Pair& pair : pairs) {
    const auto value = stated(panel.properties, pair.quantity);
    if (!value || !differs(value->value, pair.actual_m)) continue;
    const std::string message = "'" + value->origin.property + "' is " + metres(value->value) + " and its " +
                                (source == OverallBox::Source::body ? "body" : "parts") + " measure " +
                                metres(pair.actual_m);
    if (pair.actual_m - value->value > kLapAllowance_m && source == OverallBox::Source::parts) {
      context.report.error(farthest_part(parts, entity),
                           "the part lies outside its panel '" + panel.mark + "': " + message,
                           "check the placement of the part and the length unit");
    } else {
      context.report.warning(entity, message + "; the shape is used", "export quantities and shapes of one state");
    }
  }
}

}  // namespace panel_dossier
