#include "plugins/quantities/delivery/items.h"

#include <string>

namespace panel_dossier::quantities {

namespace {

constexpr std::size_t kRefusalsNamed = 5;

}  // namespace

DeliveryItem delivery_item(const Panel& panel, std::size_t index, const PanelValue& mass, const PanelValue& centre,
                           const Vehicle& vehicle) {
  const Micrometres width = micrometres(panel.width_m.value);
  const Micrometres height = micrometres(panel.height_m.value);
  const Micrometres thickness = micrometres(panel.thickness_m.value);
  const Micrometres from_left = micrometres(step_value(*centre.finding, "x_G"));
  const Micrometres from_inside = micrometres(step_value(*centre.finding, "y_G"));
  const Micrometres from_foot = micrometres(step_value(*centre.finding, "z_G"));
  DeliveryItem item;
  item.panel = index;
  item.thickness = thickness;
  item.mass = milligrams(mass.value);
  item.on_foot = width >= height || height + vehicle.rack_base <= vehicle.height;
  item.length = item.on_foot ? width : height;
  item.height = item.on_foot ? height : width;
  item.centre = item.on_foot ? from_left : from_foot;
  item.rise = item.on_foot ? from_foot : from_left;
  item.across = item.on_foot ? from_inside : thickness - from_inside;
  return item;
}

std::vector<DeliveryItem> delivery_items(FindingBuilder& finding, const Project& project, const PanelValues& masses,
                                         const PanelValues& centres, const std::vector<std::size_t>& order,
                                         const Vehicle& vehicle) {
  std::vector<DeliveryItem> items;
  items.reserve(order.size());
  std::size_t refused = 0;
  for (const std::size_t index : order) {
    const Panel& panel = project.panels[index];
    items.push_back(delivery_item(panel, index, masses.entries[index], centres.entries[index], vehicle));
    const DeliveryItem& item = items.back();
    const bool sized = item.length > 0 && item.height > 0 && item.thickness > 0;
    const std::string reason = sized ? fits_alone(item, vehicle) : "has no width, height or thickness: state all three";
    if (!reason.empty() && ++refused <= kRefusalsNamed) finding.missing("panel '" + panel.mark + "' " + reason);
  }
  if (refused > kRefusalsNamed) {
    finding.missing(std::to_string(refused - kRefusalsNamed) + " more panels that the vehicle cannot carry");
  }
  return items;
}

}  // namespace panel_dossier::quantities
