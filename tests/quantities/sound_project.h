// Two cassettes with everything that the checks of the discipline ask for, for the tables of cases.
#pragma once

#include <string>
#include <utility>

#include "core/api/testing/change.h"
#include "core/api/testing/properties.h"
#include "tests/quantities/delivery_site.h"

namespace panel_dossier::quantities::test {

/// With the origin that the intake gives it.
inline void state(Properties& properties, const std::string& set, const std::string& name,
                  const std::variant<double, bool, std::string>& value) {
  properties.add(set, name, {value, "", testing::origin_of("IfcPropertySingleValue", set + "." + name)});
}

/// 3 mm too wide, 2 mm too low, 5 mm out of square, in an opening that leaves 10 mm at each side and 20 mm at the head.
inline void measure_as_built(Panel& panel) {
  state(panel.properties, "Panel_AsBuilt", "Width", 2.403);
  state(panel.properties, "Panel_AsBuilt", "Height", 2.398);
  state(panel.properties, "Panel_AsBuilt", "Thickness", kDepth_m + kBoard_m);
  state(panel.properties, "Panel_AsBuilt", "Diagonal1", 3.396);
  state(panel.properties, "Panel_AsBuilt", "Diagonal2", 3.391);
  state(panel.properties, "Panel_AsBuilt", "FrameOpeningWidth", 2.423);
  state(panel.properties, "Panel_AsBuilt", "FrameOpeningHeight", 2.418);
}

/// Inspected in the workshop and installed on the first day of the programme.
inline void record(Panel& panel) {
  state(panel.properties, "Panel_Inspection", "Result", std::string("ACCEPTED"));
  state(panel.properties, "Panel_Inspection", "Date", std::string("2026-03-02"));
  state(panel.properties, "Panel_Install", "Result", std::string("ACCEPTED"));
  state(panel.properties, "Panel_Install", "Date", std::string("2026-04-06"));
}

/// Cassettes `P01` and `P02` on the ground floor.
inline Project sound_project() {
  std::vector<Panel> panels;
  for (int i = 1; i <= 2; ++i) {
    Panel panel = cassette("P0" + std::to_string(i));
    panel.storey = 0;
    state(panel.properties, "Panel_Identity", "ErectionOrder", static_cast<double>(i));
    state(panel.properties, "Panel_Identity", "Arrangement", std::string("INFILL"));
    state(panel.properties, "Pset_WallCommon", "LoadBearing", false);
    measure_as_built(panel);
    record(panel);
    panels.push_back(std::move(panel));
  }
  Project project = project_of(std::move(panels));
  // The plan of bars loses 2.7 %, that of sheets nothing.
  for (Material& material : project.materials) {
    state(material.properties, "Panel_EnvironmentalDeclaration", "WasteRateA5", 0.2);
  }
  return project;
}

inline void add_rate(Settings& settings, int row, const std::string& material, const std::string& unit, double rate,
                     const std::string& currency = "GBP") {
  const std::string key = "quantities.rates." + std::to_string(row) + ".";
  settings.set(key + "material", material);
  settings.set(key + "unit", unit);
  settings.set(key + "rate", rate);
  settings.set(key + "currency", currency);
  settings.set(key + "source", std::string("quotation 1"));
}

inline Settings sound_settings() {
  Settings result = site_settings();
  result.set("project.assessment_date", std::string("2026-06-01"));
  result.set("quantities.size_tolerance_m", 0.003);
  result.set("quantities.squareness_tolerance_m", 0.005);
  result.set("quantities.least_joint_m", 0.006);
  result.set("quantities.largest_joint_m", 0.030);
  result.set("quantities.sheet_sizes_m.0.material", std::string("particle board"));
  result.set("quantities.sheet_sizes_m.0.width", 1.2);
  result.set("quantities.sheet_sizes_m.0.length", 2.4);
  add_rate(result, 0, "softwood", "m", 3.0);
  add_rate(result, 1, "particle board", "m2", 8.0);
  add_rate(result, 2, "steel", "piece", 0.05);
  return result;
}

/// A hole of this size at 0.6 m from the left edge and 0.3 m above the foot of every panel.
inline testing::Change cut_opening(double width_m, double height_m) {
  return testing::change_panels([width_m, height_m](Panel& panel) {
    Opening opening;
    opening.name = "opening";
    opening.x_min_m = 0.6;
    opening.x_max_m = 0.6 + width_m;
    opening.z_min_m = 0.3;
    opening.z_max_m = 0.3 + height_m;
    panel.openings.push_back(opening);
  });
}

/// A window of 1 m by 1 m in the middle of every panel's width.
inline testing::Change fit_window() {
  return testing::change_panels([](Panel& panel) {
    Opening opening;
    opening.name = "opening";
    opening.x_min_m = 0.7;
    opening.x_max_m = 1.7;
    opening.z_min_m = 0.8;
    opening.z_max_m = 1.8;
    opening.filling_entity = "IfcWindow";
    opening.filling_name = "window";
    panel.openings.push_back(opening);
  });
}

/// The first stud of every panel loses its shape.
inline testing::Change drop_shape() {
  return testing::change_panels([](Panel& panel) {
    panel.parts.front().solid.reset();
    panel.parts.front().bounds.reset();
  });
}

inline testing::Change drop_all_parts() {
  return testing::change_panels([](Panel& panel) { panel.parts.clear(); });
}

/// The first panel alone.
inline testing::Change change_first(std::function<void(Panel&)> change) {
  return [change = std::move(change)](Project& project, Settings&) { change(project.panels.front()); };
}

}  // namespace panel_dossier::quantities::test
