// Cases of the U-value and of the total resistance, of a panel and of the project.
#include <numbers>
#include <string>

#include "core/api/support/words.h"
#include "core/api/testing/check_cases.h"
#include "core/api/testing/panels.h"
#include "core/api/testing/properties.h"
#include "tests/thermal/insulated_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kUValue = "thermal.u_value";
constexpr const char* kRValue = "thermal.r_value";
constexpr const char* kPermeability = "thermal.air_permeability";
constexpr const char* kSurface = "thermal.surface_temperature_factor";
constexpr const char* kJunctions = "thermal.junction_temperature_factor";

/// Resistances of the insulated panel without its studs.
constexpr double kBetterWool = 0.140 / kBetterWool_w_per_mk;
constexpr double kBetterShareSquared =
    (kBetterWool / (kOtherResistance + kBetterWool)) * (kBetterWool / (kOtherResistance + kBetterWool));

/// (R_1 / R_tot,h)² with wool of this λ.
double share_squared(double conductivity) {
  const double wool = 0.140 / conductivity;
  return (wool / (kOtherResistance + wool)) * (wool / (kOtherResistance + wool));
}

double plain_u() {
  return u_with_wool(kBetterWool_w_per_mk);
}

std::string above(const std::string& what, double u, const std::string& limit = "the limit of 0.26") {
  return what + " of " + fixed_text(u, 4) + " W/(m²·K) is above " + limit +
         "; more insulation or less framing is needed";
}

/// The rule of this place alone: no design value, and a climate that fits any place.
Change by_the_rule_of(const std::string& place) {
  return together({drop_setting("thermal.design_u_w_per_m2k"), set_setting("project.jurisdiction", place)});
}

Change declared(double u) {
  return set_of_panels("Pset_WallCommon.ThermalTransmittance", u);
}

std::string not_as_declared(const std::string& value, double u) {
  return "the declared Pset_WallCommon.ThermalTransmittance of " + value +
         " W/(m²·K) (IfcPropertySingleValue Pset_WallCommon.ThermalTransmittance, 0000000000000000000001, line 7) and "
         "the " +
         fixed_text(u, 3) +
         " worked out from layers and parts differ by more than rounding (0.005) and the framing of the panels of a "
         "type "
         "(15 % below) explain: one of them is wrong";
}

/// Words of layer and material that no rule knows.
Change in_other_words(const std::string& word) {
  return [word](Project& project, Settings&) {
    project.panels.front().layers[1].category = word;
    project.materials[kWoolMaterial].category = word;
  };
}

/// Steel screws of 6 mm through the wool from face to face.
Change with_screws(int count) {
  return [count](Project& project, Settings&) {
    Part screws;
    screws.name = "Long screws";
    screws.kind = PartKind::fastener;
    screws.material = add_material(project, "steel", "steel", 7800.0, 50.0);
    screws.count = count;
    screws.origin = origin_of("IfcMechanicalFastener");
    put(screws.properties, "Panel_Fastener", "Diameter", 0.006);
    put(screws.properties, "Panel_Fastener", "DepthInInsulation", 0.140);
    project.panels.front().parts.push_back(screws);
  };
}

/// ΔU_f of so many of them (EN ISO 6946:2017, F.3).
double screws_by_hand(int count) {
  const double section_m2 = std::numbers::pi * 0.003 * 0.003;
  return 0.8 / 0.140 * 50.0 * section_m2 * (count / 6.48) * kBetterShareSquared;
}

Change with_cavity(std::optional<double> openings_mm2_per_m) {
  return change_panels([openings_mm2_per_m](Panel& panel) {
    Layer& layer = add_layer(panel, "cavity", "air", std::nullopt, 0.025);
    if (openings_mm2_per_m) put(layer.properties, "Panel_AirLayer", "OpeningArea", *openings_mm2_per_m);
  });
}

