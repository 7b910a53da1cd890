#include "sample_project/generator/export_project.h"

#include <algorithm>
#include <string>
#include <vector>

#include "sample_project/generator/export_panel.h"
#include "sample_project/generator/export_resources.h"
#include "sample_project/generator/ifc_writer.h"
#include "sample_project/generator/panel_types.h"

namespace sample_export {

namespace {

// Invented values of the project's structural engineer and of the workshop's tests.
constexpr double kFeatureWindPressure_pa = 1000.0;
constexpr double kRoofPermanentLoad_n_per_m = 4200.0;
constexpr double kRoofVariableLoad_n_per_m = 3600.0;
constexpr double kRackingLoad_n = 2800.0;  // of each solid panel; those with a window take none
constexpr double kPermeabilityQ50_m3_per_hm2 = 0.6;
constexpr int kWarranty_years = 12;
constexpr const char* kWarrantyStart = "2026-07-01";  // the day of handover
constexpr const char* kWarrantyEnd = "2038-06-30";
/// The specimens were bare cassettes with the studs of the riser panels, the shallowest in the project.
constexpr double kTestedStudDepth_mm = 140.0;
constexpr double kTestedStudSpacing_mm = 650.0;
constexpr double kTestedFixingSpacing_mm = 150.0;

PropertySet wall_common(const PanelType& type) {
  return {"Pset_WallCommon",
          {identifier("Reference", std::string(type.key)), label("FireRating", std::string(type.fire_resistance)),
           number("ThermalTransmittance", "IfcThermalTransmittanceMeasure", type.declared_u_value_w_per_m2k),
           boolean("IsExternal", true), boolean("LoadBearing", type.load_bearing())}};
}

PropertySet maker() {
  return {"Pset_ManufacturerTypeInformation",
          {label("Manufacturer", "Panel manufacturer (fictional)"), label("ProductionYear", "2026")}};
}

/// The timber roof on the load-bearing panels has no detail of its own, so its designer declares Ψ.
PropertySet junctions() {
  return {"Panel_Junction", {number("HeadTransmittance", "IfcReal", 0.06)}};
}

PropertySet fire_evidence(const PanelType& type) {
  PropertySet set{
      "Panel_FireEvidence",
      {label("Resistance", std::string(type.fire_resistance)),
       identifier("DocumentId", std::string(type.fire_document)),
       number("MaxHeight", "IfcPositiveLengthMeasure", type.tested_height_mm),
       number("MaxWidth", "IfcPositiveLengthMeasure", type.tested_width_mm),
       number("MinStudDepth", "IfcPositiveLengthMeasure", kTestedStudDepth_mm),
       number("MaxStudSpacing", "IfcPositiveLengthMeasure", kTestedStudSpacing_mm),
       number("MaxFixingSpacing", "IfcPositiveLengthMeasure", kTestedFixingSpacing_mm),
       label(
           "BuildUp",
           "Oriented strand board OSB/3 12 (620 kg/m3); Stone wool slab 140 (40 kg/m3); Gypsum sheathing board type EH "
           "12.5 (800 kg/m3)"),
       label("AddedLayers", "D-s2,d0")}};
  if (!type.filling_key.empty()) {
    const FillingSpec& filling = filling_type(type.filling_key);
    set.properties.push_back(number("MaxOpeningWidth", "IfcPositiveLengthMeasure", filling.width_mm));
    set.properties.push_back(number("MaxOpeningHeight", "IfcPositiveLengthMeasure", filling.height_mm));
  }
  if (type.tested_load_n_per_m > 0.0) {
    set.properties.push_back(number("MaxLoad", "IfcLinearForceMeasure", type.tested_load_n_per_m));
  }
  return set;
}

/// What the structural engineer gave for the type; the program derives the wind on most.
PropertySet structure(const PanelType& type) {
  // Rails of the building, which are not part of the panels, keep persons from falling.
  PropertySet set{"Panel_Structure", {label("BarrierLoadCategory", "NONE")}};
  if (type.spans_storeys()) {
    set.properties.push_back(number("DesignWindPressure", "IfcPressureMeasure", kFeatureWindPressure_pa));
    set.properties.push_back(number("SupportSpacing", "IfcPositiveLengthMeasure", kStoreyHeight_mm));
  }
  if (type.load_bearing()) {
    set.properties.push_back(number("PermanentLineLoad", "IfcLinearForceMeasure", kRoofPermanentLoad_n_per_m));
    set.properties.push_back(number("VariableLineLoad", "IfcLinearForceMeasure", kRoofVariableLoad_n_per_m));
    set.properties.push_back(label("VariableLoadCategory", "H"));
    const double racking_n = type.filling_key.empty() ? kRackingLoad_n : 0.0;
    set.properties.push_back(number("RackingLoad", "IfcForceMeasure", racking_n));
  }
  return set;
}

/// Linings are fixed in the factory. The outer leaf over all but the oversail panels is brickwork by others.
PropertySet construction(const PanelType& type) {
  PropertySet set{"Panel_Construction", {label("FirstLayerFace", "INSIDE"), label("LiningFitted", "FACTORY")}};
  if (type.arrangement != "OVERSAIL") set.properties.push_back(label("OuterLeafReactionToFire", "A1"));
  return set;
}

std::vector<PropertySet> property_sets(const PanelType& type) {
  std::vector<PropertySet> sets;
  sets.push_back(wall_common(type));
  sets.push_back(maker());
  sets.push_back({"Pset_Warranty",
                  {text("WarrantyContent", "Cassette, its membranes and its fixings"),
                   duration_of_years("WarrantyPeriod", kWarranty_years), date("WarrantyStartDate", kWarrantyStart),
                   date("WarrantyEndDate", kWarrantyEnd), label("PointOfContact", "Panel manufacturer (fictional)")}});
  sets.push_back(construction(type));
  sets.push_back(
      {"Panel_FireRequirement",
       {label("Resistance", std::string(type.fire_resistance)),
        label("Basis", "Fire strategy of the project (invented): 60 minutes for every external wall panel")}});
  sets.push_back(fire_evidence(type));
  sets.push_back(structure(type));
  if (type.load_bearing()) sets.push_back(junctions());
  if (type.spans_storeys()) sets.push_back({"Panel_Handling", {boolean("TurningFrame", true)}});
  sets.push_back(
      {"Panel_Air",
       {number("PermeabilityQ50", "IfcReal", kPermeabilityQ50_m3_per_hm2), identifier("DocumentId", "AIR-501")}});
  return sets;
}

void write_layer(IfcWriter& ifc, const LayerSpec& layer) {
  Attributes attributes{{"LayerThickness", mm_text(layer.thickness_mm)}};
  if (layer.role == LayerRole::service_void) attributes.emplace_back("IsVentilated", "false");
  if (layer.role == LayerRole::cavity) attributes.emplace_back("IsVentilated", "true");
  attributes.emplace_back("Name", std::string(layer.name));
  attributes.emplace_back("Category", std::string(layer.category));
  const auto element = ifc.out.element("IfcMaterialLayer", attributes);
  if (!layer.material_key.empty()) ifc.out.reference("Material", material_id(layer.material_key));
}

void write_layer_set(IfcWriter& ifc, const PanelType& type) {
  const auto associations = ifc.out.element("HasAssociations");
  const auto relation = ifc.out.element("IfcRelAssociatesMaterial",
                                        {{"GlobalId", global_id("type/" + std::string(type.key) + "/layers")}});
  const auto relating = ifc.out.element("RelatingMaterial");
  const auto set =
      ifc.out.element("IfcMaterialLayerSet", {{"id", layer_set_id(type.key)}, {"LayerSetName", std::string(type.key)}});
  const auto layers = ifc.out.element("MaterialLayers");
  for (const LayerSpec& layer : type.layers) write_layer(ifc, layer);
}

void write_wall_type(IfcWriter& ifc, const PanelType& type) {
  const std::string owner = "type/" + std::string(type.key);
  const auto element = ifc.out.element("IfcWallType", {{"id", type_id(type.key)},
                                                       {"GlobalId", global_id(owner)},
                                                       {"Name", std::string(type.key)},
                                                       {"Description", std::string(type.name)},
                                                       {"PredefinedType", "elementedwall"}});
  write_layer_set(ifc, type);
  const auto sets = ifc.out.element("HasPropertySets");
  for (const PropertySet& set : property_sets(type)) ifc.property_set(owner, set);
}

PropertySet glazing_values(const GlazingSpec& glazing) {
  return {"Panel_Window",
          {number("GlassTransmittance", "IfcThermalTransmittanceMeasure", glazing.glass_u_w_per_m2k),
           number("FrameTransmittance", "IfcThermalTransmittanceMeasure", glazing.frame_u_w_per_m2k),
           number("EdgeTransmittance", "IfcReal", glazing.edge_psi_w_per_mk),
           number("FrameWidth", "IfcPositiveLengthMeasure", glazing.frame_width_mm)}};
}

void write_filling_type(IfcWriter& ifc, const FillingSpec& filling) {
  const std::string owner = "type/" + std::string(filling.key);
  Attributes attributes{{"id", type_id(filling.key)},
                        {"GlobalId", global_id(owner)},
                        {"Name", std::string(filling.key)},
                        {"Description", std::string(filling.name)},
                        {"PredefinedType", filling.is_door ? "door" : "window"}};
  if (filling.is_door) {
    attributes.emplace_back("OperationType", "single_swing_left");
  } else {
    attributes.emplace_back("PartitioningType", "single_panel");
  }
  const auto element = ifc.out.element(filling.is_door ? "IfcDoorType" : "IfcWindowType", attributes);
  const auto sets = ifc.out.element("HasPropertySets");
  ifc.property_set(owner,
                   {filling.is_door ? "Pset_DoorCommon" : "Pset_WindowCommon",
                    {boolean("IsExternal", true),
                     number("ThermalTransmittance", "IfcThermalTransmittanceMeasure", filling.u_value_w_per_m2k)}});
  if (filling.glazing) ifc.property_set(owner, glazing_values(*filling.glazing));
  constexpr int kServiceLife_years = 30;
  ifc.property_set(owner, {"Pset_ManufacturerTypeInformation", {label("Manufacturer", "Window works (fictional)")}});
  ifc.property_set(owner, {"Pset_ServiceLife", {duration_of_years("ServiceLifeDuration", kServiceLife_years)}});
  ifc.property_set(
      owner, {"Panel_Filling", {boolean("FactoryFitted", true), number("Mass", "IfcMassMeasure", filling.mass_kg)}});
}

/// IfcWallType, IfcWindowType and IfcDoorType, to stand within RelatedDefinitions of the project's IfcRelDeclares.
void write_types(IfcWriter& ifc) {
  for (const PanelType& type : panel_types()) write_wall_type(ifc, type);
  for (const FillingSpec& filling : filling_types()) write_filling_type(ifc, filling);
}

using Panels = std::vector<PlacedPanel>;

constexpr const char* kNamespace = "http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2";

std::string wing_name(std::size_t wing) {
  return wing == 0 ? "Health centre" : "Health centre, wing " + std::to_string(wing + 1);
}

/// Of the panels of a storey, which stand together.
Panels::const_iterator first_of(const Panels& panels, std::size_t storey) {
  return std::partition_point(panels.begin(), panels.end(),
                              [&](const PlacedPanel& panel) { return panel.storey < storey; });
}

/// What stands in the storey: its panels in full, and the windows and doors that their openings hold.
void write_contained(IfcWriter& ifc, const Panels& panels, std::size_t storey, const std::string& owner,
                     const std::string& placement_id) {
  const auto first = first_of(panels, storey);
  const auto last = first_of(panels, storey + 1);
  if (first == last) return;
  const auto contains = ifc.out.element("ContainsElements");
  const auto relation =
      ifc.out.element("IfcRelContainedInSpatialStructure", {{"GlobalId", global_id(owner + "/elements")}});
  const auto related = ifc.out.element("RelatedElements");
  for (auto panel = first; panel != last; ++panel) {
    write_panel(ifc, *panel, placement_id);
    for (std::size_t i = 0; i < panel->openings.size(); ++i) {
      ifc.out.reference(filling_entity(*panel->openings[i].filling), filling_id(*panel, i));
    }
  }
}

void write_storey(IfcWriter& ifc, const Panels& panels, std::size_t wing, std::size_t index) {
  const Storey& storey = storeys()[index];
  const std::string owner = "building-" + std::to_string(wing + 1) + "/storey-" + std::to_string(index);
  const std::string placement_id = "placement-storey-" + std::to_string(wing + 1) + "-" + std::to_string(index);
  const auto element = ifc.out.element("IfcBuildingStorey", {{"GlobalId", global_id(owner)},
                                                             {"Name", storey.name},
                                                             {"CompositionType", "element"},
                                                             {"Elevation", mm_text(storey.elevation_mm)}});
  ifc.local_placement(placement_id, "placement-building-" + std::to_string(wing + 1),
                      {{0.0, 0.0, storey.elevation_mm}});
  write_contained(ifc, panels, index, owner, placement_id);
}

void write_building(IfcWriter& ifc, const Site& site, std::size_t wing) {
  const std::string number = std::to_string(wing + 1);
  const std::string owner = "building-" + number;
  const auto element = ifc.out.element(
      "IfcBuilding", {{"GlobalId", global_id(owner)}, {"Name", wing_name(wing)}, {"CompositionType", "element"}});
  {
    const auto decomposed = ifc.out.element("IsDecomposedBy");
    const auto relation = ifc.out.element("IfcRelAggregates", {{"GlobalId", global_id(owner + "/storeys")}});
    const auto related = ifc.out.element("RelatedObjects");
    const Panels panels = site.panels_of(wing);
    for (std::size_t i = 0; i < storeys().size(); ++i) write_storey(ifc, panels, wing, i);
  }
  ifc.local_placement("placement-building-" + number, "placement-site", {});
}

void write_site(IfcWriter& ifc, const Site& site) {
  const auto element = ifc.out.element("IfcSite", {{"GlobalId", global_id("site")},
                                                   {"Name", "Site of the health centre"},
                                                   {"CompositionType", "element"},
                                                   {"RefElevation", "42000"}});
  {
    const auto decomposed = ifc.out.element("IsDecomposedBy");
    const auto relation = ifc.out.element("IfcRelAggregates", {{"GlobalId", global_id("site/buildings")}});
    const auto related = ifc.out.element("RelatedObjects");
    const std::size_t wings = site.wings();
    for (std::size_t wing = 0; wing < wings; ++wing) write_building(ifc, site, wing);
  }
  ifc.local_placement("placement-site", {}, {});
}

void write_project(IfcWriter& ifc, const Site& site) {
  const auto project = ifc.out.element(
      "IfcProject", {{"GlobalId", global_id("project")},
                     {"Name", "Community health centre"},
                     {"Description", "A fictional building with invented products and evidence, made to demonstrate"},
                     {"LongName", "Three-storey community health centre on a concrete frame"},
                     {"Phase", "Construction"}});
  {
    const auto decomposed = ifc.out.element("IsDecomposedBy");
    const auto relation = ifc.out.element("IfcRelAggregates", {{"GlobalId", global_id("project/sites")}});
    const auto related = ifc.out.element("RelatedObjects");
    write_site(ifc, site);
  }
  {
    const auto associations = ifc.out.element("HasAssociations");
    write_documents(ifc);
  }
  write_contexts(ifc);
  write_units(ifc);
  const auto declares = ifc.out.element("Declares");
  const auto relation = ifc.out.element("IfcRelDeclares", {{"GlobalId", global_id("project/types")}});
  const auto related = ifc.out.element("RelatedDefinitions");
  write_types(ifc);
}

void write_header(IfcWriter& ifc) {
  const auto header = ifc.out.element("header");
  ifc.out.text_element("name", "Community health centre, panels");
  ifc.out.text_element("time_stamp", "2026-05-29T18:00:00");
  ifc.out.text_element("author", "Panel designer (fictional)");
  ifc.out.text_element("organization", "Panel manufacturer (fictional)");
  ifc.out.text_element("preprocessor_version", "sample-export");
  ifc.out.text_element("originating_system", "sample-export");
  ifc.out.text_element("authorization", "none");
  ifc.out.text_element("documentation", "Fictional project for demonstration");
}

}  // namespace

void write_export(ExportWriter& out, const Site& site) {
  IfcWriter ifc(out);
  {
    const auto root = out.element("ifcXML", {{"xmlns", kNamespace},
                                             {"xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance"},
                                             {"xsi:schemaLocation", std::string(kNamespace) + " IFC4_ADD2.xsd"},
                                             {"id", "ifcXML4"}});
    write_header(ifc);
    write_materials(ifc);
    write_sections(ifc);
    write_property_units(ifc);
    out.leaf("IfcDirection", {{"id", "direction-up"}, {"DirectionRatios", "0 0 1"}});
    write_project(ifc, site);
  }
  out.finish();
}

}  // namespace sample_export
