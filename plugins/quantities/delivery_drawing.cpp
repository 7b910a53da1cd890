#include "plugins/quantities/delivery_drawing.h"

#include <algorithm>
#include <utility>

#include "core/api/fixed_text.h"

namespace panel_dossier::quantities {

namespace {

/// Sizes of what is drawn for the look alone, in m.
constexpr double kDeckDepth = 0.15;
constexpr double kHeadboardDepth = 0.1;
constexpr double kHeadboardHeight = 1.5;
constexpr double kSupportDepth = 0.6;
constexpr double kTextGap = 0.25;
constexpr double kDimensionOffset = 0.45;

Polygon rectangle(double left, double bottom, double right, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

DrawnPolygon outline(const DeliveryList& list, const Load& load, const PlacedItem& placed, double bottom,
                     double height) {
  const DeliveryItem& item = list.items[placed.item];
  const double front = metres(load.set_back + placed.front);
  return {rectangle(front, bottom, front + metres(item.length), bottom + height), Hatch::none, LineStyle::normal,
          list.project.panels[item.panel].mark};
}

Micrometres tallest_of(const DeliveryList& list, const Load& load) {
  Micrometres tallest = 0;
  for (const PlacedItem& placed : load.items) tallest = std::max(tallest, list.items[placed.item].height);
  return tallest;
}

void draw_support(Drawing& drawing, double at_m, const std::string& name, double share_kg) {
  drawing.lines.push_back({{at_m, -kDeckDepth}, {at_m, -kSupportDepth}, LineStyle::heavy});
  drawing.texts.push_back({{at_m, -kSupportDepth - kTextGap}, name + " " + fixed_text(share_kg, 0) + " kg"});
}

/// Marks above and below, for a line through the panels would cross their marks.
void draw_centre(Drawing& drawing, double at_m, double top_m) {
  drawing.lines.push_back({{at_m, top_m}, {at_m, top_m + kSupportDepth}, LineStyle::centre});
  drawing.lines.push_back({{at_m, -kDeckDepth}, {at_m, -kSupportDepth}, LineStyle::centre});
  drawing.texts.push_back({{at_m, top_m + kSupportDepth + kTextGap},
                           "centre of panels and racks " + fixed_text(at_m, 2) + " m behind the headboard"});
}

}  // namespace

Drawing load_side_view(const DeliveryList& list, std::size_t index, const Vehicle& vehicle) {
  const Load& load = list.loads[index];
  const double bed_m = metres(vehicle.bed_length);
  const double rack_m = metres(vehicle.rack_base);
  const double top_m = rack_m + metres(tallest_of(list, load));
  Drawing drawing;
  drawing.title = "Load " + std::to_string(index + 1) + ", row 1 from the unloading side";
  // The deck's top is y = 0.
  drawing.polygons.push_back({rectangle(0.0, -kDeckDepth, bed_m, 0.0), Hatch::metal, LineStyle::normal, ""});
  drawing.polygons.push_back(
      {rectangle(-kHeadboardDepth, 0.0, 0.0, kHeadboardHeight), Hatch::metal, LineStyle::normal, ""});
  if (rack_m > 0.0) {
    drawing.polygons.push_back({rectangle(0.0, 0.0, bed_m, rack_m), Hatch::none, LineStyle::thin, ""});
  }
  for (const PlacedItem& placed : load.items) {
    if (placed.row > 0) continue;
    drawing.polygons.push_back(outline(list, load, placed, rack_m, metres(list.items[placed.item].height)));
  }
  draw_support(drawing, vehicle.kingpin_m, "kingpin", load.shares.kingpin_kg);
  draw_support(drawing, vehicle.axle_group_m, "axle group", load.shares.axle_group_kg);
  draw_centre(drawing, load.centre_m, top_m);
  drawing.dimensions.push_back({{bed_m, top_m}, {bed_m, 0.0}, kDimensionOffset, ""});
  return drawing;
}

Drawing load_plan(const DeliveryList& list, std::size_t index, const Vehicle& vehicle) {
  const Load& load = list.loads[index];
  const double bed_m = metres(vehicle.bed_length);
  const double width_m = metres(vehicle.bed_width);
  Drawing drawing;
  drawing.title = "Load " + std::to_string(index + 1) + " from above, unloading side below";
  drawing.polygons.push_back({rectangle(0.0, 0.0, bed_m, width_m), Hatch::none, LineStyle::thin, ""});
  std::vector<double> edges;
  double at = (width_m - metres(rows_width(load, vehicle))) / 2.0;
  for (const Micrometres thickness : load.rows) {
    edges.push_back(at);
    at += metres(thickness + vehicle.spacer);
  }
  for (const PlacedItem& placed : load.items) {
    const DeliveryItem& item = list.items[placed.item];
    const double thickness_m = metres(item.thickness);
    DrawnPolygon box = outline(list, load, placed, edges[placed.row], thickness_m);
    // A text stays where a label would be dropped: the box may be thinner than its letters.
    const double middle_m = metres(load.set_back + placed.front + item.length / 2);
    drawing.texts.push_back({{middle_m, edges[placed.row] + thickness_m / 2.0}, box.label});
    box.label.clear();
    drawing.polygons.push_back(std::move(box));
  }
  drawing.dimensions.push_back({{bed_m, 0.0}, {0.0, 0.0}, kDimensionOffset, ""});
  drawing.dimensions.push_back({{bed_m, width_m}, {bed_m, 0.0}, kDimensionOffset, ""});
  return drawing;
}

}  // namespace panel_dossier::quantities
