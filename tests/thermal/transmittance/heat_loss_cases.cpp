// Cases of the heat transfer coefficient, of a panel and of the project.
#include "core/api/testing/check_cases.h"
#include "core/api/testing/properties.h"
#include "tests/thermal/insulated_panel.h"
#include "tests/thermal/window_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kHeatLoss = "thermal.heat_loss";
constexpr const char* kLines = "thermal.linear_transmittance";
constexpr const char* kFactor = "thermal.junction_temperature_factor";

double plain_heat() {
  return 6.48 * u_with_wool(kBetterWool_w_per_mk);
}

const RegisterCases kPanelCases{
    {.check = kHeatLoss,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {{.label = "no junction passes heat", .verdict = Verdict::information, .value = plain_heat()},
               {.label = "a declared Ψ of the head",
                .change = set_of_panels("Panel_Junction.HeadTransmittance", 0.05),
                .verdict = Verdict::information,
                .value = plain_heat() + 0.05 * 2.4,
                .also_moves = {kLines}},
               {.label = "a junction of which nothing is known",
                .change = set_of_panels("Panel_Junction.Head", "WALL"),
                .verdict = Verdict::not_assessed,
                .reason = "thermal.linear_transmittance is not assessed: head: Panel_Junction.Head 'WALL' names no "
                          "junction detail",
                .also_moves = {kLines, kFactor}},
               {.label = "no λ",
                .change = drop_wool(),
                .verdict = Verdict::not_assessed,
                .reason = kNoUValue,
                .also_moves = {"*"}}}}};

const RegisterCases kWindowCases{{.check = kHeatLoss,
                                  .sound_project = [] { return panel_with_window().project; },
                                  .sound_settings = [] { return panel_with_window().settings; },
                                  .cases = {{.label = "a window without a U-value",
                                             .change = drop_of_fillings("Pset_WindowCommon.ThermalTransmittance"),
                                             .verdict = Verdict::not_assessed,
                                             .reason = "'W-01' has no Pset_WindowCommon.ThermalTransmittance",
                                             .also_moves = {"thermal.window_u_value"}}}}};

const RegisterCases kProjectCases{
    {.check = kHeatLoss,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {{.label = "two panels",
                .change = [](Project& project, Settings&) { project.panels.push_back(project.panels.front()); },
                .verdict = Verdict::information,
                .value = 2.0 * plain_heat(),
                .tolerance = 1e-6,
                .why_tolerance = "each panel's heat is summed in whole millionths",
                .also_moves = {"*"}},
               {.label = "one panel without a value",
                .change = drop_wool(),
                .verdict = Verdict::not_assessed,
                .reason = "1 panel has no thermal.heat_loss: P-01",
                .also_moves = {"*"}}},
     .of_project = true}};

}  // namespace
