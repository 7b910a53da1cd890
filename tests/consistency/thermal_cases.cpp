// Wrong projects that the checks of heat, moisture and air must notice.
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

constexpr const char* kWoolName = "Stone wool slab";
constexpr const char* kTimberName = "Structural softwood C24";
constexpr const char* kOsbName = "Oriented strand board OSB/3";
constexpr const char* kPlasterName = "Gypsum plasterboard type F";

constexpr const char* kU = "thermal.u_value";
constexpr const char* kDesign = "thermal.design_values";
constexpr const char* kAir = "thermal.air_permeability";
constexpr const char* kLines = "thermal.linear_transmittance";
constexpr const char* kLoss = "thermal.heat_loss";
constexpr const char* kFactorThere = "thermal.junction_temperature_factor";
constexpr const char* kFactorHere = "thermal.surface_temperature_factor";
constexpr const char* kMouldHere = "thermal.surface_condensation";
constexpr const char* kInside = "thermal.interstitial_condensation";
constexpr const char* kWindows = "thermal.window_u_value";
constexpr const char* kDay = "thermal.dynamic_transmittance";

struct AddedProperty {
  std::string name;
  std::string measure;
  std::string text;
};

/// Puts another set behind each set of the name `beside`, wherever it stands.
void put_set_beside(WrongProject& project, const std::string& beside, const std::string& name,
                    const std::vector<AddedProperty>& added) {
  bool found = false;
  const std::function<void(pugi::xml_node)> visit = [&](pugi::xml_node node) {
    for (pugi::xml_node child = node.first_child(); child; child = child.next_sibling()) visit(child);
    if (std::string_view(node.name()) != "IfcPropertySet" || node.attribute("Name").value() != beside) return;
    found = true;
    pugi::xml_node set = node.parent().insert_copy_after(node, node);
    set.remove_attribute("id");
    std::string id = set.attribute("GlobalId").value();
    std::swap(id[9], id[11]);
    set.attribute("GlobalId").set_value(id.c_str());
    set.attribute("Name").set_value(name.c_str());
    pugi::xml_node properties = set.child("HasProperties");
    properties.remove_children();
    for (const AddedProperty& one : added) {
      pugi::xml_node property = properties.append_child("IfcPropertySingleValue");
      property.append_attribute("Name").set_value(one.name.c_str());
      property.append_child("NominalValue")
          .append_child((one.measure + "-wrapper").c_str())
          .text()
          .set(one.text.c_str());
    }
  };
  visit(project.model);
  if (!found) throw std::logic_error("the sample has no " + beside);
}

/// Frame, glazing and edge for every window of the export, beside its declared U-value of 1.2.
Edit with_window_values(double glass, double frame, double edge, double frame_width_mm) {
  return [=](WrongProject& project) {
    put_set_beside(project, "Pset_WindowCommon", "Panel_Window",
                   {{"GlassTransmittance", "IfcThermalTransmittanceMeasure", shortest_text(glass)},
                    {"FrameTransmittance", "IfcThermalTransmittanceMeasure", shortest_text(frame)},
                    {"EdgeTransmittance", "IfcReal", shortest_text(edge)},
                    {"FrameWidth", "IfcPositiveLengthMeasure", shortest_text(frame_width_mm)}});
  };
}

/// Another set with one property, beside each set of that name.
Edit add_set_beside(std::string beside, std::string name, std::string property, std::string measure, std::string text) {
  return [=](WrongProject& project) { put_set_beside(project, beside, name, {{property, measure, text}}); };
}

nlohmann::json twelve(double value) {
  return nlohmann::json(std::vector<double>(12, value));
}

Edit monthly(std::string name, double value) {
  return set_setting("thermal.monthly." + name, twelve(value));
}

/// Junctions are the long part of a run. Where the case is of another check, the settings of their details are taken
/// away, so that none is solved; no other check reads them.
std::vector<WrongCase> without_needless_junctions(std::vector<WrongCase> cases) {
  for (WrongCase& one : cases) {
    if (one.check == kLines || one.check == kLoss || one.check == kFactorThere || one.check == "refused") continue;
    one.edit = both(std::move(one.edit), drop_setting("thermal.details"));
  }
  return cases;
}

