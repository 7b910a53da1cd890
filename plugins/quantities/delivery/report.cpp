#include "plugins/quantities/delivery/report.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

namespace {

std::string date_of(const std::vector<std::string>& dates, std::size_t index) {
  return dates.empty() ? "not planned" : dates[index];
}

}  // namespace

Table load_table(const DeliveryList& list) {
  Table table{"Loads",
              {{"load", ""},
               {"panels", ""},
               {"mass of panels", "kg"},
               {"centre behind headboard", "m"},
               {"kingpin", "kg"},
               {"axle group", "kg"},
               {"arrives on", ""},
               {"needed on", ""}},
              {}};
  for (std::size_t i = 0; i < list.loads.size(); ++i) {
    const Load& load = list.loads[i];
    table.rows.push_back({static_cast<double>(i + 1), static_cast<double>(load.items.size()), kilograms(load.mass),
                          load.centre_m, load.shares.kingpin_kg, load.shares.axle_group_kg,
                          date_of(list.dates.arrives, i),
                          date_of(list.dates.erected, list.items[load.items.front().item].panel)});
  }
  return table;
}

Table balance_table(const DeliveryList& list, const Vehicle& vehicle) {
  Table table{"Balance of the panels across the bed and above it",
              {{"load", ""},
               {"rows", ""},
               {"unloading side", "kg"},
               {"far side", "kg"},
               {"difference", "%"},
               {"centre from the bed's middle, to the far side", "m"},
               {"centre above the deck", "m"}},
              {}};
  for (std::size_t i = 0; i < list.loads.size(); ++i) {
    const LoadBalance balance = balance_of(list.loads[i], list.items, vehicle);
    table.rows.push_back({static_cast<double>(i + 1), static_cast<double>(list.loads[i].rows.size()),
                          kilograms(balance.unloading_side), kilograms(balance.far_side),
                          rounded_to_millionth(units::kPercentPerWhole * balance.difference()), balance.offset_m,
                          balance.rise_m});
  }
  return table;
}

Table panel_table(const DeliveryList& list) {
  Table table{"Panels by load",
              {{"load", ""},
               {"place", ""},
               {"panel", ""},
               {"storey", ""},
               {"row", ""},
               {"behind headboard", "m"},
               {"stands on", ""},
               {"mass", "kg"},
               {"erected on", ""},
               {"global id", ""}},
              {},
              kPanelsByLoad};
  const Project& project = list.project;
  for (std::size_t i = 0; i < list.loads.size(); ++i) {
    const Load& load = list.loads[i];
    for (std::size_t place = 0; place < load.items.size(); ++place) {
      const PlacedItem& placed = load.items[place];
      const DeliveryItem& item = list.items[placed.item];
      const Panel& panel = project.panels[item.panel];
      table.rows.push_back({static_cast<double>(i + 1), static_cast<double>(place + 1), panel.mark,
                            storey_name(project, panel.storey.value_or(project.storeys.size())),
                            static_cast<double>(placed.row + 1), metres(load.set_back + placed.front),
                            std::string(item.on_foot ? "foot" : "left edge"), kilograms(item.mass),
                            date_of(list.dates.erected, item.panel), panel.global_id});
    }
  }
  return table;
}

