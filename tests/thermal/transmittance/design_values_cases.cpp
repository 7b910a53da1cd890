// Cases of the design values beside tabulated and converted ones.
#include <cmath>

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

const RegisterCases kCases{
    {.check = kDesignValues,
     .sound_project = [] { return HeatedPanel().project; },
     .sound_settings = [] { return HeatedPanel().settings; },
     .cases =
         {
             {.label = "nothing to compare with",
              .verdict = Verdict::not_assessed,
              .reason =
                  "no material names its class (Panel_Thermal.DesignValueClass or setting "
                  "thermal.design_value_classes.NAME) or its declared value (Panel_Thermal.DeclaredConductivity)"},
             {.label = "below the tabulated value",
              .change = set_setting("thermal.design_value_classes.softwood", "timber 700"),
              .verdict = Verdict::information,
              .value = 100.0 * (0.18 / 0.13 - 1.0)},
             {.label = "the tabulated value itself",
              .change = set_setting("thermal.design_value_classes.softwood", "timber 500"),
              .verdict = Verdict::information,
              .value = 0.0},
             {.label = "the class of the export goes before that of the settings",
              .change = together({set_setting("thermal.design_value_classes.strand board", "timber 700"),
                                  set_of_material(kBoardMaterial, "Panel_Thermal.DesignValueClass", "OSB 650")}),
              .verdict = Verdict::information,
              .value = 0.0},
             {.label = "a class that no table holds",
              .change = set_setting("thermal.design_value_classes.softwood", "marble"),
              .verdict = Verdict::not_assessed,
              .reason = "design_values.csv has no row 'marble', the class of 'softwood'"},
             {.label = "a declared value at the temperature in use",
              .change = declared_wool(),
              .verdict = Verdict::information,
              .value = excess_percent(0.034 * std::exp(0.0043 * 13.0))},
             {.label = "and with the greatest moisture that can be converted",
              .change = moisture_in_use(0.15),
              .verdict = Verdict::information,
              .value = excess_percent(0.034 * std::exp(0.0043 * 13.0 + 4.0 * 0.15))},
             {.label = "more moisture than that",
              .change = moisture_in_use(0.151),
              .verdict = Verdict::not_assessed,
              .reason =
                  "Panel_Thermal.DeclaredMoisture and DesignMoisture of 'mineral wool' must lie between 0 and the "
                  "0.15 m³/m³ up to which the coefficient holds"},
             {.label = "an aged product",
              .change = together({declared_wool(), set_of_material(kWoolMaterial, "Panel_Thermal.AgeingFactor", 1.2)}),
              .verdict = Verdict::information,
              .value = excess_percent(1.2 * 0.034 * std::exp(0.0043 * 13.0))},
             {.label = "no temperature in use",
              .change = together({declared_wool(), drop_setting("thermal.design_mean_temperature_c")}),
              .verdict = Verdict::not_assessed,
              .reason = "setting 'thermal.design_mean_temperature_c' is missing"},
         }}};

}  // namespace
