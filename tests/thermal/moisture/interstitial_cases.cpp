// Cases of condensation inside of a panel.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/thermal/insulated_panel.h"
#include "tests/thermal/moisture/moisture_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kInside = "thermal.interstitial_condensation";
constexpr const char* kMould = "thermal.surface_condensation";
constexpr const char* kJunctions = "thermal.junction_temperature_factor";

Change constant_climate(double temperature_c, double humidity) {
  return [temperature_c, humidity](Project&, Settings& settings) {
    set_months(settings, "thermal.monthly.external_temperature_c", temperature_c, 12);
    set_months(settings, "thermal.monthly.external_relative_humidity", humidity, 12);
  };
}

Change sheathing(double factor) {
  return set_of_material(kBoardMaterial, "Pset_MaterialHygroscopic.UpperVaporResistanceFactor", factor);
}

Change lining(double factor) {
  return set_of_material(kGypsumMaterial, "Pset_MaterialHygroscopic.UpperVaporResistanceFactor", factor);
}

const RegisterCases kCases{
    {.check = kInside,
     .sound_project = [] { return MoistureModel().project; },
     .sound_settings = [] { return MoistureModel().settings; },
     .cases =
         {
             // Diffusion through one plane behind the wool, month by month, by hand: 1.813 kg/m² at the end of March.
             {.label = "condenses behind the sheathing and dries in summer, but more than the limit",
              .verdict = Verdict::fail,
              .reason = "condensate of 1.813 kg/m² is above the limit; less vapour must enter or more must leave"},
             {.label = "the same without a limit",
              .change = drop_setting("thermal.condensate_limit"),
              .verdict = Verdict::not_assessed,
              .reason = "up to 1.813 kg/m² condenses and dries again, and setting 'thermal.condensate_limit' does not "
                        "name how much the layers may hold"},
             // Likewise 0.303 kg/m².
             {.label = "a lining that lets less vapour in: under the limit, and it dries",
              .change = lining(50.0),
              .verdict = Verdict::pass,
              .value = 0.303,
              .tolerance = 0.002,
              .why_tolerance = "worked out by hand with one plane"},
             {.label = "a sheathing that lets vapour out",
              .change = sheathing(1.0),
              .verdict = Verdict::pass,
              .value = 0.0},
             // 2e-10 · (934.8 − 638.3) / 0.265 kg/(m²·s) for a year: 7.056 kg/m².
             {.label = "a tight sheathing in a climate that never dries",
              .change = together({sheathing(100000.0), constant_climate(0.0, 0.9)}),
              .verdict = Verdict::fail,
              .reason = "7.056 kg/m² of condensate is left after twelve months, so it gathers from year to year",
              .also_moves = {kMould, kJunctions}},
             {.label = "a limit that no table holds",
              .change = set_setting("thermal.condensate_limit", "sponge"),
              .verdict = Verdict::not_assessed,
              .reason = "condensate_limits.csv has no row 'sponge' (setting thermal.condensate_limit)"},
             {.label = "no μ",
              .change = drop_of_material(kWoolMaterial, "Pset_MaterialHygroscopic.UpperVaporResistanceFactor"),
              .verdict = Verdict::not_assessed,
              .reason = "material 'mineral wool' has no Pset_MaterialHygroscopic.UpperVaporResistanceFactor"},
             {.label = "a μ below that of air would dry too fast",
              .change = set_of_material(kWoolMaterial, "Pset_MaterialHygroscopic.UpperVaporResistanceFactor", 0.5),
              .verdict = Verdict::not_assessed,
              .reason = "the water vapour resistance factor of 'mineral wool' "
                        "(Pset_MaterialHygroscopic.UpperVaporResistanceFactor or "
                        "LowerVaporResistanceFactor) is below 1, that of air"},
             {.label = "no λ",
              .change = drop_wool(),
              .verdict = Verdict::not_assessed,
              .reason = kNoUValue,
              .also_moves = {"*"}},
         }}};

}  // namespace
