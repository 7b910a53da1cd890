// Cases of the design values beside tabulated and converted ones.
#include <cmath>
#include <string>

#include "core/api/support/words.h"
#include "core/api/testing/check_cases.h"
#include "tests/thermal/insulated_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kDesignValues = "thermal.design_values";

/// A declared value of the wool, which the export has at 0.035.
Change declared_wool() {
  return together({set_of_material(kWoolMaterial, "Panel_Thermal.DeclaredConductivity", 0.034),
                   set_of_material(kWoolMaterial, "Panel_Thermal.DeclaredTemperature", 10.0),
                   set_of_material(kWoolMaterial, "Panel_Thermal.ConversionClass", "mineral wool board 0.034"),
                   set_setting("thermal.design_mean_temperature_c", 23.0)});
}

Change moisture_in_use(double content) {
  return together({declared_wool(), set_of_material(kWoolMaterial, "Panel_Thermal.DeclaredMoisture", 0.0),
                   set_of_material(kWoolMaterial, "Panel_Thermal.DesignMoisture", content)});
}

double excess_percent(double converted) {
  return 100.0 * (converted / 0.035 - 1.0);
}

/// What a finding says where the wool of the export is better than its declaration allows.
std::string better_than(double converted) {
  return "'mineral wool' has λ 0.035 W/(m·K) (IfcPropertySingleValue ThermalConductivity, 0000000000000000000001, line "
         "7) and its declared value converted to the conditions in use is " +
         fixed_text(converted, 4) +
         " (IfcPropertySingleValue Panel_Thermal.DeclaredConductivity, 0000000000000000000001, line 7): work out U "
         "with the converted value";
}

constexpr double kTemperatureShare = 0.0043 * 13.0;

/// Another λ of the export, beside the declared 0.034 at the temperature in use.
Change declared_beside(double conductivity) {
  return together({declared_wool(), set_wool(conductivity)});
}

const RegisterCases kCases{
    {.check = kDesignValues,
     .sound_project = [] { return HeatedPanel().project; },
     .sound_settings = [] { return HeatedPanel().settings; },
     .cases =
         {
             {.label = "insulation of which nothing is declared",
              .verdict = Verdict::not_assessed,
              .reason =
                  "insulation 'mineral wool' names neither its declared value (Panel_Thermal.DeclaredConductivity) "
                  "nor its class (Panel_Thermal.DesignValueClass or setting thermal.design_value_classes.NAME)"},
             {.label = "a declared value at the temperature in use, within rounding",
              .change = declared_wool(),
              .verdict = Verdict::pass,
              .value = excess_percent(0.034 * std::exp(kTemperatureShare))},
             {.label = "and with the greatest moisture that can be converted",
              .change = moisture_in_use(0.15),
              .verdict = Verdict::fail,
              .value = excess_percent(0.034 * std::exp(kTemperatureShare + 4.0 * 0.15)),
              .reason = better_than(0.034 * std::exp(kTemperatureShare + 4.0 * 0.15))},
             {.label = "more moisture than that",
              .change = moisture_in_use(0.151),
              .verdict = Verdict::not_assessed,
              .reason =
                  "Panel_Thermal.DeclaredMoisture and DesignMoisture of 'mineral wool' must lie between 0 and the "
                  "0.15 m³/m³ up to which the coefficient holds"},
             {.label = "an aged product",
              .change = together({declared_wool(), set_of_material(kWoolMaterial, "Panel_Thermal.AgeingFactor", 1.2)}),
              .verdict = Verdict::fail,
              .value = excess_percent(1.2 * 0.034 * std::exp(kTemperatureShare)),
              .reason = better_than(1.2 * 0.034 * std::exp(kTemperatureShare))},
             {.label = "a design value far above its own declaration",
              .change = declared_beside(0.062),
              .verdict = Verdict::not_assessed,
              .reason =
                  "'mineral wool' has λ 0.062 W/(m·K) (IfcPropertySingleValue ThermalConductivity, "
                  "0000000000000000000001, line 7) and its declared value converted to the conditions in use is " +
                  fixed_text(0.034 * std::exp(kTemperatureShare), 4) +
                  " (IfcPropertySingleValue Panel_Thermal.DeclaredConductivity, 0000000000000000000001, line 7): they "
                  "cannot be of one product",
              .also_moves = {"*"}},
             {.label = "no temperature in use",
              .change = together({declared_wool(), drop_setting("thermal.design_mean_temperature_c")}),
              .verdict = Verdict::not_assessed,
              .reason = "setting 'thermal.design_mean_temperature_c' is missing"},
             {.label = "below the tabulated value, without a declaration",
              .change = together({declared_wool(), set_setting("thermal.design_value_classes.softwood", "timber 700")}),
              .verdict = Verdict::evidence_needed,
              .reason = "'softwood' has λ 0.13 W/(m·K) (IfcPropertySingleValue ThermalConductivity, "
                        "0000000000000000000001, line 7) and the table's value of 'timber 700' is 0.1800 "
                        "(design_values.csv, row 'timber 700' (EN ISO 10456:2007 table 3, from memory)): name the "
                        "declared value of the product (Panel_Thermal.DeclaredConductivity) or work out U with the "
                        "table's"},
             {.label = "the tabulated value itself",
              .change = together({declared_wool(), set_setting("thermal.design_value_classes.softwood", "timber 500")}),
              .verdict = Verdict::pass,
              .value = excess_percent(0.034 * std::exp(kTemperatureShare))},
             {.label = "the class of the export goes before that of the settings",
              .change =
                  together({declared_wool(), set_setting("thermal.design_value_classes.strand board", "timber 700"),
                            set_of_material(kBoardMaterial, "Panel_Thermal.DesignValueClass", "OSB 650")}),
              .verdict = Verdict::pass,
              .value = excess_percent(0.034 * std::exp(kTemperatureShare))},
             {.label = "a class that no table holds",
              .change = together({declared_wool(), set_setting("thermal.design_value_classes.softwood", "marble")}),
              .verdict = Verdict::not_assessed,
              .reason = "design_values.csv has no row 'marble', the class of 'softwood'"},
         }}};

}  // namespace
