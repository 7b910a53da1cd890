// Cases of the characteristic wind pressure.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"
#include "tests/structural/wind/wind_box.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Change calculated(Change more) {
  return together({drop_of_panels("Panel_Structure.DesignWindPressure"), std::move(more)});
}

const RegisterCases kByEngineerOrCoefficient{as_drawn(
    {.check = "structural.wind_pressure",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as given", .verdict = Verdict::information, .value = 1000.0},
         {.label = "a given pressure must be above zero",
          .change = wind_of(-1.0),
          .verdict = Verdict::not_assessed,
          .reason = "wind pressure given for the panel must be greater than zero (IfcPropertySingleValue, line 7)",
          .also_moves = {"*"}},
         {.label = "by one coefficient",
          .change = drop_of_panels("Panel_Structure.DesignWindPressure"),
          .verdict = Verdict::information,
          .value = 757.1,
          .tolerance = 0.8,
          .why_tolerance = "by hand: 1.4 · 540.8 Pa, rounded at each step to four digits",
          .also_moves = {"*"}},
         {.label = "seldom wind along a slope, reduced by direction and season",
          .change = calculated(together({set_setting("structural.wind.annual_probability", 0.01),
                                         set_setting("structural.wind.upwind_slope", 0.1),
                                         set_setting("structural.wind.orographic_location_factor", 0.5),
                                         set_setting("structural.wind.direction_factor", 0.9),
                                         set_setting("structural.wind.season_factor", 0.9)})),
          .verdict = Verdict::information,
          .also_moves = {"*"}},
         {.label = "a steep slope",
          .change = calculated(together({set_setting("structural.wind.upwind_slope", 0.4),
                                         set_setting("structural.wind.orographic_location_factor", 0.5)})),
          .verdict = Verdict::information,
          .also_moves = {"*"}},
         {.label = "a slope too gentle to count",
          .change = calculated(together({set_setting("structural.wind.upwind_slope", 0.05),
                                         set_setting("structural.wind.orographic_location_factor", 0.5)})),
          .verdict = Verdict::information,
          .value = 757.1,
          .tolerance = 0.8,
          .why_tolerance = "by hand: 1.4 · 540.8 Pa, rounded at each step to four digits",
          .also_moves = {"*"}},
         {.label = "an annex with a procedure of its own",
          .change = calculated(set_setting("structural.national_annex", std::string("UK"))),
          .verdict = Verdict::not_assessed,
          .reason = "national annex 'UK' replaces the procedure of EN 1991-1-4 4.3 to 4.5: give "
                    "Panel_Structure.DesignWindPressure",
          .also_moves = {"*"}},
         {.label = "the recommended procedure in its place, at 80 m above sea level and a roof of 9 m",
          .change = calculated(
              together({set_setting("structural.national_annex", std::string("UK")),
                        set_setting("structural.wind.procedure", std::string("recommended")),
                        set_setting("building.height_m", 9.0), set_setting("structural.wind.site_altitude_m", 80.0)})),
          .verdict = Verdict::information,
          .also_moves = {"*"}},
         {.label = "the same with a roof of 20 m",
          .change = calculated(
              together({set_setting("structural.national_annex", std::string("UK")),
                        set_setting("structural.wind.procedure", std::string("recommended")),
                        set_setting("building.height_m", 20.0), set_setting("structural.wind.site_altitude_m", 80.0)})),
          .verdict = Verdict::information,
          .also_moves = {"*"}},
         {.label = "a panel that stands above the building",
          .change = calculated(set_setting("building.height_m", 2.0)),
          .verdict = Verdict::information,
          .also_moves = {"*"}},
         {.label = "no terrain",
          .change = calculated(drop_setting("structural.wind.terrain_category")),
          .verdict = Verdict::not_assessed,
          .reason = "setting structural.wind.terrain_category (0, I, II, III or IV)",
          .also_moves = {"*"}},
     }})};

const RegisterCases kByZones{as_drawn(
    {.check = "structural.wind_pressure",
     .sound_project = box_project,
     .sound_settings = box_settings,
     .cases = {
         {.label = "a panel at the corner of the building", .verdict = Verdict::information},
         {.label = "with openings on all sides",
          .change = together({set_setting("structural.wind.internal_pressure_maximum", 0.7),
                              set_setting("structural.wind.internal_pressure_minimum", -0.5)}),
          .verdict = Verdict::information,
          .also_moves = {"*"}},
         {.label = "a building that is no rectangle",
          .change =
              [](Project& project, Settings&) {
                project.panels[1].frame.x_axis = {-0.8, 0.6, 0.0};
                project.panels[1].frame.y_axis = {-0.6, -0.8, 0.0};
              },
          .verdict = Verdict::not_assessed,
          .reason = "the façades are not the sides of one rectangle, for which alone EN 1991-1-4 7.2.2 has zones: give "
                    "Panel_Structure.DesignWindPressure",
          .also_moves = {"*"}},
         {.label = "a pressure clearly below that of the zones",
          .change = wind_of(300.0),
          .verdict = Verdict::not_assessed,
          .reason =
              "Panel_Structure.DesignWindPressure of 300 (IfcPropertySingleValue Panel_Structure.DesignWindPressure, "
              "0000000000000000000001, line 7) gives 300 Pa, but the wind zones of the façade by the settings "
              "structural.wind and building give 762 Pa on the panel: lower by more than 5 %; correct one of them, "
              "or confirm the lower one with a reason under 'confirmed_values' of the settings",
          .also_moves = {"*"}},
         {.label = "the same, confirmed",
          .change = together({wind_of(300.0),
                              set_setting("confirmed_values.0.name", std::string("Panel_Structure.DesignWindPressure")),
                              set_setting("confirmed_values.0.value", 300.0),
                              set_setting("confirmed_values.0.reason", std::string("wind tunnel"))}),
          .verdict = Verdict::information,
          .value = 300.0,
          .also_moves = {"*"}},
         {.label = "a coefficient clearly below those of the zones",
          .change = set_setting("structural.wind.external_pressure_coefficient", 0.1),
          .verdict = Verdict::not_assessed,
          .reason =
              "structural.wind.external_pressure_coefficient of 0.1 (setting "
              "'structural.wind.external_pressure_coefficient') gives 54 Pa, but the wind zones of the façade by "
              "the settings structural.wind and building give 762 Pa on the panel: lower by more than 5 %; correct "
              "one of them, or confirm the lower one with a reason under 'confirmed_values' of the settings",
          .also_moves = {"*"}},
         {.label = "a coefficient that covers them",
          .change = set_setting("structural.wind.external_pressure_coefficient", 1.8),
          .verdict = Verdict::information,
          .also_moves = {"*"}},
     }})};

const RegisterCases kOfProject{
    as_drawn({.check = "structural.wind_pressure",
              .sound_project = sound_project,
              .sound_settings = sound_settings,
              .cases = {{.label = "the largest of all panels", .verdict = Verdict::information, .value = 1000.0},
                        {.label = "no panel with a pressure",
                         .change = wind_of(-1.0),
                         .verdict = Verdict::not_assessed,
                         .reason = "no panel has a wind pressure; their findings say what is missing",
                         .also_moves = {"*"}}},
              .of_project = true})};

}  // namespace
