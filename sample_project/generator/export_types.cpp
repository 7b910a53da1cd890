#include "sample_project/generator/export_types.h"

#include "sample_project/generator/building.h"
#include "sample_project/generator/global_id.h"
#include "sample_project/generator/panel_types.h"

namespace sample_export {

namespace {

// Invented values of the project's structural engineer and of the workshop's tests.
constexpr double kFeatureWindPressure_pa = 1000.0;
constexpr double kRoofPermanentLoad_n_per_m = 4200.0;
constexpr double kRoofVariableLoad_n_per_m = 3600.0;
constexpr double kRackingLoad_n = 2800.0;  // of each solid panel; those with a window take none
constexpr double kPermeabilityQ50_m3_per_hm2 = 0.6;
constexpr double kWarranty_years = 12.0;
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
       label("BuildUp", "Oriented strand board OSB/3 12; Stone wool slab 140; Gypsum sheathing board type EH 12.5")}};
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

/// What the structural engineer gave for the type; empty for most, whose wind the program derives.
PropertySet structure(const PanelType& type) {
  PropertySet set{"Panel_Structure", {}};
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
  sets.push_back({"Pset_Warranty",
                  {label("WarrantyContent", "Cassette, its membranes and its fixings"),
                   number_in("WarrantyPeriod", "IfcTimeMeasure", kWarranty_years, "unit-year")}});
  sets.push_back(construction(type));
  sets.push_back(
      {"Panel_FireRequirement",
       {label("Resistance", std::string(type.fire_resistance)),
        label("Basis", "Fire strategy of the project (invented): 60 minutes for every external wall panel")}});
  sets.push_back(fire_evidence(type));
  if (PropertySet set = structure(type); !set.properties.empty()) sets.push_back(std::move(set));
  if (type.load_bearing()) sets.push_back(junctions());
  if (type.spans_storeys()) sets.push_back({"Panel_Handling", {boolean("TurningFrame", true)}});
  sets.push_back({"Panel_Air", {number("PermeabilityQ50", "IfcReal", kPermeabilityQ50_m3_per_hm2)}});
  return sets;
}

void write_layer(IfcWriter& ifc, const LayerSpec& layer) {
  Attributes attributes{{"LayerThickness", mm_text(layer.thickness_mm)}};
  if (layer.role == LayerRole::service_void) attributes.emplace_back("IsVentilated", "false");
  if (layer.role == LayerRole::cavity) attributes.emplace_back("IsVentilated", "true");
  attributes.emplace_back("Name", std::string(layer.name));
  attributes.emplace_back("Category", std::string(layer.category));
  const auto element = ifc.xml.element("IfcMaterialLayer", attributes);
  if (!layer.material_key.empty()) ifc.xml.reference("Material", material_id(layer.material_key));
}

void write_layer_set(IfcWriter& ifc, const PanelType& type) {
  const auto associations = ifc.xml.element("HasAssociations");
  const auto relation = ifc.xml.element("IfcRelAssociatesMaterial",
                                        {{"GlobalId", global_id("type/" + std::string(type.key) + "/layers")}});
  const auto relating = ifc.xml.element("RelatingMaterial");
  const auto set =
      ifc.xml.element("IfcMaterialLayerSet", {{"id", layer_set_id(type.key)}, {"LayerSetName", std::string(type.key)}});
  const auto layers = ifc.xml.element("MaterialLayers");
  for (const LayerSpec& layer : type.layers) write_layer(ifc, layer);
}

void write_wall_type(IfcWriter& ifc, const PanelType& type) {
  const std::string owner = "type/" + std::string(type.key);
  const auto element = ifc.xml.element("IfcWallType", {{"id", type_id(type.key)},
                                                       {"GlobalId", global_id(owner)},
                                                       {"Name", std::string(type.key)},
                                                       {"Description", std::string(type.name)},
                                                       {"PredefinedType", "elementedwall"}});
  write_layer_set(ifc, type);
  const auto sets = ifc.xml.element("HasPropertySets");
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
  const auto element = ifc.xml.element(filling.is_door ? "IfcDoorType" : "IfcWindowType", attributes);
  const auto sets = ifc.xml.element("HasPropertySets");
  ifc.property_set(owner,
                   {filling.is_door ? "Pset_DoorCommon" : "Pset_WindowCommon",
                    {boolean("IsExternal", true),
                     number("ThermalTransmittance", "IfcThermalTransmittanceMeasure", filling.u_value_w_per_m2k)}});
  if (filling.glazing) ifc.property_set(owner, glazing_values(*filling.glazing));
  ifc.property_set(
      owner, {"Panel_Filling", {boolean("FactoryFitted", true), number("Mass", "IfcMassMeasure", filling.mass_kg)}});
}

}  // namespace

void write_types(IfcWriter& ifc) {
  for (const PanelType& type : panel_types()) write_wall_type(ifc, type);
  for (const FillingSpec& filling : filling_types()) write_filling_type(ifc, filling);
}

}  // namespace sample_export