const RegisterWrongCases kThermalCases{without_needless_junctions({
    // The build-up and what insulates.
    {"insulation layers called air", set_layer_category("Insulation", "Air"), kU, "one of them is wrong"},
    {"insulation of another category, air voids of level 2",
     both(both(set_layer_category("Insulation", "Blanket"), set_category(kWoolName, "blanket")),
          both(set_setting("thermal.air_void_level", 2), set_setting("thermal.design_u_w_per_m2k", 0.20))),
     kU, "above what the design asks"},
    {"insulation of no category, air voids of level 2",
     both(both(set_layer_category("Insulation", ""), set_category(kWoolName, "")),
          both(set_setting("thermal.air_void_level", 2), set_setting("thermal.design_u_w_per_m2k", 0.20))),
     kU, "above what the design asks"},
    {"insulation called a membrane, air voids of level 2",
     both(both(set_layer_category("Insulation", "Membrane"), set_category(kWoolName, "plastic")),
          both(set_setting("thermal.air_void_level", 2), set_setting("thermal.design_u_w_per_m2k", 0.20))),
     kU, "outside of the usual 0.1 to 1"},
    {"studs of steel by their conductivity",
     both(set_category(kTimberName, ""),
          set_of_material(kTimberName, "Pset_MaterialThermal.ThermalConductivity", "50")),
     kU, "outside of the usual 0.07 to 0.3"},
    {"insulation layers twice as thick", scale_attribute("IfcMaterialLayer", "LayerThickness", 2.0), kU,
     "is thicker than the panel"},
    {"no conductivity of the wool", drop_property("Pset_MaterialThermal.ThermalConductivity"), kU,
     "has no Pset_MaterialThermal.ThermalConductivity"},
    {"no conductivity, junctions", drop_property("Pset_MaterialThermal.ThermalConductivity"), kLines,
     "thermal.u_value is not assessed"},
    {"no conductivity, heat loss", drop_property("Pset_MaterialThermal.ThermalConductivity"), kLoss,
     "thermal.u_value is not assessed"},
    {"no level of air voids", drop_setting("thermal.air_void_level"), kU, "'thermal.air_void_level' is missing"},
    {"fasteners of which no depth is known", drop_setting("thermal.fasteners_of_unknown_depth"), kU,
     "Panel_Fastener.DepthInInsulation"},
    {"declared U-value far below the calculated one", set_property("Pset_WallCommon.ThermalTransmittance", "0.12"), kU,
     "the declared Pset_WallCommon.ThermalTransmittance of 0.120"},
    {"declared U-value far above the calculated one", set_property("Pset_WallCommon.ThermalTransmittance", "0.9"), kU,
     "the declared Pset_WallCommon.ThermalTransmittance of 0.900"},
    {"declared U-value ten times too low", scale_property("Pset_WallCommon.ThermalTransmittance", 0.1), kU,
     "outside of the usual"},
    {"external panels called internal", set_property("Pset_WallCommon.IsExternal", "false"), kU,
     "Pset_WallCommon.IsExternal is false"},
    // The rule.
    {"no jurisdiction", drop_setting("project.jurisdiction"), kU, "'project.jurisdiction' is missing"},
    {"a jurisdiction without a table", set_setting("project.jurisdiction", "Atlantis"), kU,
     "u_value_limits.csv holds no limit"},
    {"Wales after its last known limit", set_setting("project.jurisdiction", "Wales"), kU,
     "u_value_limits.csv holds no limit"},
    {"Northern Ireland after its last known limit", set_setting("project.jurisdiction", "Northern Ireland"), kU,
     "u_value_limits.csv holds no limit"},
    {"Germany: panels alone show nothing of the envelope", set_setting("project.jurisdiction", "Germany"), kU,
     "mean of all opaque outer parts"},
    {"an assessment before all rules", set_setting("project.assessment_date", "1999-01-01"), kU,
     "u_value_limits.csv holds no limit"},
    {"a design value that no panel keeps", set_setting("thermal.design_u_w_per_m2k", 0.15), kU,
     "above what the design asks of each panel"},
    {"a design value a hundred times too high", set_setting("thermal.design_u_w_per_m2k", 26.0), kU,
     "outside of the usual"},
    {"use of the building not given", drop_setting("project.use"), kFactorHere, "'project.use' is missing"},
    {"a jurisdiction without a least factor", set_setting("project.jurisdiction", "Atlantis"), kFactorHere,
     "surface_factor_limits.csv holds no limit"},
    // Design values.
    {"wool better than its declaration allows",
     set_of_material(kWoolName, "Pset_MaterialThermal.ThermalConductivity", "0.030"), kDesign,
     "its declared value converted to the conditions in use is"},
    {"declared conductivity a third of the design value",
     set_of_material(kWoolName, "Panel_Thermal.DeclaredConductivity", "0.02"), kDesign,
     "they cannot be of one product"},
    {"declared conductivity twice the design value",
     set_of_material(kWoolName, "Panel_Thermal.DeclaredConductivity", "0.066"), kDesign,
     "its declared value converted to the conditions in use is"},
    {"declared conductivity in mW/(m·K)", set_of_material(kWoolName, "Panel_Thermal.DeclaredConductivity", "33"),
     kDesign, "outside of the usual 0.018 to 0.08"},
    {"no declared conductivity of the insulation", drop_property("Panel_Thermal.DeclaredConductivity"), kDesign,
     "names neither its declared value"},
    {"declared at another temperature than can be", set_property("Panel_Thermal.DeclaredTemperature", "90"), kDesign,
     "outside of the usual"},
    {"a class of conversion that no table holds", set_property("Panel_Thermal.ConversionClass", "granite"), kDesign,
     "design_value_conversions.csv has no row 'granite'"},
    {"no temperature in use", drop_setting("thermal.design_mean_temperature_c"), kDesign,
     "'thermal.design_mean_temperature_c' is missing"},
    {"timber better than its table, without a declaration",
     set_of_material(kTimberName, "Pset_MaterialThermal.ThermalConductivity", "0.08"), kDesign,
     "the table's value of 'timber 500' is 0.13"},
    {"board better than its table, without a declaration",
     set_of_material(kOsbName, "Pset_MaterialThermal.ThermalConductivity", "0.1"), kDesign,
     "the table's value of 'OSB 650' is 0.13"},
    {"lining far above its table", set_of_material(kPlasterName, "Pset_MaterialThermal.ThermalConductivity", "0.5"),
     kDesign, "they cannot be of one product"},
    // Windows.
    {"declared window far above its parts", with_window_values(0.6, 0.9, 0.03, 100.0), kWindows,
     "the declared U-value of"},
    {"declared window far below its parts", with_window_values(2.8, 2.2, 0.08, 100.0), kWindows,
     "the declared U-value of"},
    {"a frame that leaves no glazing", with_window_values(1.1, 1.2, 0.04, 650.0), kWindows, "outside of the usual"},
    {"no declared U-value of the windows", drop_property("Pset_WindowCommon.ThermalTransmittance"), kWindows,
     "has no Pset_WindowCommon.ThermalTransmittance"},
    {"no declared U-value of the windows, heat loss", drop_property("Pset_WindowCommon.ThermalTransmittance"), kLoss,
     "has no Pset_WindowCommon.ThermalTransmittance"},
    {"windows ten times too good", scale_property("Pset_WindowCommon.ThermalTransmittance", 0.1), kWindows,
     "outside of the usual"},
    {"windows above the limit", set_property("Pset_WindowCommon.ThermalTransmittance", "2.0"), kWindows,
     "above the limit"},
    {"windows where there is no table", set_setting("project.jurisdiction", "Wales"), kWindows,
     "window_limits.csv holds no limit"},
    // Junctions.
    {"soles of upper panels on the ground",
     add_set_beside("Pset_WallCommon", "Panel_Junction", "Sole", "IfcLabel", "GROUND"), kLines, "is not the lowest"},
    {"no thickness of the slab", drop_setting("thermal.details.slab_thickness_m"), kLines,
     "'thermal.details.slab_thickness_m' is missing"},
    {"slab in mm", set_setting("thermal.details.slab_thickness_m", 275.0), kLines, "outside of the usual"},
    {"slab that hardly conducts", set_setting("thermal.details.slab_conductivity_w_per_mk", 0.023), kFactorThere,
     "outside of the usual"},
    {"edge insulation ten times better",
     set_setting("thermal.details.slab_edge_insulation_conductivity_w_per_mk", 0.0032), kFactorThere,
     "outside of the usual"},
    {"joints in mm", set_setting("thermal.details.joint_width_m", 10.0), kLines, "outside of the usual"},
    {"a window frame outside of the wall", set_setting("thermal.details.window_frame_offset_m", 0.35), kFactorThere,
     "place the frame outside the panel"},
    {"a junction that conducts the wrong way",
     add_set_beside("Pset_WallCommon", "Panel_Junction", "HeadTransmittance", "IfcReal", "-1.5"), kLoss,
     "outside of the usual"},
    // Moisture.
    {"no climate", drop_setting("thermal.climate"), kMouldHere, "'thermal.climate' is missing"},
    {"a climate that no table holds", set_setting("thermal.climate", "the moon"), kMouldHere,
     "climates.csv has no location"},
    {"the climate of another country", set_setting("thermal.climate", "Dublin, Ireland"), kInside,
     "a place in Ireland"},
    {"no humidity of the rooms",
     both(drop_setting("thermal.humidity_class"), drop_setting("thermal.internal_relative_humidity")), kMouldHere,
     "'thermal.internal_relative_humidity' is missing"},
    {"a humidity class that no table holds", set_setting("thermal.humidity_class", "class 9"), kMouldHere,
     "humidity_classes.csv has no class"},
    {"rooms of a clinic as dry as a store", set_setting("thermal.humidity_class", "class 1"), kMouldHere,
     "one of them is wrong"},
    {"rooms without heating", set_setting("thermal.internal_temperature_c", -5.0), kMouldHere,
     "outside of the usual 10 to 30"},
    {"room temperature in kelvin", set_setting("thermal.internal_temperature_c", 293.0), kMouldHere,
     "outside of the usual"},
    {"eleven months of climate",
     both(set_setting("thermal.monthly.external_temperature_c", nlohmann::json(std::vector<double>(11, 5.0))),
          monthly("external_relative_humidity", 0.8)),
     "refused", "external_temperature_c"},
    {"outside humidity without outside temperatures",
     both(drop_setting("thermal.climate"), monthly("external_relative_humidity", 0.8)), kInside,
     "has 0 months, not 12"},
    {"a mild climate by the month beside that of the place",
     both(monthly("external_temperature_c", 20.0), monthly("external_relative_humidity", 0.4)), kMouldHere,
     "both give the climate: keep one"},
    {"a puncture that the vapour control layer does not feel",
     set_setting("thermal.punctured_vapour_control_sd_m", 100.0), kInside, "when whole: one of them is wrong"},
    {"air too damp for its temperature",
     both(drop_setting("thermal.humidity_class"), monthly("internal_relative_humidity", 0.89)), kMouldHere,
     "mould may grow"},
    {"a class and months of humidity", monthly("internal_relative_humidity", 0.3), kMouldHere, "keep one"},
    {"the climate of no place", set_setting("thermal.climate", "maritime example"), kMouldHere,
     "the climate of no place"},
    {"no jurisdiction for the air test", drop_setting("project.jurisdiction"), "thermal.air_permeability",
     "project.jurisdiction"},
    {"a limit on condensate that no table holds", set_setting("thermal.condensate_limit", "sponge"), kInside,
     "has no row 'sponge'"},
    {"no vapour resistances",
     both(drop_property("Pset_MaterialHygroscopic.UpperVaporResistanceFactor"),
          drop_property("Pset_MaterialHygroscopic.LowerVaporResistanceFactor")),
     kInside, "has no Pset_MaterialHygroscopic.UpperVaporResistanceFactor"},
    {"vapour resistances ten thousand times too high",
     scale_of_material(kOsbName, "Pset_MaterialHygroscopic.UpperVaporResistanceFactor", 1e4), kInside,
     "outside of the usual"},
    {"no heat capacities", drop_property("Pset_MaterialThermal.SpecificHeatCapacity"), kDay,
     "has no Pset_MaterialThermal.SpecificHeatCapacity"},
    {"heat capacities in kJ", scale_property("Pset_MaterialThermal.SpecificHeatCapacity", 0.001), "refused",
     "cannot be"},
    // Air.
    {"no air test", drop_property("Panel_Air.PermeabilityQ50"), kAir, "no measured air permeability"},
    {"no report of the air test", drop_property("Panel_Air.DocumentId"), kAir, "names no test report"},
    {"a report of the air test that is not there", set_property("Panel_Air.DocumentId", "AIR-999"), kAir,
     "no document of the export has the identification 'AIR-999'"},
    {"a fire test as report of the air test", set_property("Panel_Air.DocumentId", "FT-101"), kAir,
     "needed: air test report"},
    {"air permeability in m/s", scale_property("Panel_Air.PermeabilityQ50", 1.0 / 3600.0), kAir,
     "outside of the usual"},
    {"leaky panels", scale_property("Panel_Air.PermeabilityQ50", 10.0), kAir, "find and seal the leaks"},
    {"no place for the limit of an air test",
     both(drop_setting("thermal.design_q50_m3_per_hm2"), set_setting("project.jurisdiction", "Germany")), kAir,
     "air_permeability_limits.csv holds no limit"},
})};

}  // namespace

}  // namespace panel_dossier::consistency
