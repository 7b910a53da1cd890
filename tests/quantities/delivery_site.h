// A site with a vehicle, a crane and a calendar for the tests of this folder.
#pragma once

#include <algorithm>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/delivery/deliveries.h"
#include "tests/quantities/cassette.h"

namespace panel_dossier::quantities::test {

inline Settings site_settings() {
  Settings result = settings();
  result.set("structural.transport.bed_length_m", 13.6);
  result.set("structural.transport.deck_height_m", 0.9);
  result.set("structural.transport.overall_height_m", 4.95);
  result.set("structural.transport.payload_kg", 24000.0);
  result.set("quantities.transport.bed_width_m", 2.48);
  result.set("quantities.transport.spacer_m", 0.1);
  result.set("quantities.transport.rack_base_m", 0.15);
  result.set("quantities.transport.rack_kg", 1500.0);
  result.set("quantities.transport.kingpin_m", 1.65);
  result.set("quantities.transport.axle_group_m", 9.35);
  result.set("quantities.transport.kingpin_limit_kg", 11000.0);
  result.set("quantities.transport.axle_group_limit_kg", 18000.0);
  result.set("quantities.crew.people", 5.0);
  result.set("quantities.cranes", 1.0);
  result.set("quantities.hours_per_day", 8.0);
  result.set("quantities.crane_hours_per_day", 6.0);
  result.set("quantities.start_date", std::string("2026-04-06"));
  const char* days[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday"};
  for (std::size_t i = 0; i < 5; ++i) {
    result.set("quantities.working_days." + std::to_string(i), std::string(days[i]));
  }
  result.set("quantities.holidays.0", std::string("2026-04-07"));
  return result;
}

inline void set_order(Panel& panel, double order) {
  panel.properties.add("Panel_Identity", "ErectionOrder", {order, "", {}});
}
inline void set_after(Panel& panel, const std::string& marks) {
  panel.properties.add("Panel_Identity", "After", {marks, "", {}});
}

/// Cassettes `P01`, `P02` … numbered in that order.
inline Project numbered_project(int count) {
  std::vector<Panel> panels;
  for (int i = 1; i <= count; ++i) {
    Panel panel = cassette((i < 10 ? "P0" : "P") + std::to_string(i));
    set_order(panel, i);
    panels.push_back(std::move(panel));
  }
  return project_of(std::move(panels));
}

/// `quantities.deliveries`, then `quantities.programme`.
inline std::vector<Finding> site_findings_of(const Project& project, const Settings& given) {
  std::vector<PanelFindings> panels;
  for (const Panel& panel : project.panels) {
    panels.push_back({&panel, {mass(panel, project), centre_of_gravity(panel, project), erection_time(panel, given)}});
  }
  return site_findings(project, panels, given).findings;
}

inline const Table& table_of(const Finding& finding, const std::string& title) {
  const auto found = std::find_if(finding.tables.begin(), finding.tables.end(),
                                  [&title](const Table& table) { return table.title == title; });
  if (found == finding.tables.end()) throw std::runtime_error("no table " + title);
  return *found;
}

}  // namespace panel_dossier::quantities::test
