// Cases of the temperature of the internal surface: against the least factor, and against mould month by month.
#include "core/api/support/words.h"
#include "core/api/testing/check_cases.h"
#include "tests/thermal/insulated_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kSurface = "thermal.surface_temperature_factor";
constexpr const char* kMouldSurface = "thermal.surface_condensation";
constexpr const char* kJunctionSurface = "thermal.junction_temperature_factor";
constexpr const char* kInsideSurface = "thermal.interstitial_condensation";

/// Boards and surfaces of the panel with R_si 0.25 in place of 0.13.
constexpr double kOtherForMould = kOtherResistance - 0.13 + 0.25;

double factor_with_wool(double conductivity) {
  return 1.0 - 0.25 * u_with_wool(conductivity, kOtherForMould);
}

/// Rooms that ask for 0.90, in a panel whose U for R_si 0.25 is `u`.
Change pool_in_panel_of(double u) {
  return together({set_wool(wool_for(u, kOtherForMould)), set_setting("thermal.surface_factor_use", "swimming pool")});
}

const RegisterCases kFactorCases{
    {.check = kSurface,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {{.label = "as made", .verdict = Verdict::pass, .value = factor_with_wool(kBetterWool_w_per_mk)},
               {.label = "just over the least factor of a pool",
                .change = pool_in_panel_of(0.4 - 1e-6),
                .verdict = Verdict::pass,
                .value = 0.9 + 0.25e-6,
                .also_moves = {"*"}},
               {.label = "just under it",
                .change = pool_in_panel_of(0.4 + 1e-6),
                .verdict = Verdict::fail,
                .value = 0.9 - 0.25e-6,
                .reason = "factor 0.900 is below 0.90: mould may grow on the surface; the panel needs more insulation",
                .also_moves = {"*"}},
               {.label = "rooms that ask for less than the building",
                .change = together({set_wool(0.6), set_setting("thermal.surface_factor_use", "storage")}),
                .verdict = Verdict::fail,
                .value = factor_with_wool(0.6),
                .reason = "factor " + fixed_text(factor_with_wool(0.6), 3) +
                          " is below 0.75: mould may grow on the surface; the panel needs more insulation",
                .also_moves = {"*"}},
               {.label = "a use without a least factor",
                .change = set_setting("project.use", "assembly"),
                .verdict = Verdict::not_assessed,
                .reason = "surface_factor_limits.csv holds no limit for 'assembly' in 'England' (settings "
                          "project.jurisdiction, project.use, thermal.surface_factor_use)",
                .also_moves = {kJunctionSurface}},
               {.label = "no λ",
                .change = drop_wool(),
                .verdict = Verdict::not_assessed,
                .reason = kNoUValue,
                .also_moves = {"*"}},
               {.label = "does not see: the kitchen of a clinic that the settings do not name",
                .change = set_setting("project.use", "office"),
                .verdict = Verdict::pass,
                .value = factor_with_wool(kBetterWool_w_per_mk),
                .also_moves = {kJunctionSurface}}}}};

/// f_Rsi of the section through a stud: the least insulated one.
constexpr double kStudFactor = 1.0 - 0.25 / (kOtherForMould + kStudResistance);

Change humidity(double share) {
  return together({drop_setting("thermal.humidity_class"), set_setting("thermal.internal_relative_humidity", share)});
}

const RegisterCases kMouldCases{
    {.check = kMouldSurface,
     .sound_project = insulated_project,
     .sound_settings = insulated_settings,
     .cases = {{.label = "as made", .verdict = Verdict::pass, .value = kStudFactor},
               {.label = "air of 75 % in winter",
                .change = humidity(0.75),
                .verdict = Verdict::fail,
                .value = kStudFactor,
                // p_i of 0.75 · 2337 Pa over 0.8 saturates at 18.96 °C: (18.96 + 1) / 21 = 0.951 in January.
                .reason = "factor 0.834 is below the 0.951 of January: mould may grow on the surface; the panel needs "
                          "more insulation or the room drier air",
                .also_moves = {kInsideSurface, kJunctionSurface}},
               {.label = "rooms that are never warmer than outside",
                .change = set_setting("thermal.internal_temperature_c", -1.0),
                .verdict = Verdict::not_assessed,
                .reason = "no month is warmer inside than outside",
                .also_moves = {kInsideSurface, kJunctionSurface}},
               {.label = "the climate of another country",
                .change = climate_of_table("Dublin, Ireland"),
                .verdict = Verdict::not_assessed,
                .reason = "setting 'thermal.climate' is 'Dublin, Ireland', a place in Ireland, and setting "
                          "'project.jurisdiction' is 'England': one of them is wrong",
                .also_moves = {kInsideSurface, kJunctionSurface}},
               {.label = "the humidity of a store in a clinic",
                .change = set_setting("thermal.humidity_class", "class 1"),
                .verdict = Verdict::not_assessed,
                .reason = "setting 'thermal.humidity_class' is 'class 1', of unoccupied and dry rooms, and setting "
                          "'project.use' is 'healthcare': one of them is wrong",
                .also_moves = {kInsideSurface, kJunctionSurface}},
               {.label = "a climate that no table holds",
                .change = climate_of_table("nowhere"),
                .verdict = Verdict::not_assessed,
                .reason = "climates.csv has no location 'nowhere' (setting thermal.climate)",
                .also_moves = {kInsideSurface, kJunctionSurface}},
               {.label = "no λ",
                .change = drop_wool(),
                .verdict = Verdict::not_assessed,
                .reason = kNoUValue,
                .also_moves = {"*"}}}}};

}  // namespace