std::string metal_studs() {
  std::string reason;
  for (int stud = 1; stud <= 5; ++stud) {
    reason += (stud == 1 ? "stud 'Stud " : "; stud 'Stud ") + std::to_string(stud) +
              "' is of metal; the combined method is not valid where metal bridges insulation";
  }
  return reason;
}

const RegisterCases kUValueCases{
    {.check = kUValue,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::pass, .value = plain_u()},
         {.label = "just under the limit",
          .change = set_wool(wool_for(0.26 - 1e-6)),
          .verdict = Verdict::pass,
          .value = 0.26 - 1e-6,
          .also_moves = {"*"}},
         {.label = "just over the limit",
          .change = set_wool(wool_for(0.26 + 1e-6)),
          .verdict = Verdict::fail,
          .value = 0.26 + 1e-6,
          .reason = above("U", 0.26, "what the design asks of each panel, 0.26"),
          .also_moves = {"*"}},
         {.label = "a rule on the average of all walls asks nothing of one",
          .change = together({set_wool(0.05), drop_setting("thermal.design_u_w_per_m2k")}),
          .verdict = Verdict::information,
          .value = u_with_wool(0.05),
          .also_moves = {"*"}},
         {.label = "a rule on the average with a limit on a single wall",
          .change = together({set_wool(wool_for(0.7 - 1e-6)), by_the_rule_of("Scotland")}),
          .verdict = Verdict::pass,
          .value = 0.7 - 1e-6,
          .also_moves = {"*"}},
         {.label = "a wall above that limit",
          .change = together({set_wool(wool_for(0.7 + 1e-6)), by_the_rule_of("Scotland")}),
          .verdict = Verdict::fail,
          .value = 0.7 + 1e-6,
          .reason = above("U", 0.7, "the limit on a single wall of 0.70"),
          .also_moves = {"*"}},
         {.label = "a design value above that limit does not replace it",
          .change = together({set_wool(wool_for(0.65)), set_setting("project.jurisdiction", "Ireland"),
                              set_setting("thermal.design_u_w_per_m2k", 0.8)}),
          .verdict = Verdict::fail,
          .value = 0.65,
          .tolerance = 1e-9,
          .why_tolerance = "λ is found by bisection",
          .reason = above("U", 0.65, "the limit on a single wall of 0.60"),
          .also_moves = {"*"}},
         {.label = "the last day of a limit on each wall",
          .change = together({set_wool(wool_for(0.35 - 1e-6)), by_the_rule_of("Northern Ireland"),
                              set_setting("project.assessment_date", "2022-06-29")}),
          .verdict = Verdict::pass,
          .value = 0.35 - 1e-6,
          .also_moves = {"*"}},
         {.label = "just over a limit on each wall",
          .change = together({set_wool(wool_for(0.35 + 1e-6)), by_the_rule_of("Northern Ireland"),
                              set_setting("project.assessment_date", "2022-06-29")}),
          .verdict = Verdict::fail,
          .value = 0.35 + 1e-6,
          .reason = above("U", 0.35, "the limit of 0.35"),
          .also_moves = {"*"}},
         {.label = "declared with the next higher hundredth",
          .change = declared(plain_u() + 0.0099),
          .verdict = Verdict::pass,
          .value = plain_u()},
         {.label = "declared lower than it is",
          .change = declared(0.15),
          .verdict = Verdict::not_assessed,
          .reason = not_as_declared("0.150", plain_u())},
         {.label = "declared far higher than it is",
          .change = declared(0.3),
          .verdict = Verdict::not_assessed,
          .reason = not_as_declared("0.300", plain_u())},
         {.label = "too high and declared otherwise: it still fails",
          .change = together({set_wool(wool_for(0.3)), declared(0.2)}),
          .verdict = Verdict::fail,
          .value = 0.3,
          .tolerance = 1e-9,
          .why_tolerance = "λ is found by bisection",
          .reason = above("U", 0.3, "what the design asks of each panel, 0.26") + "; " + not_as_declared("0.200", 0.3),
          .also_moves = {"*"}},
         {.label = "air voids in insulation of other words",
          .change = together({in_other_words("blanket"), set_wool(0.023), set_setting("thermal.air_void_level", 2.0)}),
          .verdict = Verdict::pass,
          .value = u_with_wool(0.023) + 0.04 * share_squared(0.023),
          .also_moves = {"*"}},
         {.label = "air voids in insulation without any word, a little worse",
          .change = together({in_other_words(""), set_wool(0.024), set_setting("thermal.air_void_level", 2.0)}),
          .verdict = Verdict::pass,
          .value = u_with_wool(0.024) + 0.04 * share_squared(0.024),
          .also_moves = {"*"}},
         {.label = "insulation that is called air",
          .change = change_panels([](Panel& panel) { panel.layers[1].category = "air"; }),
          .verdict = Verdict::not_assessed,
          .reason =
              "layer 'cassette' is air by its category or IfcMaterialLayer.IsVentilated (IfcMaterialLayer, "
              "0000000000000000000001, line 7) and of the material 'mineral wool' (IfcMaterial, "
              "0000000000000000000001, line 7): one of them is wrong; air layer 'cassette' does not say whether it "
              "is ventilated (IfcMaterialLayer.IsVentilated, Panel_AirLayer.OpeningArea, or setting "
              "thermal.air_layers_of_unknown_ventilation)",
          .also_moves = {"*"}},
         {.label = "an internal wall whose window is external",
          .change = together({set_of_panels("Pset_WallCommon.IsExternal", false), change_panels([](Panel& panel) {
                                add_window(panel, 0.7, 1.1, 1.0, 2.0, 1.2);
                                put(panel.openings.front().filling_properties, "Pset_WindowCommon", "IsExternal", true);
                              })}),
          .verdict = Verdict::not_assessed,
          .reason =
              "Pset_WallCommon.IsExternal is false (IfcPropertySingleValue Pset_WallCommon.IsExternal, "
              "0000000000000000000001, line 7) and Pset_WindowCommon.IsExternal of 'O-01' is true: one of them is "
              "wrong",
          .also_moves = {"*"}},
         {.label = "a place without a limit",
          .change = set_setting("project.jurisdiction", "Atlantis"),
          .verdict = Verdict::not_assessed,
          .value = plain_u(),
          .reason = "u_value_limits.csv holds no limit for buildings other than dwellings in 'Atlantis' on 2026-06-01 "
                    "(settings project.jurisdiction, project.use, project.assessment_date)",
          .also_moves = {kPermeability, kSurface, kJunctions}},
         {.label = "an internal wall has no limit",
          .change = set_of_panels("Pset_WallCommon.IsExternal", false),
          .verdict = Verdict::information,
          .value = plain_u()},
         {.label = "no λ",
          .change = drop_wool(),
          .verdict = Verdict::not_assessed,
          .reason = kNoWool,
          .also_moves = {"*"}},
         {.label = "studs of metal",
          .change = [](Project& project, Settings&) { project.materials[kTimberMaterial].category = "steel"; },
          .verdict = Verdict::not_assessed,
          .reason = metal_studs(),
          .also_moves = {"*"}},
         {.label = "a stud without a shape would make U too small",
          .change = change_panels([](Panel& panel) { panel.parts[0].bounds.reset(); }),
          .verdict = Verdict::not_assessed,
          .reason = "stud 'Stud 1' has no shape, so its area on the face cannot be measured",
          .also_moves = {"*"}},
         {.label = "framing that nobody knows",
          .change = drop_parts(PartKind::stud),
          .verdict = Verdict::not_assessed,
          .reason = "the panel has no parts, so its framing is unknown; export its parts or set "
                    "thermal.assumed_framing_fraction; setting 'thermal.assumed_framing_conductivity_w_per_mk' is "
                    "missing",
          .also_moves = {"*"}},
         {.label = "framing that the settings assume",
          .change = together({drop_parts(PartKind::stud), set_setting("thermal.assumed_framing_fraction", 0.15),
                              set_setting("thermal.assumed_framing_conductivity_w_per_mk", 0.13)}),
          .verdict = Verdict::pass,
          .value = u_by_hand(0.15, kBetterWool, kStudResistance, kOtherResistance),
          .also_moves = {"*"}},
         {.label = "limits of the resistance more than 1.5 times apart",
          .change = set_of_material(kTimberMaterial, "Pset_MaterialThermal.ThermalConductivity", 2.0),
          .verdict = Verdict::not_assessed,
          .reason = "the upper limit of the resistance is more than 1.5 times the lower one, so the combined method is "
                    "not to be used (EN ISO 6946:2017, 6.7.2.1); a numerical calculation to EN ISO 10211 is needed",
          .also_moves = {"*"}},
         {.label = "air voids of level 2",
          .change = set_setting("thermal.air_void_level", 2.0),
          .verdict = Verdict::pass,
          .value = plain_u() + 0.04 * kBetterShareSquared,
          .also_moves = {"thermal.heat_loss", kSurface}},
         {.label = "a level of air voids that the table does not hold",
          .change = set_setting("thermal.air_void_level", 3.0),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'thermal.air_void_level' must be 0, 1 or 2 and is 3",
          .also_moves = {"*"}},
         {.label = "screws whose correction stays under 3 % are left out",
          .change = with_screws(5),
          .verdict = Verdict::pass,
          .value = plain_u()},
         {.label = "one screw more counts with all of them",
          .change = with_screws(6),
          .verdict = Verdict::pass,
          .value = plain_u() + screws_by_hand(6),
          .also_moves = {"thermal.heat_loss", kSurface}},
         {.label = "screws of unknown depth",
          .change = together({with_screws(6), drop_of_parts(PartKind::fastener, "Panel_Fastener.DepthInInsulation")}),
          .verdict = Verdict::not_assessed,
          .reason = "fastener 'Long screws' has no Panel_Fastener.DepthInInsulation (or setting "
                    "thermal.fasteners_of_unknown_depth)",
          .also_moves = {"*"}},
         {.label = "an air layer that does not say whether it is ventilated",
          .change = with_cavity(std::nullopt),
          .verdict = Verdict::not_assessed,
          .reason = "air layer 'cavity' does not say whether it is ventilated (IfcMaterialLayer.IsVentilated, "
                    "Panel_AirLayer.OpeningArea, or setting thermal.air_layers_of_unknown_ventilation)",
          .also_moves = {"*"}},
         {.label = "openings of 500 mm²/m: at rest",
          .change = with_cavity(500.0),
          .verdict = Verdict::pass,
          .value = u_with_wool(kBetterWool_w_per_mk, kOtherResistance + 0.18),
          .also_moves = {"*"}},
         {.label = "openings of 1000 mm²/m: half of the way to well ventilated",
          .change = with_cavity(1000.0),
          .verdict = Verdict::pass,
          .value = 2.0 / (1.0 / u_with_wool(kBetterWool_w_per_mk, kOtherResistance + 0.18) +
                          1.0 / u_with_wool(kBetterWool_w_per_mk, kOtherResistance - 0.04 + 0.13)),
          .also_moves = {"*"}},
         {.label = "openings of 1500 mm²/m: well ventilated",
          .change = with_cavity(1500.0),
          .verdict = Verdict::pass,
          .value = u_with_wool(kBetterWool_w_per_mk, kOtherResistance - 0.04 + 0.13),
          .also_moves = {"*"}},
         {.label = "does not see: slabs that fill half of the cassette",
          .change = change_panels([](Panel& panel) {
            add_part(panel, PartKind::insulation, "Slab", kWoolMaterial, {{0.045, 0.0125, 0.0}, {0.5775, 0.1525, 1.2}});
          }),
          .verdict = Verdict::pass,
          .value = plain_u(),
          .unchanged = true},
     }}};

