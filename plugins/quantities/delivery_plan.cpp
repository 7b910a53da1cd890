#include "plugins/quantities/delivery_plan.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace panel_dossier::quantities {

namespace {

/// Of the plan's larger side: thinner bands show neither hatch nor outline.
constexpr double kLeastThickness = 1.0 / 30.0;

constexpr std::array<Hatch, 8> kHatches{Hatch::timber,  Hatch::none,  Hatch::board, Hatch::insulation,
                                        Hatch::masonry, Hatch::glass, Hatch::metal, Hatch::air};

struct PlannedPanel {
  const Panel* panel = nullptr;
  std::size_t load = 0;
};

Vec2 in_plan(const Panel& panel, double x_m, double y_m) {
  const Vec3 at = panel.frame.to_parent(Vec3{x_m, y_m, 0.0});
  return {at.x, at.y};
}

/// The larger side of the plan, in m.
double size_of(const std::vector<PlannedPanel>& panels) {
  Vec2 low = in_plan(*panels.front().panel, 0.0, 0.0);
  Vec2 high = low;
  for (const PlannedPanel& planned : panels) {
    for (const double x_m : {0.0, planned.panel->width_m.value}) {
      const Vec2 at = in_plan(*planned.panel, x_m, 0.0);
      low = {std::min(low.x, at.x), std::min(low.y, at.y)};
      high = {std::max(high.x, at.x), std::max(high.y, at.y)};
    }
  }
  return std::max(high.x - low.x, high.y - low.y);
}

Drawing plan_of(const std::string& storey, const std::vector<PlannedPanel>& panels) {
  Drawing drawing;
  drawing.title = storey + ": the load that brings each panel";
  const double least_m = kLeastThickness * size_of(panels);
  for (const PlannedPanel& planned : panels) {
    const Panel& panel = *planned.panel;
    const double width_m = panel.width_m.value;
    const double depth_m = std::max(panel.thickness_m.value, least_m);
    drawing.polygons.push_back({{in_plan(panel, 0.0, 0.0), in_plan(panel, width_m, 0.0),
                                 in_plan(panel, width_m, depth_m), in_plan(panel, 0.0, depth_m)},
                                kHatches[planned.load % kHatches.size()],
                                LineStyle::normal,
                                ""});
    drawing.texts.push_back({in_plan(panel, width_m / 2.0, 2.2 * depth_m), std::to_string(planned.load + 1)});
  }
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
    plans.push_back(plan_of(storey < project.storeys.size() ? project.storeys[storey].name : "Without storey", panels));
  }
  return plans;
}

}  // namespace panel_dossier::quantities
