// Cases of lifting, turning up, the crane and the vehicle.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Change set_of_loops(const char* name, double value) {
  return change_panels([name, value](Panel& panel) {
    for (Part& part : panel.parts) {
      if (part.object_type == "LIFTING LOOP") set_fastener(part, name, value);
    }
  });
}

const RegisterCases kLifting{as_drawn(
    {.check = "structural.lifting",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "load equalised between two points", .verdict = Verdict::pass},
         {.label = "any two points may carry all",
          .change = together({set_setting("structural.lifting.equalised", false), change_panels([](Panel& panel) {
                                panel.parts.push_back(lifting_loop(0.3, panel.height_m.value, 10000.0));
                              })}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "no stop wind",
          .change = drop_setting("structural.lifting.stop_wind_m_per_s"),
          .verdict = Verdict::pass},
         {.label = "points that are too weak",
          .change = set_of_loops("WorkingLoadLimit", 500.0),
          .verdict = Verdict::fail,
          .reason = "'Loop at 600' is pulled beyond its working load limit; add points, place them nearer to the "
                    "centre of gravity or use "
                    "steeper slings"},
         {.label = "slings at 60°",
          .change = set_setting("structural.lifting.sling_angle_deg", 60.0),
          .verdict = Verdict::pass},
         {.label = "slings flatter than that",
          .change = set_setting("structural.lifting.sling_angle_deg", 60.1),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'structural.lifting.sling_angle_deg' must be at least 0 and at most 60"},
         {.label = "no dynamic factor",
          .change = drop_setting("structural.lifting.dynamic_factor"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'structural.lifting.dynamic_factor' is missing",
          .also_moves = {"structural.turning_up"}},
     }})};

const RegisterCases kTurningUp{as_drawn(
    {.check = "structural.turning_up",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "turned about its foot", .verdict = Verdict::pass},
         {.label = "in a frame",
          .change = set_of_panels("Panel_Handling.TurningFrame", true),
          .verdict = Verdict::information,
          .value = std::string("in a turning frame")},
         {.label = "glued laminated timber",
          .change = set_of_material(kTimber, "Pset_MaterialWood.StrengthGrade", std::string("GL24h")),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "a panel that is far too heavy",
          .change = set_of_parts(PartKind::sheet, "Qto_PlateBaseQuantities.NetWeight", 5000.0),
          .verdict = Verdict::fail,
          .reason = "'S3' is overstressed while the panel is turned up; stiffen the panel or turn it in a frame "
                    "(Panel_Handling.TurningFrame)",
          .also_moves = {"*"}},
         {.label = "a lifting point in the lower half",
          .change = change_panels([](Panel& panel) {
            for (Part& part : panel.parts) {
              if (part.object_type == "LIFTING LOOP") {
                part.bounds->min.z = 1.0;
                part.bounds->max.z = 1.3;
              }
            }
          }),
          .verdict = Verdict::not_assessed,
          .reason = "a lifting point stands in the lower half, so the panel is not turned up on its foot",
          .also_moves = {"*"}},
         {.label = "all materials of one name",
          .change = rename_materials("material"),
          .verdict = Verdict::pass,
          .unchanged = true},
     }})};

const RegisterCases kCrane{as_drawn(
    {.check = "structural.crane_capacity",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "within the table", .verdict = Verdict::pass},
         {.label = "beyond the table",
          .change = set_setting("structural.crane.y_m", -25.0),
          .verdict = Verdict::fail,
          .reason =
              "the panel stands beyond the largest radius of the crane's table; move the crane or choose another"},
         {.label = "beyond the table, and a further place that is not",
          .change = together({set_setting("structural.crane.y_m", -25.0),
                              set_setting("structural.crane.further_places.0.x_m", 0.0),
                              set_setting("structural.crane.further_places.0.y_m", -15.0)}),
          .verdict = Verdict::pass},
         {.label = "too heavy at this radius",
          .change = set_setting("structural.crane.gear_kg", 2000.0),
          .verdict = Verdict::fail,
          .reason = "the panel with its gear is too heavy for the crane at this radius"},
         {.label = "no load table",
          .change = drop_settings("structural.crane.capacities."),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'structural.crane.capacities' holds no load table of the crane"},
     }})};

const RegisterCases kTransport{as_drawn(
    {.check = "structural.transport_size",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "on its foot, the height governs", .verdict = Verdict::pass, .value = 0.75},
         {.label = "on a rack",
          .change = set_setting("quantities.transport.rack_base_m", 0.2),
          .verdict = Verdict::pass,
          .value = 0.8},
         {.label = "on its left edge under a low bridge",
          .change = set_setting("structural.transport.overall_height_m", 3.8),
          .verdict = Verdict::pass,
          .value = 2.4 / 2.9},
         {.label = "as high as the route allows",
          .change = set_setting("structural.transport.deck_height_m", 1.9),
          .verdict = Verdict::pass,
          .value = 1.0},
         {.label = "a lower bridge still",
          .change = set_setting("structural.transport.overall_height_m", 3.2),
          .verdict = Verdict::fail,
          .value = 2.4 / 2.3,
          .reason =
              "the panel exceeds the vehicle's limit: height above the deck; choose another vehicle, a permit or a "
              "smaller panel"},
         {.label = "no payload",
          .change = drop_setting("structural.transport.payload_kg"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'structural.transport.payload_kg' is missing"},
     }})};

}  // namespace
