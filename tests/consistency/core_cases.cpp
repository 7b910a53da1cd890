// Wrong projects that the intake itself must notice.
#include "tests/consistency/wrong_project.h"

namespace panel_dossier::consistency {

namespace {

constexpr const char* kStoneWool = "Stone wool slab";
constexpr const char* kTimberC24 = "Structural softwood C24";
constexpr const char* kStrandBoard = "Oriented strand board OSB/3";

const RegisterWrongCases kCoreCases{{
    {"stone wool ten times better", scale_of_material(kStoneWool, "Pset_MaterialThermal.ThermalConductivity", 0.1),
     "thermal.u_value", "outside of the usual 0.018 to 0.08"},
    {"stone wool ten times worse", scale_of_material(kStoneWool, "Pset_MaterialThermal.ThermalConductivity", 10.0),
     "thermal.u_value", "outside of the usual"},
    {"timber ten times better", scale_of_material(kTimberC24, "Pset_MaterialThermal.ThermalConductivity", 0.1),
     "thermal.u_value", "outside of the usual"},
    {"timber in g/cm³", scale_of_material(kTimberC24, "Pset_MaterialCommon.MassDensity", 0.001), "refused",
     "cannot be"},
    {"timber ten times lighter", scale_of_material(kTimberC24, "Pset_MaterialCommon.MassDensity", 0.1),
     "structural.lifting", "outside of the usual 280 to 1100"},
    {"board ten times lighter", scale_of_material(kStrandBoard, "Pset_MaterialCommon.MassDensity", 0.1),
     "quantities.mass", "outside of the usual"},
    {"all densities ten times too low", scale_property("Pset_MaterialCommon.MassDensity", 0.1),
     "structural.crane_capacity", "outside of the usual"},
    {"negative conductivity", set_of_material(kStoneWool, "Pset_MaterialThermal.ThermalConductivity", "-0.034"),
     "refused", "cannot be"},
    {"two strength classes on one material", set_of_material(kTimberC24, "Panel_Timber.StrengthClass", "C30"),
     "structural.stud_bending", "C24"},
    {"top storey lower than the storeys", set_setting("building.top_storey_height_m", 2.0),
     "fire.external_wall_material", "lies"},
    {"building lower than its panels", set_setting("building.height_m", 2.5), "structural.wind_pressure",
     "the highest panel"},
    {"building narrower than its panels", set_setting("building.width_m", 2.4), "structural.wind_pressure",
     "reach over"},
    {"the ground at half a storey", set_setting("building.ground_level_m", 3.1), "structural.wind_pressure",
     "the lowest panel"},
    {"gypsum without a category ten times better",
     both(set_category("Gypsum plasterboard type F", ""),
          scale_of_material("Gypsum plasterboard type F", "Pset_MaterialThermal.ThermalConductivity", 0.1)),
     "thermal.u_value", "outside of the usual"},
    {"timber without a category ten times lighter",
     both(set_category(kTimberC24, ""), scale_of_material(kTimberC24, "Pset_MaterialCommon.MassDensity", 0.1)),
     "structural.lifting", "outside of the usual"},
    {"lifting points ten times stronger", scale_property("Panel_Fastener.WorkingLoadLimit", 10.0), "structural.lifting",
     "outside of the usual"},
    {"basic velocity in km/s", set_setting("structural.wind.basic_velocity_m_per_s", 0.0225),
     "structural.wind_pressure", "outside of the usual 15 to 60"},
    {"deflection limit of nothing", set_setting("structural.deflection_limit_ratio", 1e-9), "structural.deflection",
     "outside of the usual"},
    {"all insulation slabs gone", drop_parts("IfcBuildingElementPart", "Insulation"), "thermal.u_value", "unfilled"},
    {"one sheet of board gone", drop_first_part("IfcPlate", ""), "fire.resistance_integrity_insulation", "unfilled"},
    {"all framing gone", drop_parts("IfcMember", ""), "thermal.u_value", "without a framing member"},
    {"studs a third as long", scale_length("IfcMember", "Stud", 0.3), "thermal.u_value", "unfilled"},
    {"a stud drawn twice", double_first_part("IfcMember", "Stud"), "structural.stud_bending", "is there twice"},
    {"studs clipped to a third of their length", clip_length("IfcMember", "Stud", 0.3), "thermal.u_value", "unfilled"},
    {"studs of a shape that is not read", rename_shapes("IfcMember", "Stud", "IfcRevolvedAreaSolid"), "thermal.u_value",
     "unfilled"},
    {"a roof above the building", add_element("IfcRoof", "Main roof", "", {{0, 0, 13800}, {24390, 12390, 14200}}),
     "structural.wind_pressure", "roof 'Main roof' of the export ends 14.20 m"},
    {"a building lower than stated", set_setting("building.height_m", 30.0), "structural.wind_pressure",
     "nothing of the export, which has a roof, ends more than",
     add_element("IfcRoof", "Main roof", "", {{0, 0, 10400}, {24390, 12390, 10800}})},
    {"a wall of the core above the building",
     add_element("IfcWall", "Core", "", {{5000, 5000, 0}, {8000, 5200, 16000}}), "structural.wind_pressure",
     "wall 'Core' of the export ends 16.00 m"},
    {"a floor twice as long as the building",
     add_element("IfcSlab", "Floor", "floor", {{0, 0, -275}, {48780, 12390, 0}}), "structural.wind_pressure",
     "slabs of the export reach over"},
    {"terrain above the ground",
     add_element("IfcGeographicElement", "Hill", "terrain", {{0, 0, 4000}, {9000, 9000, 6000}}),
     "structural.wind_pressure", "the terrain of the export lies between 4.00 m and 6.00 m"},
    {"a floor slab half as thick again", add_element("IfcSlab", "Floor", "floor", {{0, 0, -450}, {24390, 12390, 0}}),
     "thermal.linear_transmittance", "slab 'Floor' of the export beside the panel is 0.450 m thick"},
    {"rules that leave no panel",
     set_setting("intake.panels", nlohmann::json::array({{{"use", "exclude"}, {"type_name", "*"}}})), "refused",
     "the project has no panels"},
    {"a rule for a kind of element that is never a panel",
     set_setting("intake.panels", nlohmann::json::array({{{"use", "include"}, {"entity", "IfcDoor"}}})), "refused",
     "intake.panels.0.entity"},
    {"a stud beside the panel", move_first_part("IfcMember", "Stud", 0, 3000.0), "refused", "out of its panel"},
}};

}  // namespace

}  // namespace panel_dossier::consistency
