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
             // 0.555 m × 1.000 m with 0.1 m of frame: glazing 0.355 m × 0.8 m.
             {.label = "glazing, frame and edge go before the declared value",
              .change = with_parts(0.1),
              .verdict = Verdict::pass,
              .value = (0.284 * 1.1 + 0.271 * 1.4 + 2.31 * 0.05) / 0.555,
              .also_moves = {kLines, kFactor}},
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

}  // namespace
