// Cases of the heat through junctions, of a panel and of the project, and of their surface temperatures.
#include "core/api/testing/check_cases.h"
#include "core/api/testing/properties.h"
#include "tests/thermal/insulated_panel.h"
#include "tests/thermal/window_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kLines = "thermal.linear_transmittance";
constexpr const char* kFactor = "thermal.junction_temperature_factor";
constexpr const char* kHeatLoss = "thermal.heat_loss";
constexpr const char* kSurface = "thermal.surface_temperature_factor";

const RegisterCases kPanelCases{
    {.check = kLines,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {{.label = "all edges left to the ground", .verdict = Verdict::information, .value = 0.0},
               {.label = "declared Ψ of head and sole",
                .change = together({set_of_panels("Panel_Junction.HeadTransmittance", 0.05),
                                    set_of_panels("Panel_Junction.SoleTransmittance", 0.10)}),
                .verdict = Verdict::information,
                .value = 0.05 * 2.4 + 0.10 * 2.4,
                .also_moves = {kHeatLoss}},
               {.label = "a word that names no detail",
                .change = set_of_panels("Panel_Junction.Head", "WALL"),
                .verdict = Verdict::not_assessed,
                .reason = "head: Panel_Junction.Head 'WALL' names no junction detail",
                .also_moves = {kHeatLoss, kFactor}},
               {.label = "a detail whose settings are missing",
                .change = set_of_panels("Panel_Junction.Left", "PANEL_JOINT"),
                .verdict = Verdict::not_assessed,
                .reason = "setting 'thermal.details.joint_width_m' is missing",
                .also_moves = {kHeatLoss, kFactor}},
               {.label = "a storey that is not known",
                .change = drop_of_panels("Panel_Junction.Head"),
                .verdict = Verdict::not_assessed,
                .reason = "head: its storey has no elevation, so what the head meets is not known",
                .also_moves = {kHeatLoss, kFactor}},
               {.label = "no λ",
                .change = drop_wool(),
                .verdict = Verdict::not_assessed,
                .reason = kNoUValue,
                .also_moves = {"*"}}}}};

const RegisterCases kProjectCases{
    {.check = kLines,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {{.label = "two panels with a declared Ψ",
                .change =
                    together({set_of_panels("Panel_Junction.HeadTransmittance", 0.05),
                              [](Project& project, Settings&) { project.panels.push_back(project.panels.front()); }}),
                .verdict = Verdict::information,
                .value = 2.0 * 0.05 * 2.4,
                .also_moves = {"*"}},
               {.label = "one panel without a value",
                .change = drop_wool(),
                .verdict = Verdict::not_assessed,
                .reason = "1 panel has no thermal.linear_transmittance: P-01",
                .also_moves = {"*"}}},
     .of_project = true}};

const RegisterCases kTemperatureCases{
    {.check = kFactor,
     .sound_project = [] { return panel_with_window().project; },
     .sound_settings = [] { return panel_with_window().settings; },
     .cases = {{.label = "healthcare, which asks for 0.75", .verdict = Verdict::pass},
               {.label = "rooms that ask for more",
                .change = set_setting("thermal.surface_factor_use", "swimming pool"),
                .verdict = Verdict::fail,
                .reason = "factor 0.759 at the head of 'W-01' is below 0.900: mould may grow there; the junction needs "
                          "insulation",
                .also_moves = {kSurface}},
               {.label = "air so humid that the worst month asks for more than the rooms",
                .change = together(
                    {drop_setting("thermal.humidity_class"), set_setting("thermal.internal_relative_humidity", 0.75)}),
                .verdict = Verdict::fail,
                .reason = "factor 0.759 at the head of 'W-01' is below 0.951: mould may grow there; the junction needs "
                          "insulation",
                .also_moves = {"thermal.surface_condensation", "thermal.interstitial_condensation"}},
               {.label = "no junction that is calculated",
                .change = change_panels([](Panel& panel) { panel.openings.clear(); }),
                .verdict = Verdict::not_assessed,
                .reason = "no junction of this panel has a detail that is calculated",
                .also_moves = {"*"}},
               {.label = "a use without a least factor",
                .change = set_setting("project.use", "assembly"),
                .verdict = Verdict::not_assessed,
                .reason = "surface_factor_limits.csv holds no limit for 'assembly' in 'England' (settings "
                          "project.jurisdiction, project.use, thermal.surface_factor_use)",
                .also_moves = {kSurface}}}}};

}  // namespace
