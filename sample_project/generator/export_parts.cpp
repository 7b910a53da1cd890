#include "sample_project/generator/export_parts.h"

#include <algorithm>

#include "sample_project/generator/global_id.h"

namespace sample_export {

namespace {

struct IfcClass {
  const char* entity;
  const char* predefined_type;
  const char* object_type;  ///< where the enumeration has no value; else empty
};

IfcClass ifc_class(PartRole role) {
  switch (role) {
    case PartRole::stud: return {"IfcMember", "stud", ""};
    case PartRole::rail: return {"IfcMember", "plate", ""};
    case PartRole::post: return {"IfcMember", "post", ""};
    case PartRole::lintel: return {"IfcMember", "userdefined", "LINTEL"};
    case PartRole::blocking: return {"IfcMember", "userdefined", "BLOCKING"};
    case PartRole::batten: return {"IfcMember", "userdefined", "BATTEN"};
    case PartRole::sheet: return {"IfcPlate", "sheet", ""};
    case PartRole::membrane: return {"IfcCovering", "membrane", ""};
    case PartRole::cladding: return {"IfcCovering", "cladding", ""};
    case PartRole::insulation: break;
  }
  return {"IfcBuildingElementPart", "insulation", ""};
}

IfcClass ifc_class(FastenerKind kind) {
  switch (kind) {
    case FastenerKind::screw: return {"IfcMechanicalFastener", "screw", ""};
    case FastenerKind::nail: return {"IfcMechanicalFastener", "nail", ""};
    case FastenerKind::bracket: return {"IfcDiscreteAccessory", "bracket", ""};
    case FastenerKind::tie_down: return {"IfcDiscreteAccessory", "userdefined", "TIE_DOWN"};
    case FastenerKind::lifting_loop: break;
  }
  return {"IfcDiscreteAccessory", "userdefined", "LIFTING LOOP"};
}

bool is_member(PartRole role) {
  return std::string(ifc_class(role).entity) == "IfcMember";
}

/// The two sides of a member's section, the smaller first. One with an outline is upright though extruded along x.
std::pair<double, double> section_of(const PanelPart& part) {
  const bool lies = part.axis == Axis::x && part.outline.empty();
  const double across = lies ? part.box.height() : part.box.width();
  return std::minmax(across, part.box.depth());
}

Attributes element_attributes(const std::string& owner, const std::string& name, const char* object_type,
                              const std::string& predefined_type) {
  Attributes attributes{{"GlobalId", global_id(owner + "/" + name)}, {"Name", name}};
  if (*object_type != '\0') attributes.emplace_back("ObjectType", object_type);
  attributes.emplace_back("PredefinedType", predefined_type);
  return attributes;
}

/// The batch of what the part is cut from; shared by every part of that material made in the same week.
void write_batch(IfcWriter& ifc, std::string_view material_key, int batch) {
  const std::string reference = "B" + std::to_string(batch) + "-" + std::string(material_key);
  const std::string id = "batch-" + reference;
  if (!ifc.first_use(id)) return ifc.xml.reference("IfcRelDefinesByProperties", id);
  const auto relation = ifc.xml.element("IfcRelDefinesByProperties", {{"id", id}, {"GlobalId", global_id(id)}});
  const auto relating = ifc.xml.element("RelatingPropertyDefinition");
  ifc.property_set(id, {"Pset_ManufacturerOccurrence", {identifier("BatchReference", reference)}});
}

void write_part(IfcWriter& ifc, const PanelPart& part, const std::string& owner, const std::string& placement_id,
                int batch) {
  const IfcClass kind = ifc_class(part.role);
  const auto element =
      ifc.xml.element(kind.entity, element_attributes(owner, part.name, kind.object_type, kind.predefined_type));
  {
    const auto associations = ifc.xml.element("HasAssociations");
    if (is_member(part.role)) {
      const auto [width, depth] = section_of(part);
      ifc.shared_material("IfcMaterialProfileSet", profile_set_id(width, depth, part.material_key));
    } else {
      ifc.shared_material("IfcMaterial", material_id(part.material_key));
    }
  }
  {
    const auto defined = ifc.xml.element("IsDefinedBy");
    write_batch(ifc, part.material_key, batch);
    if (!part.holes.empty()) {
      ifc.defining_properties(owner + "/" + part.name, {"Panel_Member", {text("Holes", part.holes)}});
    }
  }
  ifc.local_placement({}, placement_id, box_placement(part.box, part.axis));
  ifc.part_shape(part);
}

void write_fastener_quantities(IfcWriter& ifc, const FastenerGroup& group, const std::string& owner) {
  const auto relation =
      ifc.xml.element("IfcRelDefinesByProperties", {{"GlobalId", global_id(owner + "/quantities/defines")}});
  const auto relating = ifc.xml.element("RelatingPropertyDefinition");
  const auto quantities = ifc.xml.element("IfcElementQuantity", {{"GlobalId", global_id(owner + "/quantities")},
                                                                 {"Name", "Qto_MechanicalFastenerBaseQuantities"}});
  const auto list = ifc.xml.element("Quantities");
  ifc.xml.leaf("IfcQuantityCount", {{"Name", "Count"}, {"CountValue", std::to_string(group.count)}});
  ifc.xml.leaf("IfcQuantityWeight",
               {{"Name", "GrossWeight"}, {"WeightValue", rounded_text(group.count * group.mass_each_kg, 4)}});
}

/// What the makers of brackets, lifting loops and tie-downs declare.
void add_resistances(const FastenerGroup& group, PropertySet& set) {
  const auto add = [&](const char* name, const char* measure, double value) {
    if (value > 0.0) set.properties.push_back(number(name, measure, value));
  };
  add("WorkingLoadLimit", "IfcForceMeasure", group.working_load_limit_n);
  if (group.screws_per_piece > 0) add("ScrewsPerPiece", "IfcReal", group.screws_per_piece);
  add("ScrewDiameter", "IfcPositiveLengthMeasure", group.screw_diameter_mm);
  add("ScrewPenetration", "IfcPositiveLengthMeasure", group.screw_penetration_mm);
  add("DesignTension", "IfcForceMeasure", group.design_tension_n);
  add("DesignShear", "IfcForceMeasure", group.design_shear_n);
  add("Adjustment", "IfcPositiveLengthMeasure", group.adjustment_mm);
}

void write_fasteners(IfcWriter& ifc, const FastenerGroup& group, const std::string& owner,
                     const std::string& placement_id) {
  const std::string path = owner + "/" + group.name;
  const IfcClass kind = ifc_class(group.kind);
  Attributes attributes = element_attributes(owner, group.name, kind.object_type, kind.predefined_type);
  if (group.diameter_mm > 0.0) {
    attributes.emplace_back("NominalDiameter", mm_text(group.diameter_mm));
    attributes.emplace_back("NominalLength", mm_text(group.length_mm));
  }
  const auto element = ifc.xml.element(kind.entity, attributes);
  {
    const auto associations = ifc.xml.element("HasAssociations");
    ifc.shared_material("IfcMaterial", material_id("steel"));
  }
  {
    const auto defined = ifc.xml.element("IsDefinedBy");
    PropertySet set{"Panel_Fastener", {label("Type", group.product)}};
    if (group.length_mm > 0.0) {
      set.properties.push_back(number("Length", "IfcPositiveLengthMeasure", group.length_mm));
    }
    if (group.spacing_mm > 0.0) {
      set.properties.push_back(number("Spacing", "IfcPositiveLengthMeasure", group.spacing_mm));
    }
    if (group.diameter_mm > 0.0) {
      // Sheets and lining are fixed to timber, so no screw or nail ends in the insulation.
      set.properties.push_back(number("Diameter", "IfcPositiveLengthMeasure", group.diameter_mm));
      set.properties.push_back(number("DepthInInsulation", "IfcLengthMeasure", 0.0));
    }
    if (group.intermediate_spacing_mm > 0.0) {
      set.properties.push_back(
          number("IntermediateSpacing", "IfcPositiveLengthMeasure", group.intermediate_spacing_mm));
    }
    if (group.edge_distance_mm > 0.0) {
      set.properties.push_back(number("EdgeDistance", "IfcPositiveLengthMeasure", group.edge_distance_mm));
      set.properties.push_back(number("TensileStrength", "IfcPressureMeasure", group.tensile_strength_n_per_mm2 * 1e6));
      set.properties.push_back(label("Shank", "RING"));
    }
    add_resistances(group, set);
    ifc.defining_properties(path, set);
    write_fastener_quantities(ifc, group, path);
  }
  ifc.local_placement({}, placement_id, {group.zone.min});
  ifc.box_shape(group.zone);
}

}  // namespace

void write_parts(IfcWriter& ifc, const PanelContent& content, const std::string& owner, const std::string& placement_id,
                 int batch) {
  const auto decomposed = ifc.xml.element("IsDecomposedBy");
  const auto relation = ifc.xml.element("IfcRelAggregates", {{"GlobalId", global_id(owner + "/parts")}});
  const auto related = ifc.xml.element("RelatedObjects");
  for (const PanelPart& part : content.parts) write_part(ifc, part, owner, placement_id, batch);
  for (const FastenerGroup& group : content.fasteners) write_fasteners(ifc, group, owner, placement_id);
}

}  // namespace sample_export
