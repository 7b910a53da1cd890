#include "plugins/quantities/delivery/plan.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace panel_dossier::quantities {

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