namespace {

/// Sizes of what is drawn for the look alone, in m.
constexpr double kDeckDepth = 0.15;
constexpr double kHeadboardDepth = 0.1;
constexpr double kHeadboardHeight = 1.5;
constexpr double kTick = 0.5;
constexpr double kTextGap = 0.25;
constexpr double kTextMargin = 0.08;
constexpr double kDimensionOffset = 0.45;
constexpr double kBetweenColumns = 2.0;
constexpr double kBetweenRows = 1.6;
constexpr double kRowNameBelowDeck = 0.8;
/// Of the bed's length: what a letter takes at the scales that the page has for a bed.
constexpr double kLetterShare = 1.0 / 110.0;

Polygon box_at(Vec2 corner, double width, double height) {
  return rectangle(corner.x, corner.y, corner.x + width, corner.y + height);
}

Micrometres tallest_of(const DeliveryList& list, const Load& load) {
  Micrometres tallest = 0;
  for (const PlacedItem& placed : load.items) tallest = std::max(tallest, list.items[placed.item].height);
  return tallest;
}

/// Rows drawn abreast: as many as make the drawing wide enough for the whole page.
std::size_t columns_for(std::size_t rows) {
  if (rows == 1) return 1;
  return rows <= 4 ? 2 : 3;
}

/// Deck, headboard and rack; `at` is where the deck's top meets the headboard.
void draw_bed(Drawing& drawing, Vec2 at, const Vehicle& vehicle) {
  const double bed_m = metres(vehicle.bed_length);
  const double rack_m = metres(vehicle.rack_base);
  drawing.polygons.push_back(
      {box_at({at.x, at.y - kDeckDepth}, bed_m, kDeckDepth), Hatch::metal, LineStyle::normal, ""});
  drawing.polygons.push_back(
      {box_at({at.x - kHeadboardDepth, at.y}, kHeadboardDepth, kHeadboardHeight), Hatch::metal, LineStyle::normal, ""});
  if (rack_m > 0.0) drawing.polygons.push_back({box_at(at, bed_m, rack_m), Hatch::none, LineStyle::thin, ""});
}

/// The place in the load, and the mark where the panel is long enough for both.
std::string plan_text(const std::string& place, const std::string& mark, const DeliveryItem& item,
                      const Vehicle& vehicle) {
  const std::string both = place + " " + mark;
  const double needed_m = static_cast<double>(both.size()) * kLetterShare * metres(vehicle.bed_length);
  return needed_m <= metres(item.length) ? both : place;
}

void draw_support(Drawing& drawing, double at_m, const std::string& name, double share_kg) {
  drawing.lines.push_back({{at_m, 0.0}, {at_m, -kTick}, LineStyle::heavy});
  drawing.texts.push_back({{at_m + kTextMargin, -kTick}, name + " " + fixed_text(share_kg, 0) + " kg"});
}

/// Marks outside the bed, for a line through the panels would cross their marks.
void draw_centre(Drawing& drawing, const Load& load, double across_m, const Vehicle& vehicle) {
  const double bed_m = metres(vehicle.bed_length);
  const double width_m = metres(vehicle.bed_width);
  const double x = load.centre_m;
  drawing.lines.push_back({{x, width_m}, {x, width_m + kTick}, LineStyle::centre});
  drawing.lines.push_back({{x, 0.0}, {x, -kTick}, LineStyle::centre});
  drawing.lines.push_back({{-kTick, across_m}, {0.0, across_m}, LineStyle::centre});
  drawing.lines.push_back({{bed_m, across_m}, {bed_m + kTick, across_m}, LineStyle::centre});
  drawing.texts.push_back({{x + kTextMargin, width_m + kTextGap},
                           "centre of panels and racks " + fixed_text(x, 2) + " m behind the headboard"});
}

}  // namespace

Drawing load_side_views(const DeliveryList& list, std::size_t index, const Vehicle& vehicle) {
  const Load& load = list.loads[index];
  const double bed_m = metres(vehicle.bed_length);
  const double rack_m = metres(vehicle.rack_base);
  const double top_m = rack_m + metres(tallest_of(list, load));
  Drawing drawing;
  drawing.title = "Load " + std::to_string(index + 1) + " from the unloading side, row by row";
  const std::size_t columns = columns_for(load.rows.size());
  const auto corner_of = [&](std::size_t row) {
    const std::size_t line = row / columns;
    return Vec2{static_cast<double>(row % columns) * (bed_m + kBetweenColumns),
                -static_cast<double>(line) * (top_m + kBetweenRows)};
  };
  for (std::size_t row = 0; row < load.rows.size(); ++row) {
    const Vec2 corner = corner_of(row);
    draw_bed(drawing, corner, vehicle);
    drawing.texts.push_back({{corner.x, corner.y - kDeckDepth - kRowNameBelowDeck},
                             "row " + std::to_string(row + 1) + (row == 0 ? ", at the unloading side" : "")});
  }
  for (std::size_t place = 0; place < load.items.size(); ++place) {
    const PlacedItem& placed = load.items[place];
    const DeliveryItem& item = list.items[placed.item];
    const Vec2 corner = corner_of(placed.row);
    const Vec2 foot{corner.x + metres(load.set_back + placed.front), corner.y + rack_m};
    drawing.polygons.push_back({box_at(foot, metres(item.length), metres(item.height)), Hatch::none, LineStyle::normal,
                                list.project.panels[item.panel].mark});
    drawing.texts.push_back({{foot.x + kTextMargin, foot.y + kTextMargin}, std::to_string(place + 1)});
  }
  drawing.dimensions.push_back({{0.0, 0.0}, {0.0, top_m}, kDimensionOffset, ""});
  return drawing;
}

