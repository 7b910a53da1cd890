#include "sample_project/generator/export_project.h"

#include <algorithm>
#include <string>
#include <utility>

#include "sample_project/generator/export_panel.h"
#include "sample_project/generator/export_resources.h"
#include "sample_project/generator/export_types.h"
#include "sample_project/generator/global_id.h"
#include "sample_project/generator/ifc_writer.h"

namespace sample_export {

namespace {

using Panels = std::vector<PlacedPanel>;

constexpr const char* kNamespace = "http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2";

std::string wing_name(std::size_t wing) {
  return wing == 0 ? "Health centre" : "Health centre, wing " + std::to_string(wing + 1);
}

/// The panels of one storey; they stand together, as place_panels goes through the project storey by storey.
Panels::const_iterator first_of(const Panels& panels, std::size_t wing, std::size_t storey) {
  return std::partition_point(panels.begin(), panels.end(), [&](const PlacedPanel& panel) {
    return std::pair(panel.wing, panel.storey) < std::pair(wing, storey);
  });
}

/// What stands in the storey: its panels in full, and the windows and doors that their openings hold.
void write_contained(IfcWriter& ifc, const Panels& panels, std::size_t wing, std::size_t storey,
                     const std::string& owner, const std::string& placement_id) {
  const auto first = first_of(panels, wing, storey);
  const auto last = first_of(panels, wing, storey + 1);
  if (first == last) return;
  const auto contains = ifc.xml.element("ContainsElements");
  const auto relation =
      ifc.xml.element("IfcRelContainedInSpatialStructure", {{"GlobalId", global_id(owner + "/elements")}});
  const auto related = ifc.xml.element("RelatedElements");
  for (auto panel = first; panel != last; ++panel) {
    write_panel(ifc, *panel, placement_id);
    for (std::size_t i = 0; i < panel->openings.size(); ++i) {
      ifc.xml.reference(filling_entity(*panel->openings[i].filling), filling_id(*panel, i));
    }
  }
}

void write_storey(IfcWriter& ifc, const Panels& panels, std::size_t wing, std::size_t index) {
  const Storey& storey = storeys()[index];
  const std::string owner = "building-" + std::to_string(wing + 1) + "/storey-" + std::to_string(index);
  const std::string placement_id = "placement-storey-" + std::to_string(wing + 1) + "-" + std::to_string(index);
  const auto element = ifc.xml.element("IfcBuildingStorey", {{"GlobalId", global_id(owner)},
                                                             {"Name", storey.name},
                                                             {"CompositionType", "element"},
                                                             {"Elevation", mm_text(storey.elevation_mm)}});
  ifc.local_placement(placement_id, "placement-building-" + std::to_string(wing + 1),
                      {{0.0, 0.0, storey.elevation_mm}});
  write_contained(ifc, panels, wing, index, owner, placement_id);
}

void write_building(IfcWriter& ifc, const Panels& panels, std::size_t wing) {
  const std::string number = std::to_string(wing + 1);
  const std::string owner = "building-" + number;
  const auto element = ifc.xml.element(
      "IfcBuilding", {{"GlobalId", global_id(owner)}, {"Name", wing_name(wing)}, {"CompositionType", "element"}});
  {
    const auto decomposed = ifc.xml.element("IsDecomposedBy");
    const auto relation = ifc.xml.element("IfcRelAggregates", {{"GlobalId", global_id(owner + "/storeys")}});
    const auto related = ifc.xml.element("RelatedObjects");
    for (std::size_t i = 0; i < storeys().size(); ++i) write_storey(ifc, panels, wing, i);
  }
  ifc.local_placement("placement-building-" + number, "placement-site", {});
}

void write_site(IfcWriter& ifc, const Panels& panels) {
  const auto element = ifc.xml.element("IfcSite", {{"GlobalId", global_id("site")},
                                                   {"Name", "Site of the health centre"},
                                                   {"CompositionType", "element"},
                                                   {"RefElevation", "42000"}});
  {
    const auto decomposed = ifc.xml.element("IsDecomposedBy");
    const auto relation = ifc.xml.element("IfcRelAggregates", {{"GlobalId", global_id("site/buildings")}});
    const auto related = ifc.xml.element("RelatedObjects");
    const std::size_t wings = panels.empty() ? 0 : panels.back().wing + 1;
    for (std::size_t wing = 0; wing < wings; ++wing) write_building(ifc, panels, wing);
  }
  ifc.local_placement("placement-site", {}, {});
}

void write_project(IfcWriter& ifc, const Panels& panels) {
  const auto project = ifc.xml.element(
      "IfcProject", {{"GlobalId", global_id("project")},
                     {"Name", "Community health centre"},
                     {"Description", "A fictional building with invented products and evidence, made to demonstrate"},
                     {"LongName", "Three-storey community health centre on a concrete frame"},
                     {"Phase", "Construction"}});
  {
    const auto decomposed = ifc.xml.element("IsDecomposedBy");
    const auto relation = ifc.xml.element("IfcRelAggregates", {{"GlobalId", global_id("project/sites")}});
    const auto related = ifc.xml.element("RelatedObjects");
    write_site(ifc, panels);
  }
  {
    const auto associations = ifc.xml.element("HasAssociations");
    write_documents(ifc);
  }
  write_contexts(ifc);
  write_units(ifc);
  const auto declares = ifc.xml.element("Declares");
  const auto relation = ifc.xml.element("IfcRelDeclares", {{"GlobalId", global_id("project/types")}});
  const auto related = ifc.xml.element("RelatedDefinitions");
  write_types(ifc);
}

void write_header(IfcWriter& ifc) {
  const auto header = ifc.xml.element("header");
  ifc.xml.text_element("name", "Community health centre, panels");
  ifc.xml.text_element("time_stamp", "2026-05-29T18:00:00");
  ifc.xml.text_element("author", "Panel designer (fictional)");
  ifc.xml.text_element("organization", "Panel manufacturer (fictional)");
  ifc.xml.text_element("preprocessor_version", "sample-export");
  ifc.xml.text_element("originating_system", "sample-export");
  ifc.xml.text_element("authorization", "none");
  ifc.xml.text_element("documentation", "Fictional project for demonstration");
}

}  // namespace

void write_export(const std::filesystem::path& file, const Panels& panels) {
  XmlWriter xml(file);
  IfcWriter ifc(xml);
  {
    const auto root = xml.element("ifcXML", {{"xmlns", kNamespace},
                                             {"xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance"},
                                             {"xsi:schemaLocation", std::string(kNamespace) + " IFC4_ADD2.xsd"},
                                             {"id", "ifcXML4"}});
    write_header(ifc);
    write_materials(ifc);
    write_sections(ifc);
    write_property_units(ifc);
    xml.leaf("IfcDirection", {{"id", "direction-up"}, {"DirectionRatios", "0 0 1"}});
    write_project(ifc, panels);
  }
  xml.finish();
}

}  // namespace sample_export
