// Cases of what holds the panel to the frame.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/structural/clad_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Change set_of_brackets(const char* name, double value) {
  return change_panels([name, value](Panel& panel) {
    for (Part& part : panel.parts) {
      if (part.object_type == "bracket") set_fastener(part, name, value);
    }
  });
}

Change drop_of_brackets(const std::string& property) {
  return change_panels([property](Panel& panel) {
    for (Part& part : panel.parts) {
      if (part.object_type == "bracket") remove(part.properties, property);
    }
  });
}

/// Each bracket an element of its own.
Change part_brackets() {
  return change_panels([](Panel& panel) {
    for (std::size_t i = 0; i < panel.parts.size(); ++i) {
      if (panel.parts[i].object_type != "bracket" || panel.parts[i].count == 1) continue;
      Part one = panel.parts[i];
      const int count = one.count;
      one.count = 1;
      panel.parts[i] = one;
      panel.parts.insert(panel.parts.end(), static_cast<std::size_t>(count - 1), one);
    }
  });
}

const RegisterCases kFrameFixings{as_drawn(
    {.check = "structural.frame_fixings",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "a panel on the floor", .verdict = Verdict::pass},
         {.label = "an oversail panel hangs its weight on one row",
          .change = set_of_panels("Panel_Identity.Arrangement", std::string("OVERSAIL")),
          .verdict = Verdict::pass,
          .also_moves = {"structural.fall_barrier"}},
         {.label = "persons leaning on the panel",
          .change = make_barrier(),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "heads that bear on a board",
          .change = together({set_of_brackets("ScrewHeadDiameter", 0.016), set_of_brackets("HeadPullThrough", 20e6)}),
          .verdict = Verdict::pass},
         {.label = "brackets that are too weak",
          .change = set_of_brackets("DesignTension", 1000.0),
          .verdict = Verdict::fail,
          .reason =
              "tension in the bracket is beyond what is allowed; more or stronger brackets, or another joint, are "
              "needed"},
         {.label = "screws outside the range of the expression",
          .change = set_of_brackets("ScrewDiameter", 0.005),
          .verdict = Verdict::not_assessed,
          .reason = "screws of 'Brackets' lie outside EN 1995-1-1 8.7.2: d from 6 mm to 12 mm, thread of at least 6·d"},
         {.label = "brackets that do not make whole rows",
          .change = change_panels([](Panel& panel) {
            for (Part& part : panel.parts) {
              if (part.object_type == "bracket") part.count = 7;
            }
          }),
          .verdict = Verdict::not_assessed,
          .reason =
              "the brackets do not make whole rows: 3.5 would stand in each row of supports; correct their count or "
              "Panel_Structure.SupportSpacing",
          .also_moves = {"*"}},
         {.label = "brackets one by one", .change = part_brackets(), .verdict = Verdict::pass, .also_moves = {"*"}},
         {.label = "one bracket of another resistance",
          .change = together({part_brackets(), change_panels([](Panel& panel) {
                                for (Part& part : panel.parts) {
                                  if (part.object_type != "bracket") continue;
                                  set_fastener(part, "DesignTension", 1000.0);
                                  return;
                                }
                              })}),
          .verdict = Verdict::not_assessed,
          .reason = "brackets of several kinds; their shares of the load are not known",
          .also_moves = {"*"}},
         {.label = "no resistance in shear",
          .change = drop_of_brackets("Panel_Fastener.DesignShear"),
          .verdict = Verdict::not_assessed,
          .reason = "'Brackets' has no Panel_Fastener.DesignShear"},
         {.label = "all materials of one name",
          .change = rename_materials("material"),
          .verdict = Verdict::pass,
          .unchanged = true},
     }})};

const RegisterCases kFrameMovement{
    as_drawn({.check = "structural.frame_movement",
              .sound_project = sound_project,
              .sound_settings = sound_settings,
              .cases = {
                  {.label = "the tolerance takes most", .verdict = Verdict::pass, .value = 0.75},
                  {.label = "the movement takes all that the joint allows",
                   .change = set_setting("structural.frame.deflection_m", 0.020),
                   .verdict = Verdict::pass,
                   .value = 1.0},
                  {.label = "the frame moves more",
                   .change = set_setting("structural.frame.deflection_m", 0.021),
                   .verdict = Verdict::fail,
                   .value = 1.05,
                   .reason = "the frame moves more than joint and fixing at the head allow"},
                  {.label = "brackets of two kinds, the lesser adjustment counts",
                   .change = change_panels([](Panel& panel) {
                     Part anchor = fastener_part("Anchors", "anchor", {{0.0, 0.012, 0.0}, {2.4, 0.157, 3.0}}, 2);
                     set_fastener(anchor, "Adjustment", 0.012);
                     panel.parts.push_back(anchor);
                   }),
                   .verdict = Verdict::fail,
                   .value = 1.25,
                   .reason = "the frame's tolerance is more than the brackets can take up",
                   .also_moves = {"*"}},
                  {.label = "no adjustment",
                   .change = drop_of_brackets("Panel_Fastener.Adjustment"),
                   .verdict = Verdict::not_assessed,
                   .reason = "'Brackets' has no Panel_Fastener.Adjustment"},
              }})};

Project clad_bracing_project() {
  Project project = sound_project();
  clad(project.panels.front());
  return project;
}

Change set_of(const char* part_name, const char* name, double value) {
  return change_panels([part_name, name, value](Panel& panel) {
    for (Part& part : panel.parts) {
      if (part.name == part_name) set_fastener(part, name, value);
    }
  });
}

const RegisterCases kCladdingFixings{as_drawn(
    {.check = "structural.cladding_fixings",
     .sound_project = clad_bracing_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "boards on battens", .verdict = Verdict::pass},
         {.label = "the heads of the battens' screws govern",
          .change = set_of("Batten screws", "HeadPullThrough", 9e6),
          .verdict = Verdict::pass},
         {.label = "threads of the battens' screws, declared",
          .change = set_of("Batten screws", "WithdrawalCapacity", 1200.0),
          .verdict = Verdict::pass},
         {.label = "screws too far apart",
          .change = set_of("Cladding screws", "Spacing", 0.8),
          .verdict = Verdict::fail,
          .reason = "withdrawal of 'Cladding screws' is beyond what is allowed: closer or stronger fixings are needed"},
         {.label = "fewer screws than their spacing asks for",
          .change = set_of("Batten screws", "Spacing", 0.2),
          .verdict = Verdict::not_assessed,
          .reason = "'Batten screws' count 45 (Panel_FastenerQuantities.Count), where 15.0 m of battens at "
                    "Panel_Fastener.Spacing 0.200 m ask for some 75: correct the one that is wrong"},
         {.label = "screws out of the range of the expression",
          .change = set_of("Batten screws", "ScrewPenetration", 0.030),
          .verdict = Verdict::not_assessed,
          .reason = "fixings of 'Batten screws' lie outside EN 1995-1-1 8.7.2, d from 6 mm to 12 mm and thread of at "
                    "least 6·d: state their Panel_Fastener.WithdrawalCapacity"},
         {.label = "no cladding",
          .change = change_panels([](Panel& panel) {
            std::erase_if(panel.parts, [](const Part& part) { return part.kind == PartKind::cladding; });
          }),
          .reason = "the panel bears no cladding",
          .also_moves = {"*"}},
     }})};

}  // namespace
