#include "plugins/quantities/delivery/balance.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::quantities {

double LoadBalance::difference() const {
  return std::abs(kilograms(far_side - unloading_side)) / kilograms(far_side + unloading_side);
}

LoadBalance balance_of(const Load& load, const std::vector<DeliveryItem>& items, const Vehicle& vehicle) {
  const std::vector<Micrometres> edges = row_edges(load, vehicle);
  const Micrometres middle = vehicle.bed_width / 2;
  LoadBalance balance;
  double moment_across_kgm = 0.0;
  double moment_up_kgm = 0.0;
  for (const PlacedItem& placed : load.items) {
    const DeliveryItem& item = items[placed.item];
    const Micrometres edge = edges[placed.row];
    const Micrometres before_middle = std::clamp<Micrometres>(middle - edge, 0, item.thickness);
    const double share = metres(before_middle) / metres(item.thickness);
    const Milligrams near = std::llround(share * static_cast<double>(item.mass));
    balance.unloading_side += near;
    balance.far_side += item.mass - near;
    moment_across_kgm += kilograms(item.mass) * metres(edge + item.across - middle);
    moment_up_kgm += kilograms(item.mass) * metres(vehicle.rack_base + item.rise);
  }
  balance.offset_m = moment_across_kgm / kilograms(load.mass);
  balance.rise_m = moment_up_kgm / kilograms(load.mass);
  return balance;
}

std::vector<Micrometres> row_edges(const Load& load, const Vehicle& vehicle) {
  std::vector<Micrometres> edges;
  edges.reserve(load.rows.size());
  Micrometres at = (vehicle.bed_width - rows_width(load, vehicle)) / 2;
  for (const Micrometres thickness : load.rows) {
    edges.push_back(at);
    at += thickness + vehicle.spacer;
  }
  return edges;
}

}  // namespace panel_dossier::quantities
