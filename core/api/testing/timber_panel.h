// One ordinary timber panel for the tests of several disciplines.
#pragma once

#include <cstddef>

#include "core/api/model/settings.h"
#include "core/api/testing/panels.h"

namespace panel_dossier::testing {

/// 2.4 m × 2.7 m: lining 12.5 mm, mineral wool 140 mm between studs 45 mm wide at 600 mm, sheathing 12 mm. Five studs
/// stand flush at x = 0, 0.5775, 1.1775, 1.7775 and 2.355 m over the whole height; there are no rails, so the share of
/// framing is 5 · 45 / 2400. Its edges pass no heat that counts here.
struct TimberPanel {
  Project project;
  Settings settings;
  std::size_t gypsum = 0;
  std::size_t wool = 0;
  std::size_t timber = 0;
  std::size_t board = 0;

  TimberPanel() {
    gypsum = add_material(project, "gypsum board", "gypsum", 800.0, 0.25);
    wool = add_material(project, "mineral wool", "insulation", 40.0, 0.035);
    timber = add_material(project, "softwood", "wood", 420.0, 0.13);
    board = add_material(project, "strand board", "wood", 600.0, 0.13);
    add_heat_and_vapour(gypsum, 1000.0, 10.0);
    add_heat_and_vapour(wool, 1030.0, 1.0);
    add_heat_and_vapour(timber, 1600.0, 50.0);
    add_heat_and_vapour(board, 1700.0, 50.0);
    Panel panel = plain_panel(2.4, 2.7);
    add_layer(panel, "lining", "finish", gypsum, 0.0125);
    add_layer(panel, "cassette", "insulation", wool, 0.140);
    add_layer(panel, "sheathing", "sheathing", board, 0.012);
    int number = 0;
    for (const double x : {0.0, 0.5775, 1.1775, 1.7775, 2.355}) {
      add_part(panel, PartKind::stud, "Stud " + std::to_string(++number), timber,
               {{x, 0.0125, 0.0}, {x + 0.045, 0.1525, 2.7}});
    }
    project.panels.push_back(std::move(panel));
    project.origin = origin_of("IfcProject");
    settings.set("project.jurisdiction", std::string("England"));
    settings.set("project.use", std::string("healthcare"));
    settings.set("project.assessment_date", std::string("2026-06-01"));
    put(project.panels.front().properties, "Panel_Air", "PermeabilityQ50", 0.6);
    for (const char* edge : {"Head", "Sole", "Left", "Right"}) {
      put(project.panels.front().properties, "Panel_Junction", edge, std::string("GROUND"));
    }
  }

  Panel& panel() { return project.panels.front(); }

 private:
  /// Specific heat capacity in J/(kg·K) and water vapour resistance factor.
  void add_heat_and_vapour(std::size_t material, double specific_heat, double resistance_factor) {
    Properties& properties = project.materials[material].properties;
    put(properties, "Pset_MaterialThermal", "SpecificHeatCapacity", specific_heat);
    put(properties, "Pset_MaterialHygroscopic", "UpperVaporResistanceFactor", resistance_factor);
  }
};

}  // namespace panel_dossier::testing
