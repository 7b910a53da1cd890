#include "plugins/quantities/delivery/report.h"

#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/delivery/packing.h"

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

}  // namespace panel_dossier::quantities
