// A panel with everything that the fire checks ask for, shown by a test that covers it.
#pragma once

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"

namespace panel_dossier::testing {

inline Properties& properties_of(Project& project) {
  return project.panels.front().properties;
}

/// Screws through a board whose layer lies between these distances from the inner face.
inline Part board_screws(std::string name, double inside_m, double outside_m) {
  Part screws = box_part(std::move(name), PartKind::fastener, kTimber, {{0.0, inside_m, 0.0}, {0.004, outside_m, 0.1}});
  screws.properties.add("Panel_Fastener", "Spacing", property_of(0.15));
  screws.properties.add("Panel_Fastener", "Length", property_of(0.045));
  return screws;
}

/// A panel that needs EI 60 and has a test of EI 60 up to 3.6 m by 4.5 m on its own build-up.
inline Project tested_panel() {
  Project project = cassette_project();
  project.evidence.push_back({"FT-1", "test report", "evidence/FT-1.txt", EvidenceStatus::present, {}});
  Panel& panel = project.panels.front();
  panel.evidence = {0};
  for (const Layer* board : {&panel.layers.front(), &panel.layers.back()}) {
    panel.parts.push_back(board_screws(board->name + " screws", board->y_inside_m, board->y_outside_m));
  }
  Properties& properties = panel.properties;
  properties.add("Panel_FireRequirement", "Resistance", property_of("EI 60"));
  properties.add("Panel_FireEvidence", "Resistance", property_of("EI 60"));
  properties.add("Panel_FireEvidence", "DocumentId", property_of("FT-1"));
  properties.add("Panel_FireEvidence", "MaxHeight", property_of(3.6));
  properties.add("Panel_FireEvidence", "MaxWidth", property_of(4.5));
  properties.add("Panel_FireEvidence", "MinStudDepth", property_of(0.14));
  properties.add("Panel_FireEvidence", "MaxStudSpacing", property_of(0.625));
  properties.add("Panel_FireEvidence", "MaxFixingSpacing", property_of(0.15));
  properties.add("Panel_FireEvidence", "BuildUp", property_of("OSB 12; stone wool 140; gypsum 12"));
  return project;
}

/// The same with REI 60 and a load that the test had too.
inline Project tested_load_bearing_panel() {
  Project project = tested_panel();
  Properties& properties = properties_of(project);
  replace(properties, "Pset_WallCommon", "LoadBearing", property_of(true));
  replace(properties, "Panel_FireRequirement", "Resistance", property_of("REI 60"));
  replace(properties, "Panel_FireEvidence", "Resistance", property_of("REI 60"));
  properties.add("Panel_FireEvidence", "MaxLoad", property_of(20000.0));
  properties.add("Panel_Structure", "PermanentLineLoad", property_of(8000.0));
  properties.add("Panel_Structure", "VariableLineLoad", property_of(6000.0));
  return project;
}

/// A window of 1.2 m by 1.5 m, which the test had too.
inline void add_window(Project& project) {
  Opening window;
  window.name = "window";
  window.x_min_m = 0.6;
  window.x_max_m = 1.8;
  window.z_min_m = 0.9;
  window.z_max_m = 2.4;
  window.filling_entity = "IfcWindow";
  project.panels.front().openings.push_back(window);
  properties_of(project).add("Panel_FireEvidence", "MaxOpeningWidth", property_of(1.2));
  properties_of(project).add("Panel_FireEvidence", "MaxOpeningHeight", property_of(1.5));
}

inline void remove_fasteners(Project& project) {
  std::erase_if(project.panels.front().parts, [](const Part& part) { return part.kind == PartKind::fastener; });
}

}  // namespace panel_dossier::testing
