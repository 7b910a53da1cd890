// A cassette panel made in memory: studs at a spacing between two rails, sheathed on either face and filled with stone
// wool, with what is asked of its materials where it must bear and resist fire.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/testing/properties.h"

namespace panel_dossier::testing {

inline Part box_part(std::string name, PartKind kind, std::size_t material, Box3 bounds) {
  Part part;
  part.name = std::move(name);
  part.kind = kind;
  part.material = material;
  part.bounds = bounds;
  const Vec3 size = bounds.size();
  part.volume_m3 = Sourced<double>{size.x * size.y * size.z, export_origin("IfcMember", 20)};
  part.origin = export_origin("IfcMember", 20);
  return part;
}

/// A gram of this material somewhere in the panel.
inline Part weighed_part(std::string name, PartKind kind, std::size_t material) {
  Part part;
  part.name = std::move(name);
  part.kind = kind;
  part.material = material;
  part.properties.add("Qto_BuildingElementPartBaseQuantities", "NetWeight", property_of(0.001));
  part.origin = export_origin("IfcBuildingElementPart", 20);
  return part;
}

inline Material material_of(std::string name, std::string category, double density_kg_per_m3) {
  Material material;
  material.name = std::move(name);
  material.category = std::move(category);
  material.properties.add("Pset_MaterialCommon", "MassDensity", property_of(density_kg_per_m3));
  return material;
}

/// Indices into the project's materials.
inline constexpr std::size_t kTimber = 0;
inline constexpr std::size_t kOsb = 1;
inline constexpr std::size_t kGypsum = 2;
inline constexpr std::size_t kWool = 3;

struct CassetteSpec {
  double width_m = 2.4;
  double height_m = 3.0;
  double stud_width_m = 0.045;
  double stud_depth_m = 0.145;
  double spacing_m = 0.6;
  bool sheathed_inside = true;
  bool sheathed_outside = true;
};

inline std::vector<Material> cassette_materials() {
  std::vector<Material> materials{material_of("softwood", "wood", 420.0), material_of("OSB", "wood", 620.0),
                                  material_of("gypsum", "gypsum", 800.0),
                                  material_of("stone wool", "insulation", 50.0)};
  materials[kTimber].properties.add("Pset_MaterialWood", "StrengthGrade", property_of("C24"));
  materials[kTimber].properties.add("Panel_Fire", "CharringClass", property_of("SOFTWOOD"));
  materials[kTimber].properties.add("Panel_Fire", "ReactionToFire", property_of("D-s2,d0"));
  materials[kOsb].properties.add("Panel_Fire", "ProtectionRole", property_of("WOOD_PANEL"));
  materials[kOsb].properties.add("Panel_Board", "ProductStandard", property_of("EN 300 OSB/3"));
  materials[kOsb].properties.add("Panel_Fire", "ReactionToFire", property_of("D-s2,d0"));
  materials[kGypsum].properties.add("Panel_Fire", "ProtectionRole", property_of("GYPSUM_H"));
  materials[kGypsum].properties.add("Panel_Fire", "ReactionToFire", property_of("A2-s1,d0"));
  materials[kWool].properties.add("Panel_Fire", "ReactionToFire", property_of("A1"));
  return materials;
}

inline void add_layer(Panel& panel, std::string name, std::string category, std::size_t material, double inside_m,
                      double outside_m) {
  Layer layer;
  layer.name = std::move(name);
  layer.category = std::move(category);
  layer.material = material;
  layer.thickness_m = {outside_m - inside_m, export_origin("IfcMaterialLayer", 30)};
  layer.y_inside_m = inside_m;
  layer.y_outside_m = outside_m;
  panel.layers.push_back(std::move(layer));
}

/// Studs on centre lines at the spacing, one at each end, two rails, and the sheets asked for.
inline void add_cassette_parts(Panel& panel, const CassetteSpec& spec, double inside_m, double outside_m) {
  constexpr double kRail_m = 0.045;
  constexpr double kSheet_m = 0.012;
  const double half_m = spec.stud_width_m / 2.0;
  const double top_m = spec.height_m;
  const auto add_stud = [&](double x_m) {
    panel.parts.push_back(box_part("S" + std::to_string(panel.parts.size() + 1), PartKind::stud, kTimber,
                                   {{x_m - half_m, inside_m, kRail_m}, {x_m + half_m, outside_m, top_m - kRail_m}}));
  };
  const auto add_across = [&](const char* name, PartKind kind, std::size_t material, Vec3 from, Vec3 to) {
    panel.parts.push_back(box_part(name, kind, material, {from, to}));
  };
  add_stud(half_m);
  for (int i = 1; i * spec.spacing_m < spec.width_m - spec.spacing_m / 2.0; ++i) add_stud(i * spec.spacing_m);
  add_stud(spec.width_m - half_m);
  add_across("sole", PartKind::rail, kTimber, {0.0, inside_m, 0.0}, {spec.width_m, outside_m, kRail_m});
  add_across("head", PartKind::rail, kTimber, {0.0, inside_m, top_m - kRail_m}, {spec.width_m, outside_m, top_m});
  if (spec.sheathed_inside) {
    add_across("inner sheet", PartKind::sheet, kOsb, {0.0, inside_m - kSheet_m, 0.0}, {spec.width_m, inside_m, top_m});
  }
  if (spec.sheathed_outside) {
    add_across("outer sheet", PartKind::sheet, kOsb, {0.0, outside_m, 0.0},
               {spec.width_m, outside_m + kSheet_m, top_m});
  }
}

/// One panel in one project, not load-bearing, external: layers OSB 12, studs with stone wool, gypsum type H 12.
inline Project cassette_project(const CassetteSpec& spec = {}) {
  constexpr double kBoard_m = 0.012;
  const double outside_m = kBoard_m + spec.stud_depth_m;
  Project project;
  project.materials = cassette_materials();
  Storey storey;
  storey.elevation_m = Sourced<double>{0.0, export_origin("IfcBuildingStorey", 5)};
  project.storeys.push_back(storey);
  Panel panel;
  panel.global_id = "panel";
  panel.mark = "P1";
  panel.width_m = {spec.width_m, export_origin("IfcWall", 10)};
  panel.height_m = {spec.height_m, export_origin("IfcWall", 10)};
  panel.thickness_m = {spec.stud_depth_m + 2.0 * kBoard_m, export_origin("IfcWall", 10)};
  panel.outside_known = true;
  panel.origin = export_origin("IfcWall", 10);
  panel.properties.add("Pset_WallCommon", "LoadBearing", property_of(false));
  panel.properties.add("Pset_WallCommon", "IsExternal", property_of(true));
  add_cassette_parts(panel, spec, kBoard_m, outside_m);
  // Weighed without a shape, so that they weigh and do nothing else.
  panel.parts.push_back(weighed_part("stone wool", PartKind::insulation, kWool));
  panel.parts.push_back(weighed_part("gypsum", PartKind::other, kGypsum));
  add_layer(panel, "inner board", "sheathing", kOsb, 0.0, kBoard_m);
  add_layer(panel, "studs", "insulation", kWool, kBoard_m, outside_m);
  add_layer(panel, "outer board", "sheathing", kGypsum, outside_m, outside_m + kBoard_m);
  project.panels.push_back(std::move(panel));
  return project;
}

}  // namespace panel_dossier::testing
