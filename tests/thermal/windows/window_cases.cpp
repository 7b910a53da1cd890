// Cases of the U-values of windows and doors.
#include <optional>

#include "core/api/testing/check_cases.h"
#include "core/api/testing/panels.h"
#include "core/api/testing/properties.h"
#include "tests/thermal/heated_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kWindow = "thermal.window_u_value";
constexpr const char* kDoor = "thermal.door_u_value";
constexpr const char* kLines = "thermal.linear_transmittance";
constexpr const char* kFactor = "thermal.junction_temperature_factor";

/// The timber panel with one opening between two studs.
HeatedPanel with_opening(const char* entity, const char* set, double u_w_per_m2k) {
  HeatedPanel model;
  Opening& opening = add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, std::nullopt);
  opening.filling_entity = entity;
  put(opening.filling_properties, set, "ThermalTransmittance", u_w_per_m2k);
  return model;
}

HeatedPanel with_window() {
  return with_opening("IfcWindow", "Pset_WindowCommon", 1.2);
}

HeatedPanel with_door() {
  return with_opening("IfcDoor", "Pset_DoorCommon", 1.2);
}

Change without_openings() {
  return change_panels([](Panel& panel) { panel.openings.clear(); });
}

/// Glazing, frame and edge of the window.
Change with_parts(double frame_width_m) {
  return together({set_of_fillings("Panel_Window.GlassTransmittance", 1.1),
                   set_of_fillings("Panel_Window.FrameTransmittance", 1.4),
                   set_of_fillings("Panel_Window.EdgeTransmittance", 0.05),
                   set_of_fillings("Panel_Window.FrameWidth", frame_width_m)});
}

std::string declared_beside_parts(const std::string& value) {
  return "the declared U-value of 'W-01' of " + value +
         " W/(m²·K) (IfcPropertySingleValue ThermalTransmittance, 0000000000000000000001, line 7) and the 1.27 to 1.45 "
         "worked out from its Panel_Window values (IfcPropertySingleValue Panel_Window.GlassTransmittance, "
         "0000000000000000000001, line 7) in its own and the declaration's sizes differ by more than 0.1: one of them "
         "is "
         "wrong";
}

const RegisterCases kWindowCases{
    {.check = kWindow,
     .sound_project = [] { return with_window().project; },
     .sound_settings = [] { return with_window().settings; },
     .cases =
         {
             {.label = "declared", .verdict = Verdict::pass, .value = 1.2},
             {.label = "the limit itself",
              .change = set_of_fillings("Pset_WindowCommon.ThermalTransmittance", 1.6),
              .verdict = Verdict::pass,
              .value = 1.6},
             {.label = "over the limit",
              .change = set_of_fillings("Pset_WindowCommon.ThermalTransmittance", 1.601),
              .verdict = Verdict::fail,
              .value = 1.601,
              .reason = "U of 1.601 W/(m²·K) is above the limit of 1.60; a better window is needed"},
             // 0.555 m × 1.000 m with 0.1 m of frame: glazing 0.355 m × 0.8 m. In the sizes of the declaration 1.31 and
             // 1.27.
             {.label = "glazing, frame and edge go before the declared value",
              .change = with_parts(0.1),
              .verdict = Verdict::pass,
              .value = (0.284 * 1.1 + 0.271 * 1.4 + 2.31 * 0.05) / 0.555,
              .also_moves = {kLines, kFactor}},
             {.label = "a declared value below what the parts give in any size",
              .change = together({with_parts(0.1), set_of_fillings("Pset_WindowCommon.ThermalTransmittance", 1.1)}),
              .verdict = Verdict::not_assessed,
              .reason = declared_beside_parts("1.10"),
              .also_moves = {kLines, kFactor}},
             {.label = "and one above it, which alone would pass",
              .change = together({with_parts(0.1), set_of_fillings("Pset_WindowCommon.ThermalTransmittance", 1.59)}),
              .verdict = Verdict::not_assessed,
              .reason = declared_beside_parts("1.59"),
              .also_moves = {kLines, kFactor}},
             {.label = "a rule on the average asks little of one window",
              .change = together({set_setting("project.jurisdiction", "Scotland"),
                                  set_of_fillings("Pset_WindowCommon.ThermalTransmittance", 3.3)}),
              .verdict = Verdict::pass,
              .value = 3.3,
              .also_moves = {"*"}},
             {.label = "but something",
              .change = together({set_setting("project.jurisdiction", "Scotland"),
                                  set_of_fillings("Pset_WindowCommon.ThermalTransmittance", 3.4)}),
              .verdict = Verdict::fail,
              .value = 3.4,
              .reason = "U of 3.400 W/(m²·K) is above the limit of 3.30 on a single one; a better window is needed",
              .also_moves = {"*"}},
             {.label = "a rule on the whole envelope asks nothing of one window",
              .change = set_setting("project.jurisdiction", "Germany"),
              .verdict = Verdict::information,
              .value = 1.2,
              .also_moves = {"*"}},
             {.label = "a poor window beside a good one",
              .change = change_panels([](Panel& panel) { add_window(panel, 1.3, 1.7, 1.0, 2.0, 1.7); }),
              .verdict = Verdict::fail,
              .value = 1.7,
              .reason = "U of 1.700 W/(m²·K) is above the limit of 1.60; a better window is needed",
              .also_moves = {"*"}},
             {.label = "a frame that leaves no glazing",
              .change = with_parts(0.2775),
              .verdict = Verdict::not_assessed,
              .reason = "Panel_Window.FrameWidth of 'W-01' leaves no glazing",
              .also_moves = {kLines, kFactor}},
             {.label = "only the glazing, which alone would pass",
              .change = set_of_fillings("Panel_Window.GlassTransmittance", 0.8),
              .verdict = Verdict::not_assessed,
              .reason = "'W-01' has no Panel_Window.FrameTransmittance; 'W-01' has no Panel_Window.EdgeTransmittance; "
                        "'W-01' has no Panel_Window.FrameWidth"},
             {.label = "nothing known of it",
              .change = drop_of_fillings("Pset_WindowCommon.ThermalTransmittance"),
              .verdict = Verdict::not_assessed,
              .reason = "'W-01' has no Pset_WindowCommon.ThermalTransmittance"},
             {.label = "no window",
              .change = without_openings(),
              .reason = "the panel has no window",
              .also_moves = {"*"}},
         }}};

