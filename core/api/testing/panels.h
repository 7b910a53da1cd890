// Small panels for tests, built by hand instead of read from an export, and one ordinary timber panel made of them.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/testing/properties.h"

namespace panel_dossier::testing {

/// A material with density in kg/m³ and conductivity in W/(m·K), added to the project; gives its index.
inline std::size_t add_material(Project& project, std::string name, std::string category, double density,
                                double conductivity) {
  Material material;
  material.name = std::move(name);
  material.category = std::move(category);
  material.origin = origin_of("IfcMaterial");
  put(material.properties, "Pset_MaterialCommon", "MassDensity", density);
  put(material.properties, "Pset_MaterialThermal", "ThermalConductivity", conductivity);
  project.materials.push_back(std::move(material));
  return project.materials.size() - 1;
}

/// An empty panel of this face in m; thickness and layers follow with `add_layer`.
inline Panel plain_panel(double width_m, double height_m) {
  Panel panel;
  panel.global_id = "1111111111111111111111";
  panel.mark = "P-01";
  panel.width_m = {width_m, origin_of("IfcWall", "Width")};
  panel.height_m = {height_m, origin_of("IfcWall", "Height")};
  panel.thickness_m = {0.0, origin_of("IfcWall", "Thickness")};
  panel.outside_known = true;
  panel.origin = origin_of("IfcWall");
  return panel;
}

/// Adds the next layer outwards; without a material it is an air layer.
inline Layer& add_layer(Panel& panel, std::string name, std::string category, std::optional<std::size_t> material,
                        double thickness_m) {
  Layer layer;
  layer.name = std::move(name);
  layer.category = std::move(category);
  layer.material = material;
  layer.thickness_m = {thickness_m, origin_of("IfcMaterialLayer", "LayerThickness")};
  layer.y_inside_m = panel.thickness_m.value;
  layer.y_outside_m = panel.thickness_m.value + thickness_m;
  layer.origin = origin_of("IfcMaterialLayer");
  panel.thickness_m.value += thickness_m;
  panel.layers.push_back(std::move(layer));
  return panel.layers.back();
}

/// Adds a part that fills this box (m, in the panel's frame), with its volume.
inline Part& add_part(Panel& panel, PartKind kind, std::string name, std::optional<std::size_t> material,
                      const Box3& box) {
  Part part;
  part.global_id = "2222222222222222222222";
  part.name = std::move(name);
  part.kind = kind;
  part.material = material;
  part.bounds = box;
  const Vec3 size = box.size();
  part.volume_m3 = Sourced<double>{size.x * size.y * size.z, origin_of("IfcMember")};
  part.origin = origin_of("IfcMember");
  panel.parts.push_back(std::move(part));
  return panel.parts.back();
}

/// Adds a window over this rectangle (m), with or without a U-value in W/(m²·K).
inline Opening& add_window(Panel& panel, double x_min, double x_max, double z_min, double z_max,
                           std::optional<double> u_value) {
  Opening opening;
  opening.name = "O-01";
  opening.x_min_m = x_min;
  opening.x_max_m = x_max;
  opening.z_min_m = z_min;
  opening.z_max_m = z_max;
  opening.filling_entity = "IfcWindow";
  opening.filling_name = "W-01";
  if (u_value) put(opening.filling_properties, "Pset_WindowCommon", "ThermalTransmittance", *u_value);
  put(opening.filling_properties, "Panel_Filling", "FactoryFitted", false);
  opening.origin = origin_of("IfcOpeningElement");
  panel.openings.push_back(std::move(opening));
  return panel.openings.back();
}

/// One ordinary timber panel for the tests of several disciplines.
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
