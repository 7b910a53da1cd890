#include "core/intake/panels/panel_size.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "core/intake/document/rounding.h"
#include "core/intake/document/text_format.h"
#include "core/intake/panels/size_checks.h"

namespace panel_dossier {

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