Drawing load_plan(const DeliveryList& list, std::size_t index, const Vehicle& vehicle) {
  const Load& load = list.loads[index];
  const double bed_m = metres(vehicle.bed_length);
  const double width_m = metres(vehicle.bed_width);
  Drawing drawing;
  drawing.title = "Load " + std::to_string(index + 1) + " from above, unloading side below";
  drawing.polygons.push_back({box_at({0.0, 0.0}, bed_m, width_m), Hatch::none, LineStyle::thin, ""});
  const std::vector<Micrometres> edges = row_edges(load, vehicle);
  for (std::size_t place = 0; place < load.items.size(); ++place) {
    const PlacedItem& placed = load.items[place];
    const DeliveryItem& item = list.items[placed.item];
    const Vec2 corner{metres(load.set_back + placed.front), metres(edges[placed.row])};
    drawing.polygons.push_back(
        {box_at(corner, metres(item.length), metres(item.thickness)), Hatch::none, LineStyle::normal, ""});
    // A text stays where a label would be dropped: the box may be thinner than its letters.
    drawing.texts.push_back(
        {{corner.x + kTextMargin, corner.y + kTextMargin},
         plan_text(std::to_string(place + 1), list.project.panels[item.panel].mark, item, vehicle)});
  }
  draw_support(drawing, vehicle.kingpin_m, "kingpin", load.shares.kingpin_kg);
  draw_support(drawing, vehicle.axle_group_m, "axle group", load.shares.axle_group_kg);
  const LoadBalance balance = balance_of(load, list.items, vehicle);
  // The racks stand in the middle of the bed.
  const double with_racks = kilograms(load.mass) / kilograms(load.mass + vehicle.racks);
  draw_centre(drawing, load, width_m / 2.0 + balance.offset_m * with_racks, vehicle);
  drawing.dimensions.push_back({{bed_m, 0.0}, {0.0, 0.0}, kTick + kDimensionOffset, ""});
  drawing.dimensions.push_back({{bed_m, width_m}, {bed_m, 0.0}, kTick + kDimensionOffset, ""});
  return drawing;
}

namespace {

/// Of the plan's larger side: thinner bands show neither hatch nor outline.
constexpr double kLeastThickness = 1.0 / 20.0;
/// The same of the legend's boxes, their distance, and where the legend begins below the plan.
constexpr double kSampleWidth = 1.0 / 12.0;
constexpr double kEntryStep = 1.0 / 4.0;
constexpr double kLegendGap = 1.0 / 6.0;
constexpr std::size_t kEntriesInLine = 4;

/// Neighbours in number differ most, for loads that follow each other meet in a storey. Nine hatches and eight colours
/// have no common factor, so 72 loads differ in one or both.
constexpr std::array<Hatch, 9> kHatches{Hatch::timber, Hatch::none,    Hatch::board, Hatch::membrane,  Hatch::air,
                                        Hatch::metal,  Hatch::masonry, Hatch::glass, Hatch::insulation};

struct PlannedPanel {
  const Panel* panel = nullptr;
  std::size_t load = 0;
};

Vec2 in_plan(const Panel& panel, double x_m, double y_m) {
  const Vec3 at = panel.frame.to_parent(Vec3{x_m, y_m, 0.0});
  return {at.x, at.y};
}

struct Extent {
  Vec2 low;
  Vec2 high;

