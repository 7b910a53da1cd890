#include "sample_project/generator/export_panel.h"

#include "sample_project/generator/export_parts.h"
#include "sample_project/generator/global_id.h"
#include "sample_project/generator/panel_records.h"

namespace sample_export {

namespace {

/// Panels of one week's production share the batches of their materials.
constexpr int kPanelsPerBatch = 12;

void write_associations(IfcWriter& ifc, const PlacedPanel& panel) {
  const auto associations = ifc.xml.element("HasAssociations");
  {
    const auto relation =
        ifc.xml.element("IfcRelAssociatesMaterial", {{"GlobalId", global_id(panel_owner(panel) + "/layers")}});
    const auto relating = ifc.xml.element("RelatingMaterial");
    const auto usage = ifc.xml.element(
        "IfcMaterialLayerSetUsage",
        {{"LayerSetDirection", "axis2"}, {"DirectionSense", "positive"}, {"OffsetFromReferenceLine", "0"}});
    ifc.xml.reference("ForLayerSet", layer_set_id(panel.type->key));
  }
  ifc.shared_document(std::string(panel.type->fire_document));
  for (const char* document : {"RF-201", "AIR-501", "FPC-601", "LIF-701", "COC-401"}) ifc.shared_document(document);
}

void write_quantities(IfcWriter& ifc, const PlacedPanel& panel) {
  const std::string owner = panel_owner(panel) + "/quantities";
  const auto relation = ifc.xml.element("IfcRelDefinesByProperties", {{"GlobalId", global_id(owner + "/defines")}});
  const auto relating = ifc.xml.element("RelatingPropertyDefinition");
  const auto set =
      ifc.xml.element("IfcElementQuantity", {{"GlobalId", global_id(owner)}, {"Name", "Qto_WallBaseQuantities"}});
  const auto list = ifc.xml.element("Quantities");
  const std::pair<const char*, double> lengths[] = {
      {"Length", panel.width_mm}, {"Width", panel.type->thickness_mm()}, {"Height", panel.height_mm}};
  for (const auto& [name, value] : lengths) {
    ifc.xml.leaf("IfcQuantityLength", {{"Name", name}, {"LengthValue", mm_text(value)}});
  }
}

void write_definitions(IfcWriter& ifc, const PlacedPanel& panel) {
  const auto defined = ifc.xml.element("IsDefinedBy");
  for (const PropertySet& set : panel_records(panel)) ifc.defining_properties(panel_owner(panel), set);
  write_quantities(ifc, panel);
}

void write_filling(IfcWriter& ifc, const PlacedPanel& panel, std::size_t index, const std::string& opening_placement) {
  const FillingSpec& filling = *panel.openings[index].filling;
  const std::string owner = panel_owner(panel) + "/filling-" + std::to_string(index + 1);
  const auto fillings = ifc.xml.element("HasFillings");
  const auto relation = ifc.xml.element("IfcRelFillsElement", {{"GlobalId", global_id(owner + "/fills")}});
  const auto element = ifc.xml.element(
      "RelatedBuildingElement", {{"xsi:type", filling_entity(filling)},
                                 {"id", filling_id(panel, index)},
                                 {"GlobalId", global_id(owner)},
                                 {"Name", std::string(filling.name)},
                                 {"Tag", panel.mark + (filling.is_door ? "-D" : "-W") + std::to_string(index + 1)},
                                 {"OverallHeight", mm_text(filling.height_mm)},
                                 {"OverallWidth", mm_text(filling.width_mm)}});
  ifc.typed_by(owner, filling.is_door ? "IfcDoorType" : "IfcWindowType", type_id(filling.key));
  ifc.local_placement({}, opening_placement, {});
}

void write_opening(IfcWriter& ifc, const PlacedPanel& panel, std::size_t index, const std::string& placement_id) {
  const Rectangle& face = panel.openings[index].face;
  const std::string owner = panel_owner(panel) + "/opening-" + std::to_string(index + 1);
  const std::string opening_placement = placement_id + "-opening-" + std::to_string(index + 1);
  const auto relation = ifc.xml.element("IfcRelVoidsElement", {{"GlobalId", global_id(owner + "/voids")}});
  const auto element = ifc.xml.element("RelatedOpeningElement", {{"xsi:type", "IfcOpeningElement"},
                                                                 {"GlobalId", global_id(owner)},
                                                                 {"Name", "Opening " + std::to_string(index + 1)},
                                                                 {"PredefinedType", "opening"}});
  ifc.local_placement(opening_placement, placement_id, {{face.x_min, 0.0, face.z_min}});
  ifc.block_shape(face.width(), panel.type->thickness_mm(), face.height());
  write_filling(ifc, panel, index, opening_placement);
}

void write_openings(IfcWriter& ifc, const PlacedPanel& panel, const std::string& placement_id) {
  if (panel.openings.empty()) return;
  const auto openings = ifc.xml.element("HasOpenings");
  for (std::size_t i = 0; i < panel.openings.size(); ++i) write_opening(ifc, panel, i, placement_id);
}

}  // namespace

std::string panel_owner(const PlacedPanel& panel) {
  return "panel/" + panel.mark;
}

std::string filling_id(const PlacedPanel& panel, std::size_t opening) {
  return "filling-" + panel.mark + "-" + std::to_string(opening + 1);
}

const char* filling_entity(const FillingSpec& filling) {
  return filling.is_door ? "IfcDoor" : "IfcWindow";
}

void write_panel(IfcWriter& ifc, const PlacedPanel& panel, const std::string& storey_placement_id) {
  const std::string owner = panel_owner(panel);
  const std::string placement_id = "placement-" + panel.mark;
  const auto element = ifc.xml.element("IfcWall", {{"GlobalId", global_id(owner)},
                                                   {"Name", std::string(panel.type->name)},
                                                   {"ObjectType", std::string(panel.type->key)},
                                                   {"Tag", panel.mark},
                                                   {"PredefinedType", "elementedwall"}});
  const int batch = 1 + (panel.erection_order - 1) / kPanelsPerBatch;
  write_parts(ifc, panel_content(panel), owner, placement_id, batch);
  write_associations(ifc, panel);
  ifc.typed_by(owner, "IfcWallType", type_id(panel.type->key));
  write_definitions(ifc, panel);
  const Point in_storey{panel.origin.x, panel.origin.y, 0.0};
  ifc.local_placement(placement_id, storey_placement_id, {in_storey, {0.0, 0.0, 1.0}, panel.direction});
  ifc.wall_shape(panel.width_mm, panel.type->thickness_mm(), panel.height_mm);
  write_openings(ifc, panel, placement_id);
}

}  // namespace sample_export
