// Wrong projects that the checks of wind, frame, sheathing, lifting and fixings must notice.
#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "tests/consistency/wrong_project.h"

namespace panel_dossier::consistency {

namespace {

constexpr const char* kFrameTimber = "Structural softwood C24";

constexpr const char* kPressure = "structural.wind_pressure";
constexpr const char* kBending = "structural.stud_bending";
constexpr const char* kStability = "structural.stud_stability";
constexpr const char* kShear = "structural.stud_shear";
constexpr const char* kDeflection = "structural.deflection";
constexpr const char* kSoleBearing = "structural.bearing";
constexpr const char* kRails = "structural.rail_bending";
constexpr const char* kLintels = "structural.lintel_bending";
constexpr const char* kRacking = "structural.racking";
constexpr const char* kSheathingFixings = "structural.sheathing_fixings";
constexpr const char* kBarrier = "structural.fall_barrier";
constexpr const char* kBrackets = "structural.frame_fixings";
constexpr const char* kMovement = "structural.frame_movement";
constexpr const char* kCladdingHeld = "structural.cladding_fixings";
constexpr const char* kLifting = "structural.lifting";
constexpr const char* kCrane = "structural.crane_capacity";
constexpr const char* kVehicle = "structural.transport_size";

struct StatedValue {
  std::string name;
  std::string measure;
  std::string text;
};

/// GlobalIds that no generator makes, one after the other.
std::string next_global_id() {
  static int count = 0;
  std::string number = std::to_string(++count);
  return "3wrongproject" + std::string(9 - number.size(), '0') + number;
}

void visit_nodes(pugi::xml_node node, const std::function<void(pugi::xml_node)>& visit) {
  for (pugi::xml_node child = node.first_child(); child;) {
    const pugi::xml_node next = child.next_sibling();
    visit_nodes(child, visit);
    visit(child);
    child = next;
  }
}

void append_set(pugi::xml_node into, const std::string& set, const std::vector<StatedValue>& values) {
  pugi::xml_node added = into.append_child("IfcPropertySet");
  added.append_attribute("GlobalId").set_value(next_global_id().c_str());
  added.append_attribute("Name").set_value(set.c_str());
  pugi::xml_node properties = added.append_child("HasProperties");
  for (const StatedValue& one : values) {
    pugi::xml_node property = properties.append_child("IfcPropertySingleValue");
    property.append_attribute("Name").set_value(one.name.c_str());
    property.append_child("NominalValue").append_child((one.measure + "-wrapper").c_str()).text().set(one.text.c_str());
  }
}

/// A set of these for every type of panel, behind those that it has.
Edit state_of_types(std::string set, std::vector<StatedValue> values) {
  return [=](WrongProject& project) {
    bool found = false;
    visit_nodes(project.model, [&](pugi::xml_node node) {
      if (std::string_view(node.name()) != "IfcWallType" || !node.child("HasPropertySets")) return;
      found = true;
      append_set(node.child("HasPropertySets"), set, values);
    });
    if (!found) throw std::logic_error("the sample has no type of panel with property sets");
  };
}

Edit state_structure(std::string name, std::string measure, std::string text) {
  return state_of_types("Panel_Structure", {{std::move(name), std::move(measure), std::move(text)}});
}

/// Of the members whose Name begins so.
Edit state_of_members(std::string member, std::string set, StatedValue value) {
  return [=](WrongProject& project) {
    bool found = false;
    visit_nodes(project.model, [&](pugi::xml_node node) {
      if (std::string_view(node.name()) != "IfcMember" ||
          !std::string_view(node.attribute("Name").value()).starts_with(member)) {
        return;
      }
      found = true;
      pugi::xml_node relation = node.child("IsDefinedBy").append_child("IfcRelDefinesByProperties");
      relation.append_attribute("GlobalId").set_value(next_global_id().c_str());
      append_set(relation.append_child("RelatingPropertyDefinition"), set, {value});
    });
    if (!found) throw std::logic_error("the sample has no member " + member);
  };
}

/// Members of this name become parts of no kind that the frame has; others may refer to their shapes.
Edit call_no_member(std::string member) {
  return [=](WrongProject& project) {
    bool found = false;
    visit_nodes(project.model, [&](pugi::xml_node node) {
      if (std::string_view(node.name()) != "IfcMember" ||
          !std::string_view(node.attribute("Name").value()).starts_with(member)) {
        return;
      }
      found = true;
      node.remove_attribute("ObjectType");
      node.remove_attribute("PredefinedType");
      node.append_attribute("ObjectType").set_value("SPACER");
      node.append_attribute("PredefinedType").set_value("userdefined");
    });
    if (!found) throw std::logic_error("the sample has no member " + member);
  };
}

Edit drill(std::string holes) {
  return state_of_members("Stud", "Panel_Member", {"Holes", "IfcText", std::move(holes)});
}

/// The first solid that a member of this name holds itself, which others share by reference.
Edit reshape(std::string member, void (*change)(pugi::xml_node)) {
  return [=](WrongProject& project) {
    pugi::xml_node solid;
    visit_nodes(project.model, [&](pugi::xml_node node) {
      if (solid || std::string_view(node.name()) != "IfcMember" ||
          !std::string_view(node.attribute("Name").value()).starts_with(member)) {
        return;
      }
      visit_nodes(node, [&](pugi::xml_node inner) {
        if (!solid && std::string_view(inner.name()) == "IfcExtrudedAreaSolid") solid = inner;
      });
    });
    if (!solid) throw std::logic_error("the sample has no solid of a member " + member);
    change(solid);
  };
}

void place_profile(pugi::xml_node solid, const char* at, const char* axis, const char* reference) {
  pugi::xml_node position = solid.insert_child_after("Position", solid.child("SweptArea"));
  position.append_child("Location").append_attribute("Coordinates").set_value(at);
  if (axis == nullptr) return;
  position.append_child("Axis").append_attribute("DirectionRatios").set_value(axis);
  position.append_child("RefDirection").append_attribute("DirectionRatios").set_value(reference);
}

/// Flanges 45 x 39 and a web 8 thick in place of 45 x 220.
void make_of_three_solids(pugi::xml_node solid) {
  const pugi::xml_node parent = solid.parent();
  pugi::xml_node items = parent;
  for (const char* at : {"0 90.5 0", "0 -90.5 0"}) {
    pugi::xml_node flange = items.append_copy(solid);
    flange.child("SweptArea").attribute("YDim").set_value("39");
    place_profile(flange, at, nullptr, nullptr);
  }
  solid.child("SweptArea").attribute("XDim").set_value("8");
  solid.child("SweptArea").attribute("YDim").set_value("142");
}

/// Two pieces of 22.5 x 220 side by side, which fill the box of one.
void make_of_two_halves(pugi::xml_node solid) {
  pugi::xml_node half = solid.parent().append_copy(solid);
  for (pugi::xml_node one : {solid, half}) one.child("SweptArea").attribute("XDim").set_value("22.5");
  place_profile(solid, "-11.25 0 0", nullptr, nullptr);
  place_profile(half, "11.25 0 0", nullptr, nullptr);
}

/// Drawn from its side: distances along a stud 45 x 220 and through the wall, from its axis.
void draw_side(pugi::xml_node solid, const std::vector<std::string>& corners) {
  pugi::xml_node area = solid.child("SweptArea");
  area.attribute("xsi:type").set_value("IfcArbitraryClosedProfileDef");
  area.remove_attribute("XDim");
  area.remove_attribute("YDim");
  pugi::xml_node curve = area.append_child("OuterCurve");
  curve.append_attribute("xsi:type").set_value("IfcPolyline");
  pugi::xml_node points = curve.append_child("Points");
  for (const std::string& at : corners) {
    points.append_child("IfcCartesianPoint").append_attribute("Coordinates").set_value(at.c_str());
  }
  place_profile(solid, "-22.5 0 0", "1 0 0", "0 0 1");
  solid.attribute("Depth").set_value("45");
}

/// A notch of 60 mm to half of the depth at the middle.
void notch_to_half(pugi::xml_node solid) {
  const double length = solid.attribute("Depth").as_double();
  const std::string upper = shortest_text(length / 2.0 + 30.0);
  const std::string lower = shortest_text(length / 2.0 - 30.0);
  const std::string end = shortest_text(length);
  draw_side(solid, {"0 -110", end + " -110", end + " 110", upper + " 110", upper + " 0", lower + " 0", lower + " 110",
                    "0 110", "0 -110"});
}

/// A square notch of 20 mm at the foot that leaves 20 mm of the depth.
void notch_the_foot(pugi::xml_node solid) {
  const std::string end = shortest_text(solid.attribute("Depth").as_double());
  draw_side(solid, {"0 -110", end + " -110", end + " 110", "20 110", "20 -90", "0 -90", "0 -110"});
}

/// Two parts, the first of these moved up by 100 mm and one like it where it stood.
Edit overlap(const char* entity, const char* name) {
  return both(double_first_part(entity, name), move_first_part(entity, name, 2, 100.0));
}

/// All panels load-bearing, with loads on their heads and this racking load in N.
Edit make_bracing_panels(const std::string& racking_n) {
  std::vector<StatedValue> loads{{"PermanentLineLoad", "IfcLinearForceMeasure", "8000"},
                                 {"VariableLineLoad", "IfcLinearForceMeasure", "6000"},
                                 {"VariableLoadCategory", "IfcLabel", "C"}};
  if (!racking_n.empty()) loads.push_back({"RackingLoad", "IfcForceMeasure", racking_n});
  return both(both(set_property("Pset_WallCommon.LoadBearing", "true"),
                   set_property("Panel_Identity.Arrangement", "LOADBEARING")),
              state_of_types("Panel_Structure", loads));
}

const RegisterWrongCases kStructuralCases{{
    // Wind.
    {"a given wind pressure far below the zones", state_structure("DesignWindPressure", "IfcPressureMeasure", "250"),
     kPressure, "lower by more than 5 %"},
    {"a given wind pressure far below the zones, studs",
     state_structure("DesignWindPressure", "IfcPressureMeasure", "250"), kBending,
     "structural.wind_pressure is not assessed: Panel_Structure.DesignWindPressure of 250"},
    {"a given wind pressure in kPa", state_structure("DesignWindPressure", "IfcPressureMeasure", "1"), kPressure,
     "Panel_Structure.DesignWindPressure"},
    {"a pressure coefficient below the zones", set_setting("structural.wind.external_pressure_coefficient", 0.6),
     kPressure, "but the wind zones of the façade"},
    {"a pressure coefficient below the zones, lintels",
     set_setting("structural.wind.external_pressure_coefficient", 0.6), kLintels,
     "structural.wind_pressure is not assessed"},
    {"a pressure coefficient ten times too low", set_setting("structural.wind.external_pressure_coefficient", 0.1),
     kDeflection, "structural.wind.external_pressure_coefficient"},
    {"wind a thousand times too slow", set_setting("structural.wind.basic_velocity_m_per_s", 0.0225), kStability,
     "structural.wind.basic_velocity_m_per_s"},
    {"wind in km/h", set_setting("structural.wind.basic_velocity_m_per_s", 81.0), kShear,
     "structural.wind.basic_velocity_m_per_s"},
    {"no wind velocity", drop_setting("structural.wind.basic_velocity_m_per_s"), kRails,
     "structural.wind.basic_velocity_m_per_s"},
    {"no terrain", drop_setting("structural.wind.terrain_category"), kBending, "structural.wind.terrain_category"},
    {"an internal pressure of the other sign", set_setting("structural.wind.internal_pressure_maximum", -0.2), kBending,
     "structural.wind.internal_pressure_maximum"},
    {"no height of the building, studs", drop_setting("building.height_m"), kBending, "building.height_m"},
    {"a building shorter than its row of panels", set_setting("building.width_m", 4.0), kBending, "building.width_m"},
    {"no national annex", drop_setting("structural.national_annex"), kBending, "structural.national_annex"},
    // What the panel carries.
    {"load-bearing panels without loads", set_property("Pset_WallCommon.LoadBearing", "true"), kBending,
     "Pset_WallCommon.LoadBearing is true"},
    {"load-bearing panels without loads, of no stated arrangement",
     both(set_property("Pset_WallCommon.LoadBearing", "true"), drop_property("Panel_Identity.Arrangement")), kStability,
     "Panel_Structure.PermanentLineLoad of a load-bearing panel"},
    {"a load on the head of panels that carry none",
     state_structure("PermanentLineLoad", "IfcLinearForceMeasure", "8000"), kStability,
     "and contradicts Panel_Structure.PermanentLineLoad of 8000 N/m"},
    {"a racking load on panels that carry none", state_structure("RackingLoad", "IfcForceMeasure", "2800"), kRacking,
     "and contradicts Panel_Structure.RackingLoad of 2800 N"},
    {"nobody says whether panels are load-bearing", drop_property("Pset_WallCommon.LoadBearing"), kShear,
     "Pset_WallCommon.LoadBearing"},
    {"arranged as load-bearing, which they are not", set_property("Panel_Identity.Arrangement", "LOADBEARING"),
     kBending, "and contradicts Panel_Identity.Arrangement LOADBEARING"},
    {"load-bearing panels without a racking load", make_bracing_panels(""), kRacking,
     "Panel_Structure.RackingLoad of a load-bearing panel"},
    {"bracing panels without a method", both(make_bracing_panels("2800"), drop_setting("structural.racking_method")),
     kRacking, "structural.racking_method"},
    {"bracing panels whose screws say little", make_bracing_panels("2800"), kSheathingFixings,
     "Panel_Fastener.EdgeDistance"},
    {"a category of load that no table holds",
     both(make_bracing_panels("0"), set_property("Panel_Structure.VariableLoadCategory", "Q")), kSoleBearing,
     "no combination factor for category 'Q'"},
    {"supports 36 m apart", state_structure("SupportSpacing", "IfcPositiveLengthMeasure", "36000"), kDeflection,
     "Panel_Structure.SupportSpacing"},
    {"more above the support than there is panel",
     state_structure("TopProjection", "IfcNonNegativeLengthMeasure", "3700"), kBending,
     "Panel_Structure.TopProjection must be less than the height of the panel"},
    // Barriers against falling.
    {"nobody says what stops persons from falling", drop_property("Panel_Structure.BarrierLoadCategory"), kBarrier,
     "nobody says whether the panel"},
    {"a barrier of no known category", set_property("Panel_Structure.BarrierLoadCategory", "C9"), kBending,
     "Panel_Structure.BarrierLoadCategory"},
    {"a load of persons below that of its category",
     both(set_property("Panel_Structure.BarrierLoadCategory", "C5"),
          state_structure("BarrierLineLoad", "IfcLinearForceMeasure", "250")),
     kBending, "of category C5"},
    {"a stud held every hand's breadth", set_setting("structural.support_spacing_m", 0.36), kBending,
     "outside of the usual"},
    {"a barrier without its height", set_property("Panel_Structure.BarrierLoadCategory", "C1"), kBending,
     "Panel_Structure.BarrierHeight or setting structural.barrier_height_m"},
    {"a load of persons without its category",
     both(drop_property("Panel_Structure.BarrierLoadCategory"),
          state_structure("BarrierLineLoad", "IfcLinearForceMeasure", "740")),
     kRails, "Panel_Structure.BarrierLoadCategory of a panel with BarrierLineLoad"},
    {"no barrier that has a load of persons", state_structure("BarrierLineLoad", "IfcLinearForceMeasure", "740"),
     kBarrier, "contradicts Panel_Structure.BarrierLineLoad"},
    {"a barrier higher than its panel",
     both(set_property("Panel_Structure.BarrierLoadCategory", "C1"),
          state_structure("BarrierHeight", "IfcPositiveLengthMeasure", "11000")),
     kBending, "BarrierHeight"},
    // Members.
    {"studs half as long", scale_length("IfcMember", "Stud", 0.5), kBending, "meets no rail or other framing member"},
    {"studs of three solids", reshape("Stud", make_of_three_solids), kShear, "is of several solids"},
    {"studs of two pieces side by side", reshape("Stud", make_of_two_halves), kBending, "is of several solids"},
    {"studs with a short notch at the foot", reshape("Stud", notch_the_foot), kShear, "shear stress exceeds"},
    {"two linings in one place", overlap("IfcPlate", "Inner lining 02"), kDeflection, "take up the same room over"},
    {"two slabs of insulation in one place", overlap("IfcBuildingElementPart", "Insulation slab 02"), kStability,
     "take up the same room over"},
    {"studs notched to half of their depth", reshape("Stud", notch_to_half), kShear,
     "a notch between its ends leaves 110 mm"},
    {"a hole of 200 mm in studs", drill("200@1500"), kBending, "is larger than a quarter of 220 mm"},
    {"a hole at the foot of studs", drill("20@50"), kStability, "is nearer to an end than 220 mm"},
    {"holes that nobody can read", drill("20 mm in the middle"), kShear, "is not diameter@distance in mm"},
    {"a hole beyond the end of studs", drill("20@9999"), kBending, "cannot hold the hole of 20 mm"},
    {"a hole in lintels", state_of_members("Inner lintel", "Panel_Member", {"Holes", "IfcText", "80@600"}), kLintels,
     "is larger than a quarter of 195 mm"},
    {"no lintels", both(drop_parts("IfcMember", "Inner lintel"), drop_parts("IfcMember", "Outer lintel")), kLintels,
     "meets no rail or other framing member at its lower end"},
    {"no rails", both(call_no_member("Sole rail"), call_no_member("Head rail")), kSoleBearing,
     "meets no rail or other framing member"},
    {"a strength class that no table holds", set_of_material(kFrameTimber, "Pset_MaterialWood.StrengthGrade", "C99"),
     kBending, "but Panel_Timber.StrengthClass of the same is 'C24'"},
    {"a service class that does not exist", set_setting("structural.service_class", 4), "refused", "service_class"},
    {"no service class", both(drop_setting("structural.service_class"), drop_property("Panel_Timber.ServiceClass")),
     kShear, "service class"},
    {"a limit of deflection of a billionth", set_setting("structural.deflection_limit_ratio", 1e-9), kDeflection,
     "structural.deflection_limit_ratio"},
    {"no limit of deflection", drop_setting("structural.deflection_limit_ratio"), kDeflection,
     "structural.deflection_limit_ratio"},
    // The way of suction from the cladding.
    {"heads of cladding screws without a pull-through", drop_property("Panel_Fastener.HeadPullThrough"), kCladdingHeld,
     "has no Panel_Fastener.HeadPullThrough"},
    {"heads a thousandth as strong", scale_property("Panel_Fastener.HeadPullThrough", 0.001), kCladdingHeld,
     "Panel_Fastener.HeadPullThrough"},
    {"cladding screws that declare nothing", drop_property("Panel_Fastener.WithdrawalCapacity"), kCladdingHeld,
     "has neither Panel_Fastener.WithdrawalCapacity nor"},
    {"screws of cladding and battens closer than their count", scale_property("Panel_Fastener.Spacing", 0.3),
     kCladdingHeld, "ask for some"},
    {"screws of cladding and battens far apart", scale_property("Panel_Fastener.Spacing", 4.0), kCladdingHeld,
     "is beyond what is allowed"},
    // Lifting, crane and vehicle.
    {"lifting points of a thousandth", scale_property("Panel_Fastener.WorkingLoadLimit", 0.001), kLifting,
     "Panel_Fastener.WorkingLoadLimit"},
    {"lifting points without a limit", drop_property("Panel_Fastener.WorkingLoadLimit"), kLifting,
     "has no Panel_Fastener.WorkingLoadLimit"},
    {"slings flatter than any table", set_setting("structural.lifting.sling_angle_deg", 75.0), kLifting,
     "structural.lifting.sling_angle_deg"},
    {"no angle of the slings", drop_setting("structural.lifting.sling_angle_deg"), kLifting,
     "structural.lifting.sling_angle_deg"},
    {"a dynamic factor below 1", set_setting("structural.lifting.dynamic_factor", 0.9), "refused", "dynamic_factor"},
    {"a dynamic factor in per cent", set_setting("structural.lifting.dynamic_factor", 130.0), kLifting,
     "structural.lifting.dynamic_factor"},
    {"nobody says whether the slings share the load", drop_setting("structural.lifting.equalised"), kLifting,
     "structural.lifting.equalised"},
    {"timber a tenth as dense", scale_of_material(kFrameTimber, "Pset_MaterialCommon.MassDensity", 0.1), kLifting,
     "Pset_MaterialCommon.MassDensity"},
    {"a crane's table in tonnes", set_setting("structural.crane.capacities.0.capacity_kg", 6.0), kCrane, "capacity_kg"},
    {"no lifting gear", drop_setting("structural.crane.gear_kg"), kCrane, "structural.crane.gear_kg"},
    {"a crane at a place in mm", set_setting("structural.crane.x_m", -8000.0), kCrane,
     "beyond the largest radius of the crane's table"},
    {"a vehicle in mm", set_setting("structural.transport.bed_length_m", 13600.0), kVehicle,
     "structural.transport.bed_length_m"},
    {"a payload in tonnes", set_setting("structural.transport.payload_kg", 24.0), kVehicle,
     "structural.transport.payload_kg"},
    // What holds the panel to the frame.
    {"brackets that do not make whole rows", drop_parts("IfcDiscreteAccessory", "Frame bracket 7"), kBrackets,
     "do not make whole rows"},
    {"a bracket in the void of a window",
     both(move_first_part("IfcDiscreteAccessory", "Frame bracket 12", 0, -3210.0),
          move_first_part("IfcDiscreteAccessory", "Frame bracket 12", 2, -2030.0)),
     kBrackets, "hangs in opening"},
    {"brackets further apart than stated", scale_property("Panel_Fastener.Spacing", 0.9), kBrackets, "mm apart"},
    {"brackets of a thousandth", scale_property("Panel_Fastener.DesignTension", 0.001), kBrackets,
     "Panel_Fastener.DesignTension"},
    {"brackets without resistance in shear", drop_property("Panel_Fastener.DesignShear"), kBrackets,
     "has no Panel_Fastener.DesignShear"},
    {"screws in cm", scale_property("Panel_Fastener.ScrewDiameter", 0.1), kBrackets, "Panel_Fastener.ScrewDiameter"},
    {"no adjustment of brackets", drop_property("Panel_Fastener.Adjustment"), kMovement,
     "has no Panel_Fastener.Adjustment"},
    {"movement of the frame in mm", set_setting("structural.frame.deflection_m", 12.0), kMovement,
     "structural.frame.deflection_m"},
    {"no gap to the frame", drop_setting("structural.frame.gap_m"), kBrackets, "structural.frame.gap_m"},
}};

}  // namespace

}  // namespace panel_dossier::consistency