  /// The larger side, in m.
  double size() const { return std::max(high.x - low.x, high.y - low.y); }
};

Extent extent_of(const std::vector<PlannedPanel>& panels) {
  Vec2 low = in_plan(*panels.front().panel, 0.0, 0.0);
  Vec2 high = low;
  for (const PlannedPanel& planned : panels) {
    for (const double x_m : {0.0, planned.panel->width_m.value}) {
      const Vec2 at = in_plan(*planned.panel, x_m, 0.0);
      low = {std::min(low.x, at.x), std::min(low.y, at.y)};
      high = {std::max(high.x, at.x), std::max(high.y, at.y)};
    }
  }
  return {low, high};
}

Hatch hatch_of(std::size_t load) {
  return kHatches[load % kHatches.size()];
}

/// A box with its hatch for each load of the plan, and its name beside it.
void add_legend(Drawing& drawing, const std::vector<PlannedPanel>& panels, const Extent& extent) {
  std::set<std::size_t> loads;
  for (const PlannedPanel& planned : panels) loads.insert(planned.load);
  const double width_m = kSampleWidth * extent.size();
  const double height_m = kLeastThickness * extent.size();
  std::size_t entry = 0;
  for (const std::size_t load : loads) {
    const std::size_t line = entry / kEntriesInLine;
    const double x = extent.low.x + static_cast<double>(entry % kEntriesInLine) * kEntryStep * extent.size();
    const double y = extent.low.y - kLegendGap * extent.size() - (1.0 + 1.5 * static_cast<double>(line)) * height_m;
    drawing.polygons.push_back({{{x, y}, {x + width_m, y}, {x + width_m, y + height_m}, {x, y + height_m}},
                                hatch_of(load),
                                LineStyle::normal,
                                "",
                                load + 1});
    drawing.texts.push_back({{x + 1.2 * width_m, y + 0.2 * height_m}, "load " + std::to_string(load + 1)});
    ++entry;
  }
}

/// The storey's name, after that of its building where there are several.
std::string plan_name(const Project& project, std::size_t index) {
  if (index >= project.storeys.size()) return "Without storey";
  const Storey& storey = project.storeys[index];
  return project.buildings.size() > 1 ? storey.building + ", " + storey.name : storey.name;
}

Drawing plan_of(const std::string& storey, const std::vector<PlannedPanel>& panels) {
  Drawing drawing;
  drawing.title = storey + ": the load that brings each panel";
  const Extent extent = extent_of(panels);
  const double least_m = kLeastThickness * extent.size();
  for (const PlannedPanel& planned : panels) {
    const Panel& panel = *planned.panel;
    const double width_m = panel.width_m.value;
    const double depth_m = std::max(panel.thickness_m.value, least_m);
    drawing.polygons.push_back({{in_plan(panel, 0.0, 0.0), in_plan(panel, width_m, 0.0),
                                 in_plan(panel, width_m, depth_m), in_plan(panel, 0.0, depth_m)},
                                hatch_of(planned.load),
                                LineStyle::normal,
                                "",
                                planned.load + 1});
    drawing.texts.push_back({in_plan(panel, width_m / 2.0, 2.2 * depth_m), std::to_string(planned.load + 1)});
  }
  add_legend(drawing, panels, extent);
  return drawing;
}

}  // namespace

std::vector<Drawing> storey_plans(const DeliveryList& list) {
  const Project& project = list.project;
  std::map<std::size_t, std::vector<PlannedPanel>> storeys;
  for (std::size_t i = 0; i < list.loads.size(); ++i) {
    for (const PlacedItem& placed : list.loads[i].items) {
      const Panel& panel = project.panels[list.items[placed.item].panel];
      storeys[panel.storey.value_or(project.storeys.size())].push_back({&panel, i});
    }
  }
  std::vector<Drawing> plans;
  plans.reserve(storeys.size());
  for (const auto& [storey, panels] : storeys) {
    plans.push_back(plan_of(plan_name(project, storey), panels));
  }
  return plans;
}

}  // namespace panel_dossier::quantities
