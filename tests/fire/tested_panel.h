// A panel with everything that the fire checks ask for, shown by a test that covers it.
#pragma once

#include <string>
#include <utility>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "tests/support/cassette_settings.h"

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

/// Settings by which the national tables can be read: an office without sprinklers, 6 m from the boundary.
inline Settings fire_settings() {
  Settings settings = cassette_settings();
  settings.set("project.assessment_date", std::string("2026-06-01"));
  settings.set("building.sprinklers", false);
  settings.set("building.boundary_distance_m", 6.0);
  return settings;
}

inline constexpr const char* kPanelMaker = "panel works";

/// Adds a document that is there, issued in 2025 and made for the maker of the panels, to the project and its panel.
inline void add_document(Project& project, const std::string& id, EvidenceKind kind) {
  Evidence document;
  document.id = id;
  document.name = std::string(to_string(kind));
  document.location = "evidence/" + id + ".txt";
  document.status = EvidenceStatus::present;
  document.kind = kind;
  document.number = id;
  document.issued = "2025-10-14";
  document.issuer = "laboratory";
  if (kind == EvidenceKind::fire_test_report) document.standard = "EN 1364-1:2015";
  if (kind == EvidenceKind::classification_report) document.standard = "EN 13501-1:2018";
  document.sponsor = kPanelMaker;
  if (kind == EvidenceKind::fire_test_report) document.countries = "United Kingdom";
  project.panels.front().evidence.push_back(project.evidence.size());
  project.evidence.push_back(std::move(document));
}

/// With a report behind the reaction to fire classes of its materials.
inline Project classified(Project project) {
  add_document(project, "RF-1", EvidenceKind::classification_report);
  return project;
}

inline Project classified_panel() {
  return classified(cassette_project());
}

/// A panel that needs EI 60 and has a test of EI 60 up to 3.6 m by 4.5 m on its own build-up.
inline Project tested_panel() {
  Project project = cassette_project();
  add_document(project, "FT-1", EvidenceKind::fire_test_report);
  project = classified(std::move(project));
  Panel& panel = project.panels.front();
  for (const Layer* board : {&panel.layers.front(), &panel.layers.back()}) {
    panel.parts.push_back(board_screws(board->name + " screws", board->y_inside_m, board->y_outside_m));
  }
  Properties& properties = panel.properties;
  properties.add("Pset_ManufacturerTypeInformation", "Manufacturer", property_of(kPanelMaker));
  properties.add("Panel_FireRequirement", "Resistance", property_of("EI 60"));
  properties.add("Panel_FireEvidence", "Resistance", property_of("EI 60"));
  properties.add("Panel_FireEvidence", "DocumentId", property_of("FT-1"));
  properties.add("Panel_FireEvidence", "MaxHeight", property_of(3.6));
  properties.add("Panel_FireEvidence", "MaxWidth", property_of(4.5));
  properties.add("Panel_FireEvidence", "MinStudDepth", property_of(0.14));
  properties.add("Panel_FireEvidence", "MaxStudSpacing", property_of(0.625));
  properties.add("Panel_FireEvidence", "MaxFixingSpacing", property_of(0.15));
  properties.add("Panel_FireEvidence", "BuildUp",
                 property_of("OSB 12 (620 kg/m3); stone wool 140 (50 kg/m3); gypsum 12 (800 kg/m3)"));
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
