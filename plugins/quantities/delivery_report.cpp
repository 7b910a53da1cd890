#include "plugins/quantities/delivery_report.h"

namespace panel_dossier::quantities {

std::string date_of(const DeliveryList& list, std::size_t panel) {
  return list.dates.empty() ? "not planned" : list.dates[panel];
}

Table load_table(const DeliveryList& list) {
  Table table{"Loads",
              {{"load", ""},
               {"panels", ""},
               {"rows", ""},
               {"mass of panels", "kg"},
               {"centre behind headboard", "m"},
               {"kingpin", "kg"},
               {"axle group", "kg"},
               {"needed on", ""}},
              {}};
  for (std::size_t i = 0; i < list.loads.size(); ++i) {
    const Load& load = list.loads[i];
    table.rows.push_back({static_cast<double>(i + 1), static_cast<double>(load.items.size()),
                          static_cast<double>(load.rows.size()), kilograms(load.mass), load.centre_m,
                          load.shares.kingpin_kg, load.shares.axle_group_kg,
                          date_of(list, list.items[load.items.front().item].panel)});
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
               {"mass", "kg"},
               {"erected on", ""}},
              {}};
  const Project& project = list.project;
  for (std::size_t i = 0; i < list.loads.size(); ++i) {
    const Load& load = list.loads[i];
    for (std::size_t place = 0; place < load.items.size(); ++place) {
      const PlacedItem& placed = load.items[place];
      const DeliveryItem& item = list.items[placed.item];
      const Panel& panel = project.panels[item.panel];
      table.rows.push_back({static_cast<double>(i + 1), static_cast<double>(place + 1), panel.mark,
                            panel.storey ? project.storeys[*panel.storey].name : std::string("no storey"),
                            static_cast<double>(placed.row + 1), metres(load.set_back + placed.front),
                            kilograms(item.mass), date_of(list, item.panel)});
    }
  }
  return table;
}

}  // namespace panel_dossier::quantities
