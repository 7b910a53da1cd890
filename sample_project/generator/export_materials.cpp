#include <array>

#include "sample_project/generator/export_resources.h"
#include "sample_project/generator/materials.h"

namespace sample_export {

namespace {

struct Section {
  double width_mm;
  double depth_mm;
  std::string_view material_key;
};

/// Width is the smaller side; members are described by it first.
constexpr std::array kSections = {Section{45, 220, "softwood"}, Section{60, 220, "glulam"},
                                  Section{45, 140, "softwood"}, Section{60, 140, "glulam"},
                                  Section{45, 195, "softwood"}, Section{38, 45, "softwood"}};

void write_section(IfcWriter& ifc, const Section& section) {
  const std::string size = mm_text(section.width_mm) + " x " + mm_text(section.depth_mm);
  const auto set = ifc.xml.element("IfcMaterialProfileSet",
                                   {{"id", profile_set_id(section.width_mm, section.depth_mm, section.material_key)},
                                    {"Name", size + " " + std::string(material(section.material_key).name)}});
  const auto profiles = ifc.xml.element("MaterialProfiles");
  const auto profile = ifc.xml.element("IfcMaterialProfile", {{"Name", size}});
  ifc.xml.reference("Material", material_id(section.material_key));
  ifc.xml.leaf("Profile", {{"xsi:type", "IfcRectangleProfileDef"},
                           {"ProfileType", "area"},
                           {"ProfileName", size},
                           {"XDim", mm_text(section.width_mm)},
                           {"YDim", mm_text(section.depth_mm)}});
}

}  // namespace

void write_materials(IfcWriter& ifc) {
  for (const Material& each : materials()) {
    const auto element = ifc.xml.element(
        "IfcMaterial",
        {{"id", material_id(each.key)}, {"Name", std::string(each.name)}, {"Category", std::string(each.category)}});
    const auto properties = ifc.xml.element("HasProperties");
    for (const PropertySet& set : each.property_sets) {
      const auto extended = ifc.xml.element("IfcMaterialProperties", {{"Name", set.name}});
      const auto list = ifc.xml.element("Properties");
      for (const Property& property : set.properties) ifc.property(property);
    }
  }
}

void write_sections(IfcWriter& ifc) {
  for (const Section& section : kSections) write_section(ifc, section);
}

}  // namespace sample_export
