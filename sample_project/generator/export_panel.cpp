#include "sample_project/generator/export_panel.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

#include "sample_project/generator/ifc_writer.h"
#include "sample_project/generator/panel_parts.h"
#include "sample_project/generator/properties.h"

namespace sample_export {

namespace {

/// The panel of each wing that came out too wide, on purpose.
constexpr const char* kTooWide = "E1-03";
constexpr double kExcess_mm = 6.0;
/// Joints of an infill panel as designed: beside it, and above it where the slab moves.
constexpr double kSideJoint_mm = 10.0;
constexpr double kHeadJoint_mm = 25.0;

std::string two_digits(int number) {
  return (number < 10 ? "0" : "") + std::to_string(number);
}

/// The `day`th working day from 2 March 2026, a Monday; weeks of five days.
std::string working_day(int day) {
  static constexpr int kDaysInMonth[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int month = 3;
  int date_of_month = 2 + day / 5 * 7 + day % 5;
  int year = 2026;
  while (date_of_month > kDaysInMonth[month - 1]) {
    date_of_month -= kDaysInMonth[month - 1];
    month = month % 12 + 1;
    if (month == 1) ++year;
  }
  return std::to_string(year) + "-" + two_digits(month) + "-" + two_digits(date_of_month);
}

/// The day on which the programme of the sample's settings erects the panel; the 6th of April is a holiday.
std::string erection_day(int order) {
  constexpr int kOnFirstDay = 31;
  return order <= kOnFirstDay ? "2026-04-07" : "2026-04-08";
}

/// A deviation of -2 to +2 mm that looks measured and repeats from run to run.
double deviation_mm(int order, int which) {
  const auto mixed = static_cast<std::uint32_t>(order * 7 + which * 3) * 2654435761U;
  return static_cast<double>((mixed >> 16U) % 5U) - 2.0;
}

/// Sizes as measured in the workshop, and of an infill panel the surveyed opening in the frame.
PropertySet as_built(const PlacedPanel& panel) {
  const int order = panel.erection_order;
  const double width_mm = panel.width_mm + (panel.mark.ends_with(kTooWide) ? kExcess_mm : deviation_mm(order, 1));
  const double height_mm = panel.height_mm + deviation_mm(order, 2);
  const double diagonal_mm = std::round(std::hypot(width_mm, height_mm));
  PropertySet set{"Panel_AsBuilt", {}};
  const auto add = [&set](const char* name, double size_mm) {
    set.properties.push_back(number(name, "IfcPositiveLengthMeasure", size_mm));
  };
  add("Width", width_mm);
  add("Height", height_mm);
  add("Thickness", panel.type->thickness_mm());
  add("Diagonal1", diagonal_mm + deviation_mm(order, 4));
  add("Diagonal2", diagonal_mm + deviation_mm(order, 5));
  if (panel.type->arrangement != "INFILL") return set;
  add("FrameOpeningWidth", panel.width_mm + 2.0 * kSideJoint_mm + deviation_mm(order, 6));
  add("FrameOpeningHeight", panel.height_mm + kHeadJoint_mm + deviation_mm(order, 7));
  return set;
}

/// Two corners join infill and oversail panels. No detail of one arrangement stands for them, so their designer
/// declares Ψ; and the feature panel rises over the roof.
std::vector<PropertySet> junctions(const PlacedPanel& panel) {
  constexpr double kInfillPsi_w_per_mk = 0.15;
  constexpr double kOversailPsi_w_per_mk = 0.04;
  constexpr double kFeatureParapet_mm = 1000.0;
  const std::string slot = panel.mark.substr(panel.mark.size() - 2);
  if (panel.type->spans_storeys()) {
    return {{"Panel_Junction", {number("ParapetHeight", "IfcLengthMeasure", kFeatureParapet_mm)}}};
  }
  const auto declared = [](const char* side, double psi) {
    return std::vector<PropertySet>{{"Panel_Junction", {number(std::string(side) + "Transmittance", "IfcReal", psi)}}};
  };
  if (panel.elevation == "East" && slot == "01") return declared("Left", kInfillPsi_w_per_mk);
  if (panel.elevation == "South" && slot == "08") return declared("Right", kInfillPsi_w_per_mk);
  if (panel.elevation == "North" && slot == "06") return declared("Right", kOversailPsi_w_per_mk);
  if (panel.elevation == "West" && slot == "01") return declared("Left", kOversailPsi_w_per_mk);
  return {};
}

/// The property sets of one panel: identity, inspection, as-built sizes and, once erected, its installation.
std::vector<PropertySet> panel_records(const PlacedPanel& panel) {
  const int order = panel.erection_order;
  std::vector<PropertySet> sets;
  sets.push_back({"Panel_Identity",
                  {identifier("Mark", panel.mark), integer("ErectionOrder", order), label("Elevation", panel.elevation),
                   label("Arrangement", std::string(panel.type->arrangement))}});
  sets.push_back({"Pset_ManufacturerOccurrence",
                  {identifier("SerialNumber", "2026-" + std::to_string(1000 + order)),
                   identifier("BatchReference", "P" + std::to_string(panel.batch))}});
  sets.push_back({"Panel_Inspection",
                  {label("Result", "ACCEPTED"), label("Inspector", "Workshop quality inspector"),
                   date("Date", working_day(panel.made_on_day + 1))}});
  sets.push_back(as_built(panel));
  if (panel.erected) {
    sets.push_back(
        {"Panel_Install",
         {date("Date", erection_day(order)), label("Team", "Erection team A"), label("Result", "ACCEPTED")}});
  }
  for (PropertySet& set : junctions(panel)) sets.push_back(std::move(set));
  return sets;
}

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
    case FastenerKind::cladding_screw: return {"IfcMechanicalFastener", "userdefined", "CLADDING_SCREW"};
    case FastenerKind::batten_screw: return {"IfcMechanicalFastener", "userdefined", "BATTEN_SCREW"};
    case FastenerKind::bracket: return {"IfcDiscreteAccessory", "bracket", ""};
    case FastenerKind::tie_down: return {"IfcDiscreteAccessory", "userdefined", "TIE_DOWN"};
    case FastenerKind::cavity_barrier: return {"IfcDiscreteAccessory", "userdefined", "CAVITY_BARRIER"};
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

/// The batch of what the part is cut from; shared by every part of that material made in the same days.
void write_batch(IfcWriter& ifc, std::string_view material_key, int batch) {
  const std::string reference = "B" + std::to_string(batch) + "-" + std::string(material_key);
  const std::string id = "batch-" + reference;
  if (!ifc.first_use(id)) return ifc.out.reference("IfcRelDefinesByProperties", id);
  const auto relation = ifc.out.element("IfcRelDefinesByProperties", {{"id", id}, {"GlobalId", global_id(id)}});
  const auto relating = ifc.out.element("RelatingPropertyDefinition");
  ifc.property_set(id, {"Pset_ManufacturerOccurrence", {identifier("BatchReference", reference)}});
}

void write_part(IfcWriter& ifc, const PanelPart& part, const std::string& owner, const std::string& placement_id,
                int batch) {
  const IfcClass kind = ifc_class(part.role);
  const auto element =
      ifc.out.element(kind.entity, element_attributes(owner, part.name, kind.object_type, kind.predefined_type));
  {
    const auto associations = ifc.out.element("HasAssociations");
    if (is_member(part.role)) {
      const auto [width, depth] = section_of(part);
      ifc.shared_material("IfcMaterialProfileSet", profile_set_id(width, depth, part.material_key));
    } else {
      ifc.shared_material("IfcMaterial", material_id(part.material_key));
    }
  }
  {
    const auto defined = ifc.out.element("IsDefinedBy");
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
      ifc.out.element("IfcRelDefinesByProperties", {{"GlobalId", global_id(owner + "/quantities/defines")}});
  const auto relating = ifc.out.element("RelatingPropertyDefinition");
  const auto quantities = ifc.out.element(
      "IfcElementQuantity", {{"GlobalId", global_id(owner + "/quantities")}, {"Name", "Panel_FastenerQuantities"}});
  const auto list = ifc.out.element("Quantities");
  ifc.out.leaf("IfcQuantityCount", {{"Name", "Count"}, {"CountValue", std::to_string(group.count)}});
  ifc.out.leaf("IfcQuantityWeight",
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
  add("ScrewHeadDiameter", "IfcPositiveLengthMeasure", group.head_diameter_mm);
  add("HeadPullThrough", "IfcPressureMeasure", group.pull_through_n_per_mm2 * 1e6);
  add("WithdrawalCapacity", "IfcForceMeasure", group.withdrawal_n);
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
  const auto element = ifc.out.element(kind.entity, attributes);
  {
    const auto associations = ifc.out.element("HasAssociations");
    ifc.shared_material("IfcMaterial", material_id("steel"));
  }
  {
    const auto defined = ifc.out.element("IsDefinedBy");
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

/// IsDecomposedBy of the panel with everything in it. `owner` is the path of the panel's GlobalId, `placement_id` the
/// id of its placement, `batch` the number of the production batch it belongs to.
void write_parts(IfcWriter& ifc, const PanelContent& content, const std::string& owner, const std::string& placement_id,
                 int batch) {
  const auto decomposed = ifc.out.element("IsDecomposedBy");
  const auto relation = ifc.out.element("IfcRelAggregates", {{"GlobalId", global_id(owner + "/parts")}});
  const auto related = ifc.out.element("RelatedObjects");
  for (const PanelPart& part : content.parts) write_part(ifc, part, owner, placement_id, batch);
  for (const FastenerGroup& group : content.fasteners) write_fasteners(ifc, group, owner, placement_id);
}

void write_associations(IfcWriter& ifc, const PlacedPanel& panel) {
  const auto associations = ifc.out.element("HasAssociations");
  {
    const auto relation =
        ifc.out.element("IfcRelAssociatesMaterial", {{"GlobalId", global_id(panel_owner(panel) + "/layers")}});
    const auto relating = ifc.out.element("RelatingMaterial");
    const auto usage = ifc.out.element(
        "IfcMaterialLayerSetUsage",
        {{"LayerSetDirection", "axis2"}, {"DirectionSense", "positive"}, {"OffsetFromReferenceLine", "0"}});
    ifc.out.reference("ForLayerSet", layer_set_id(panel.type->key));
  }
  ifc.shared_document(std::string(panel.type->fire_document));
  for (const char* document : {"RF-201", "AIR-501", "FPC-601", "LIF-701", "COC-401"}) ifc.shared_document(document);
}

void write_quantities(IfcWriter& ifc, const PlacedPanel& panel) {
  const std::string owner = panel_owner(panel) + "/quantities";
  const auto relation = ifc.out.element("IfcRelDefinesByProperties", {{"GlobalId", global_id(owner + "/defines")}});
  const auto relating = ifc.out.element("RelatingPropertyDefinition");
  const auto set =
      ifc.out.element("IfcElementQuantity", {{"GlobalId", global_id(owner)}, {"Name", "Qto_WallBaseQuantities"}});
  const auto list = ifc.out.element("Quantities");
  const std::pair<const char*, double> lengths[] = {
      {"Length", panel.width_mm}, {"Width", panel.type->thickness_mm()}, {"Height", panel.height_mm}};
  for (const auto& [name, value] : lengths) {
    ifc.out.leaf("IfcQuantityLength", {{"Name", name}, {"LengthValue", mm_text(value)}});
  }
}

void write_definitions(IfcWriter& ifc, const PlacedPanel& panel) {
  const auto defined = ifc.out.element("IsDefinedBy");
  for (const PropertySet& set : panel_records(panel)) ifc.defining_properties(panel_owner(panel), set);
  write_quantities(ifc, panel);
}

void write_filling(IfcWriter& ifc, const PlacedPanel& panel, std::size_t index, const std::string& opening_placement) {
  const FillingSpec& filling = *panel.openings[index].filling;
  const std::string owner = panel_owner(panel) + "/filling-" + std::to_string(index + 1);
  const auto fillings = ifc.out.element("HasFillings");
  const auto relation = ifc.out.element("IfcRelFillsElement", {{"GlobalId", global_id(owner + "/fills")}});
  const auto element = ifc.out.element(
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
  const auto relation = ifc.out.element("IfcRelVoidsElement", {{"GlobalId", global_id(owner + "/voids")}});
  const auto element = ifc.out.element("RelatedOpeningElement", {{"xsi:type", "IfcOpeningElement"},
                                                                 {"GlobalId", global_id(owner)},
                                                                 {"Name", "Opening " + std::to_string(index + 1)},
                                                                 {"PredefinedType", "opening"}});
  ifc.local_placement(opening_placement, placement_id, {{face.x_min, 0.0, face.z_min}});
  ifc.block_shape(face.width(), panel.type->thickness_mm(), face.height());
  write_filling(ifc, panel, index, opening_placement);
}

void write_openings(IfcWriter& ifc, const PlacedPanel& panel, const std::string& placement_id) {
  if (panel.openings.empty()) return;
  const auto openings = ifc.out.element("HasOpenings");
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
  const auto element = ifc.out.element("IfcWall", {{"GlobalId", global_id(owner)},
                                                   {"Name", std::string(panel.type->name)},
                                                   {"ObjectType", std::string(panel.type->key)},
                                                   {"Tag", panel.mark},
                                                   {"PredefinedType", "elementedwall"}});
  write_parts(ifc, panel_content(panel), owner, placement_id, panel.batch);
  write_associations(ifc, panel);
  ifc.typed_by(owner, "IfcWallType", type_id(panel.type->key));
  write_definitions(ifc, panel);
  const Point in_storey{panel.origin.x, panel.origin.y, 0.0};
  ifc.local_placement(placement_id, storey_placement_id, {in_storey, {0.0, 0.0, 1.0}, panel.direction});
  ifc.wall_shape(panel.width_mm, panel.type->thickness_mm(), panel.height_mm);
  write_openings(ifc, panel, placement_id);
}

}  // namespace sample_export
