#include "core/intake/panel_size.h"

#include <array>
#include <string_view>

#include "core/intake/rounding.h"
#include "core/intake/size_checks.h"
#include "core/intake/text_format.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kQuantitySets[] = {"Qto_WallBaseQuantities", "BaseQuantities"};

std::optional<Sourced<double>> stated(const Properties& properties, std::string_view name) {
  for (const std::string_view set : kQuantitySets) {
    if (auto value = properties.number(set, name)) return value;
  }
  return std::nullopt;
}

bool counts_for_size(PartKind kind) {
  return kind != PartKind::membrane && kind != PartKind::fastener;
}

std::optional<Box3> box_of(const Shape& in_world, const Frame& frame) {
  const auto bounds = in_world.moved(Frame{}, frame).bounds();
  return bounds ? std::optional<Box3>(to_nanometre(*bounds)) : std::nullopt;
}

}  // namespace

std::optional<OverallBox> overall_box(const Shape& body, const std::vector<PlacedPart>& parts, const Frame& frame) {
  if (const auto own = box_of(body, frame)) return OverallBox{*own, OverallBox::Source::body};
  std::optional<Box3> all;
  for (const bool any_kind : {false, true}) {
    for (const PlacedPart& placed : parts) {
      if (!any_kind && !counts_for_size(placed.part.kind)) continue;
      const auto box = box_of(placed.shape, frame);
      if (box) all = all ? united(*all, *box) : *box;
    }
    if (all) return OverallBox{*all, OverallBox::Source::parts};
  }
  return std::nullopt;
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
                             OverallBox::Source source) {
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
      context.report.error(entity, message, "a part lies outside the panel: check its placement");
    } else {
      context.report.warning(entity, message + "; the shape is used", "export quantities and shapes of one state");
    }
  }
}

}  // namespace panel_dossier