const RegisterCases kDoorCases{
    {.check = kDoor,
     .sound_project = [] { return with_door().project; },
     .sound_settings = [] { return with_door().settings; },
     .cases =
         {
             {.label = "declared", .verdict = Verdict::pass, .value = 1.2},
             {.label = "the limit itself",
              .change = set_of_fillings("Pset_DoorCommon.ThermalTransmittance", 1.6),
              .verdict = Verdict::pass,
              .value = 1.6},
             {.label = "over the limit",
              .change = set_of_fillings("Pset_DoorCommon.ThermalTransmittance", 1.7),
              .verdict = Verdict::fail,
              .value = 1.7,
              .reason = "U of 1.700 W/(m²·K) is above the limit of 1.60; a better door is needed"},
             {.label = "nothing declared",
              .change = drop_of_fillings("Pset_DoorCommon.ThermalTransmittance"),
              .verdict = Verdict::not_assessed,
              .reason = "'W-01' has no Pset_DoorCommon.ThermalTransmittance"},
             {.label = "a value of 0",
              .change = set_of_fillings("Pset_DoorCommon.ThermalTransmittance", 0.0),
              .verdict = Verdict::not_assessed,
              .reason =
                  "declared U-value of 'W-01' must be greater than zero (IfcPropertySingleValue ThermalTransmittance, "
                  "0000000000000000000001, line 7)"},
             {.label = "no door", .change = without_openings(), .reason = "the panel has no door", .also_moves = {"*"}},
         }}};

Change fillings_of(const std::string& place, double u_w_per_m2k) {
  return together({set_setting("project.jurisdiction", place),
                   set_of_fillings("Pset_WindowCommon.ThermalTransmittance", u_w_per_m2k)});
}

/// A door of 1 m² in U 1.0 beside the window of 0.555 m².
Change with_good_door() {
  return change_panels([](Panel& panel) {
    Opening& door = add_window(panel, 1.25, 1.75, 0.0, 2.0, std::nullopt);
    door.filling_entity = "IfcDoor";
    put(door.filling_properties, "Pset_DoorCommon", "ThermalTransmittance", 1.0);
  });
}

const RegisterCases kAverageCases{
    {.check = kWindow,
     .sound_project = [] { return with_window().project; },
     .sound_settings = [] { return with_window().settings; },
     .cases =
         {
             {.label = "a rule on each window", .verdict = Verdict::information, .value = 1.2},
             {.label = "an average at the limit",
              .change = fillings_of("Scotland", 1.6),
              .verdict = Verdict::pass,
              .value = 1.6,
              .tolerance = 1e-5,
              .why_tolerance = "areas and heat are summed in whole millionths",
              .also_moves = {"*"}},
             {.label = "an average above it",
              .change = fillings_of("Ireland", 1.7),
              .verdict = Verdict::fail,
              .value = 1.7,
              .tolerance = 1e-5,
              .why_tolerance = "areas and heat are summed in whole millionths",
              .reason =
                  "the average U of 1.700 W/(m²·K) is above the limit of 1.60; better windows or doors are needed",
              .also_moves = {"*"}},
             {.label = "a good door beside it mends the average",
              .change = together({with_good_door(), fillings_of("Ireland", 1.7)}),
              .verdict = Verdict::pass,
              .value = (1.7 * 0.555 + 1.0) / 1.555,
              .tolerance = 1e-5,
              .why_tolerance = "areas and heat are summed in whole millionths",
              .also_moves = {"*"}},
             {.label = "a rule on the whole envelope",
              .change = fillings_of("Germany", 1.2),
              .verdict = Verdict::not_assessed,
              .reason = "the rule puts its limit of 1.50 W/(m²·K) on the mean of all transparent outer parts, of which "
                        "the export holds the windows and doors of the panels alone; their average is 1.200",
              .also_moves = {"*"}},
             {.label = "nothing known of a window",
              .change = drop_of_fillings("Pset_WindowCommon.ThermalTransmittance"),
              .verdict = Verdict::not_assessed,
              .reason = "thermal.window_u_value has no value for: P-01",
              .also_moves = {"*"}},
             {.label = "no window and no door",
              .change = without_openings(),
              .reason = "no panel has a window or door",
              .also_moves = {"*"}},
         },
     .of_project = true}};

}  // namespace