constexpr const char* kMillionths = "areas and losses are summed in whole millionths";

/// A second panel with wool of another λ.
Change beside(double conductivity) {
  return [conductivity](Project& project, Settings&) {
    Panel second = project.panels.front();
    second.mark = "P-02";
    second.layers[1].material = add_material(project, "other wool", "insulation", 40.0, conductivity);
    for (const char* name : {"SpecificHeatCapacity"}) {
      put(project.materials.back().properties, "Pset_MaterialThermal", name, 1030.0);
    }
    put(project.materials.back().properties, "Pset_MaterialHygroscopic", "UpperVaporResistanceFactor", 1.0);
    project.panels.push_back(second);
  };
}

const RegisterCases kUValueProjectCases{
    {.check = kUValue,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {{.label = "one panel",
                .verdict = Verdict::pass,
                .value = plain_u(),
                .tolerance = 2e-7,
                .why_tolerance = kMillionths},
               {.label = "a poor panel beside a good one: the average keeps the limit",
                .change = beside(0.032),
                .verdict = Verdict::pass,
                .value = (plain_u() + u_with_wool(0.032)) / 2.0,
                .tolerance = 2e-7,
                .why_tolerance = kMillionths,
                .also_moves = {"*"}},
               {.label = "a poorer panel beside it: the average does not",
                .change = beside(0.042),
                .verdict = Verdict::fail,
                .value = (plain_u() + u_with_wool(0.042)) / 2.0,
                .tolerance = 2e-7,
                .why_tolerance = kMillionths,
                .reason = above("the average U", (plain_u() + u_with_wool(0.042)) / 2.0),
                .also_moves = {"*"}},
               {.label = "an internal panel does not mend the average",
                .change = together({set_wool(0.05), beside(0.015),
                                    [](Project& project, Settings&) {
                                      put(project.panels.back().properties, "Pset_WallCommon", "IsExternal", false);
                                    }}),
                .verdict = Verdict::fail,
                .value = u_with_wool(0.05),
                .tolerance = 2e-7,
                .why_tolerance = kMillionths,
                .reason = above("the average U", u_with_wool(0.05)),
                .also_moves = {"*"}},
               {.label = "a rule on the whole envelope",
                .change = set_setting("project.jurisdiction", "Germany"),
                .verdict = Verdict::not_assessed,
                .value = plain_u(),
                .tolerance = 2e-7,
                .why_tolerance = kMillionths,
                .reason = "the rule puts its limit of 0.28 W/(m²·K) on the mean of all opaque outer parts, roof and "
                          "ground floor among them, and the export holds the panels alone, whose average is " +
                          fixed_text(plain_u(), 4) + "; hold the mean of the whole envelope against it",
                .also_moves = {"*"}},
               {.label = "one panel without a value",
                .change = drop_wool(),
                .verdict = Verdict::not_assessed,
                .reason = "1 panel has no thermal.u_value: P-01",
                .also_moves = {"*"}}},
     .of_project = true}};

const RegisterCases kResistanceCases{
    {.check = kRValue,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {{.label = "as made", .verdict = Verdict::information, .value = 1.0 / plain_u()},
               {.label = "air voids leave it as it is",
                .change = set_setting("thermal.air_void_level", 2.0),
                .verdict = Verdict::information,
                .value = 1.0 / plain_u(),
                .also_moves = {kUValue, "thermal.heat_loss", kSurface},
                .unchanged = true},
               {.label = "no λ",
                .change = drop_wool(),
                .verdict = Verdict::not_assessed,
                .reason = kNoWool,
                .also_moves = {"*"}}}}};

}  // namespace
