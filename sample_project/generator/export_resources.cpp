#include "sample_project/generator/export_resources.h"

#include <array>
#include <string_view>

#include "sample_project/generator/materials.h"

namespace sample_export {

namespace {

struct EvidenceDocument {
  std::string_view id;
  std::string_view name;
  std::string_view location;  ///< relative to the project folder
};

// FT-103 is named on purpose without its file: the report of the feature panel has not come in yet.
const std::vector<EvidenceDocument>& evidence_documents() {
  static const std::vector<EvidenceDocument> table = {
      {"FT-101", "Fire resistance test report, infill cassette", "evidence/FT-101-infill-fire-test.txt"},
      {"FT-102", "Fire resistance test report, oversail cassette", "evidence/FT-102-oversail-fire-test.txt"},
      {"FT-103", "Fire resistance test report, feature panel", "evidence/FT-103-feature-panel-fire-test.txt"},
      {"FT-104", "Fire resistance test report, load-bearing cassette", "evidence/FT-104-load-bearing-fire-test.txt"},
      {"RF-201", "Reaction to fire classification report", "evidence/RF-201-reaction-to-fire.txt"},
      {"EPD-301", "Environmental declaration, structural softwood", "evidence/EPD-301-softwood.xml"},
      {"EPD-302", "Environmental declaration, glued laminated timber", "evidence/EPD-302-glulam.csv"},
      {"EPD-303", "Environmental declaration, oriented strand board", "evidence/EPD-303-osb.csv"},
      {"EPD-304", "Environmental declaration, gypsum plasterboard", "evidence/EPD-304-gypsum-plasterboard.csv"},
      {"EPD-305", "Environmental declaration, stone wool", "evidence/EPD-305-stone-wool.csv"},
      {"EPD-306", "Environmental declaration, vapour control layer", "evidence/EPD-306-vapour-control.csv"},
      {"EPD-307", "Environmental declaration, fibre cement", "evidence/EPD-307-fibre-cement.txt"},
      {"EPD-308", "Environmental declaration, steel fixings", "evidence/EPD-308-steel-fixings.csv"},
      {"EPD-309", "Environmental declaration, gypsum sheathing board", "evidence/EPD-309-gypsum-sheathing.csv"},
      {"EPD-310", "Environmental declaration, breather membrane", "evidence/EPD-310-breather-membrane.csv"},
      {"COC-401", "Chain of custody certificate", "evidence/COC-401-chain-of-custody.txt"},
      {"DN-451", "Delivery notes of certified wood", "evidence/DN-451-delivery-notes.txt"},
      {"AIR-501", "Air permeability test report", "evidence/AIR-501-air-permeability.txt"},
      {"FPC-601", "Factory production control certificate", "evidence/FPC-601-factory-production-control.txt"},
      {"LIF-701", "Lifting loop certificate", "evidence/LIF-701-lifting-loops.txt"}};
  return table;
}

struct SiUnit {
  const char* type;
  const char* prefix;  ///< empty: none
  const char* name;
};

constexpr std::array kSiUnits = {
    SiUnit{"lengthunit", "milli", "metre"},  SiUnit{"areaunit", "", "square_metre"},
    SiUnit{"volumeunit", "", "cubic_metre"}, SiUnit{"massunit", "kilo", "gram"},
    SiUnit{"timeunit", "", "second"},        SiUnit{"thermodynamictemperatureunit", "", "kelvin"},
    SiUnit{"forceunit", "", "newton"},       SiUnit{"pressureunit", "", "pascal"},
    SiUnit{"energyunit", "", "joule"},       SiUnit{"powerunit", "", "watt"}};

struct Factor {
  SiUnit unit;
  int exponent;
};

struct DerivedUnit {
  const char* type;
  std::vector<Factor> factors;
};

const std::vector<DerivedUnit>& derived_units() {
  static const SiUnit metre{"lengthunit", "", "metre"};
  static const SiUnit kilogram{"massunit", "kilo", "gram"};
  static const SiUnit kelvin{"thermodynamictemperatureunit", "", "kelvin"};
  static const SiUnit watt{"powerunit", "", "watt"};
  static const SiUnit joule{"energyunit", "", "joule"};
  static const SiUnit newton{"forceunit", "", "newton"};
  static const std::vector<DerivedUnit> table = {
      {"massdensityunit", {{kilogram, 1}, {metre, -3}}},
      {"thermalconductanceunit", {{watt, 1}, {metre, -1}, {kelvin, -1}}},
      {"thermaltransmittanceunit", {{watt, 1}, {metre, -2}, {kelvin, -1}}},
      {"specificheatcapacityunit", {{joule, 1}, {kilogram, -1}, {kelvin, -1}}},
      {"linearforceunit", {{newton, 1}, {metre, -1}}}};
  return table;
}

Attributes si_attributes(const SiUnit& unit) {
  Attributes attributes{{"UnitType", unit.type}};
  if (*unit.prefix != '\0') attributes.emplace_back("Prefix", unit.prefix);
  attributes.emplace_back("Name", unit.name);
  return attributes;
}

void write_derived(IfcWriter& ifc, const DerivedUnit& unit) {
  const auto derived = ifc.out.element("IfcDerivedUnit", {{"UnitType", unit.type}});
  const auto elements = ifc.out.element("Elements");
  for (const Factor& factor : unit.factors) {
    const auto element = ifc.out.element("IfcDerivedUnitElement", {{"Exponent", std::to_string(factor.exponent)}});
    Attributes attributes{{"xsi:type", "IfcSIUnit"}};
    for (const Attribute& attribute : si_attributes(factor.unit)) attributes.push_back(attribute);
    ifc.out.leaf("Unit", attributes);
  }
}

struct Conversion {
  const char* id;
  const char* type;
  const char* name;
  const char* exponent;  ///< the one dimension, empty for an angle
  const char* measure;
  double factor;
  SiUnit base;
};

void write_conversion(IfcWriter& ifc, const Conversion& unit) {
  const auto element =
      ifc.out.element("IfcConversionBasedUnit", {{"id", unit.id}, {"UnitType", unit.type}, {"Name", unit.name}});
  Attributes exponents;
  for (const char* dimension : {"Length", "Mass", "Time", "ElectricCurrent", "ThermodynamicTemperature",
                                "AmountOfSubstance", "LuminousIntensity"}) {
    const bool is_one = std::string(dimension) == unit.exponent;
    exponents.emplace_back(std::string(dimension) + "Exponent", is_one ? "1" : "0");
  }
  ifc.out.leaf("Dimensions", exponents);
  const auto factor = ifc.out.element("ConversionFactor");
  {
    const auto value = ifc.out.element("ValueComponent");
    ifc.out.text_element(std::string(unit.measure) + "-wrapper", number_text(unit.factor));
  }
  const auto component = ifc.out.element("UnitComponent");
  ifc.out.leaf("IfcSIUnit", si_attributes(unit.base));
}

void write_sub_context(IfcWriter& ifc, const char* id, const char* identifier) {
  ifc.out.leaf("IfcGeometricRepresentationSubContext",
               {{"id", id}, {"ContextIdentifier", identifier}, {"ContextType", "Model"}, {"TargetView", "model_view"}});
}

}  // namespace

void write_contexts(IfcWriter& ifc) {
  const auto contexts = ifc.out.element("RepresentationContexts");
  const auto model = ifc.out.element(
      "IfcGeometricRepresentationContext",
      {{"id", "context-model"}, {"ContextType", "Model"}, {"CoordinateSpaceDimension", "3"}, {"Precision", "0.0001"}});
  {
    const auto world = ifc.out.element("WorldCoordinateSystem");
    const auto axes = ifc.out.element("IfcAxis2Placement3D");
    ifc.cartesian_point("Location", {});
  }
  // 20 degrees west of the y axis of the grid.
  ifc.out.leaf("TrueNorth", {{"DirectionRatios", "-0.3420201433256687 0.9396926207859084"}});
  const auto sub_contexts = ifc.out.element("HasSubContexts");
  write_sub_context(ifc, "context-axis", "Axis");
  write_sub_context(ifc, "context-body", "Body");
  write_sub_context(ifc, "context-box", "Box");
}

void write_units(IfcWriter& ifc) {
  const auto in_context = ifc.out.element("UnitsInContext");
  const auto units = ifc.out.element("Units");
  for (const SiUnit& unit : kSiUnits) ifc.out.leaf("IfcSIUnit", si_attributes(unit));
  write_conversion(ifc, {"unit-degree",
                         "planeangleunit",
                         "degree",
                         "",
                         "IfcPlaneAngleMeasure",
                         0.017453292519943295,
                         {"planeangleunit", "", "radian"}});
  for (const DerivedUnit& unit : derived_units()) write_derived(ifc, unit);
}

void write_property_units(IfcWriter& ifc) {
  ifc.out.leaf("IfcSIUnit",
               {{"id", "unit-kilometre"}, {"UnitType", "lengthunit"}, {"Prefix", "kilo"}, {"Name", "metre"}});
}

void write_documents(IfcWriter& ifc) {
  for (const EvidenceDocument& document : evidence_documents()) {
    const std::string id(document.id);
    const auto relation = ifc.out.element("IfcRelAssociatesDocument",
                                          {{"GlobalId", global_id("project/document/" + id)}, {"Name", "Evidence"}});
    const auto relating = ifc.out.element("RelatingDocument");
    ifc.out.leaf("IfcDocumentReference", {{"id", "document-" + id},
                                          {"Location", std::string(document.location)},
                                          {"Identification", id},
                                          {"Name", std::string(document.name)}});
  }
}

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
  const auto set = ifc.out.element("IfcMaterialProfileSet",
                                   {{"id", profile_set_id(section.width_mm, section.depth_mm, section.material_key)},
                                    {"Name", size + " " + std::string(material(section.material_key).name)}});
  const auto profiles = ifc.out.element("MaterialProfiles");
  const auto profile = ifc.out.element("IfcMaterialProfile", {{"Name", size}});
  ifc.out.reference("Material", material_id(section.material_key));
  ifc.out.leaf("Profile", {{"xsi:type", "IfcRectangleProfileDef"},
                           {"ProfileType", "area"},
                           {"ProfileName", size},
                           {"XDim", mm_text(section.width_mm)},
                           {"YDim", mm_text(section.depth_mm)}});
}

}  // namespace

void write_materials(IfcWriter& ifc) {
  for (const Material& each : materials()) {
    const auto element = ifc.out.element(
        "IfcMaterial",
        {{"id", material_id(each.key)}, {"Name", std::string(each.name)}, {"Category", std::string(each.category)}});
    const auto properties = ifc.out.element("HasProperties");
    for (const PropertySet& set : each.property_sets) {
      const auto extended = ifc.out.element("IfcMaterialProperties", {{"Name", set.name}});
      const auto list = ifc.out.element("Properties");
      for (const Property& property : set.properties) ifc.property(property);
    }
  }
}

void write_sections(IfcWriter& ifc) {
  for (const Section& section : kSections) write_section(ifc, section);
}

}  // namespace sample_export
