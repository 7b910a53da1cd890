// Cases of racking and of the fixings of the sheathing.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const CheckCase kOneName{.label = "all materials of one name",
                         .change = rename_materials("material"),
                         .verdict = Verdict::pass,
                         .unchanged = true};

Change racking_load(double force_n) {
  return set_of_panels("Panel_Structure.RackingLoad", force_n);
}

Change method_b() {
  return set_setting("structural.racking_method", std::string("B"));
}

Change without_tie_downs() {
  return change_panels([](Panel& panel) {
    std::erase_if(panel.parts, [](const Part& part) { return part.object_type == "TIE_DOWN"; });
  });
}

/// Sheets and nails on the outer face too, the nails further apart than inside.
Change sheath_outside(double spacing_m) {
  return [spacing_m](Project& project, Settings&) {
    for (const char* name : {"inner sheet", "right sheet", "nails"}) {
      Part outer = part_named(project, name);
      outer.name = std::string("outer ") + name;
      outer.bounds->min.y = 0.157;
      outer.bounds->max.y = 0.169;
      if (outer.object_type == "NAIL") set_fastener(outer, "Spacing", spacing_m);
      project.panels.front().parts.push_back(std::move(outer));
    }
  };
}

Change set_of_nails(const char* name, double value) {
  return [name, value](Project& project, Settings&) { set_fastener(part_named(project, "nails"), name, value); };
}

/// Its fixings are proved, as those of the sound project's OSB are not.
Project plywood_project() {
  Project project = sound_project();
  Settings settings = sound_settings();
  make_plywood()(project, settings);
  return project;
}

const RegisterCases kRacking{as_drawn(
    {.check = "structural.racking",
     .sound_project = plywood_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "by method A", .verdict = Verdict::pass, .value = 3.0},
         {.label = "by method B", .change = method_b(), .verdict = Verdict::pass, .also_moves = {"*"}},
         {.label = "by method B, a wall longer than it is high",
          .change = together({method_b(), change_panels([](Panel& panel) {
                                panel.height_m.value = 2.0;
                                std::erase_if(panel.parts,
                                              [](const Part& part) { return part.object_type == "LIFTING LOOP"; });
                                for (Part& part : panel.parts) {
                                  if (part.kind == PartKind::rail && part.bounds->min.z > 0.1) {
                                    part.bounds->min.z -= 1.0;
                                  }
                                  if (part.bounds->max.z > 1.0) part.bounds->max.z -= 1.0;
                                }
                              })}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "a second face nailed further apart counts by half",
          .change = sheath_outside(0.15),
          .verdict = Verdict::pass,
          .value = 3.0,
          .also_moves = {"*"}},
         {.label = "fixings nearer to the edge of the sheet than is proved",
          .change = set_of_nails("EdgeDistance", 0.0074),
          .verdict = Verdict::evidence_needed,
          .value = 3.0,
          .reason = "it rests on fixings that are not proved: see structural.sheathing_fixings",
          .also_moves = {"*"}},
         {.label = "not load-bearing",
          .change = make_infill(),
          .verdict = Verdict::information,
          .value = std::string("not part of the bracing"),
          .also_moves = {"*"}},
         // By hand: 1.5 · 4.5/2 · 3.0/1.2 = 8.4375 kN less 0.9 · (0.557 + 8.0) kN/m on 0.6 m.
         {.label = "a load that ends without tie-downs must be held",
          .change = together({racking_load(4500.0), without_tie_downs()}),
          .verdict = Verdict::evidence_needed,
          .reason = "the end of a bracing wall must be tied down, 9.2.4.2(1): a tie-down (fastener TIE_DOWN with "
                    "Panel_Fastener.DesignTension) for 3.82 kN at x = 0.00 m; a tie-down (fastener TIE_DOWN with "
                    "Panel_Fastener.DesignTension) for 3.82 kN at x = 2.40 m",
          .also_moves = {"*"}},
         {.label = "a load beyond the sheathing",
          .change = racking_load(60000.0),
          .verdict = Verdict::fail,
          .reason = "the racking load exceeds the resistance of the sheathing",
          .also_moves = {"*"}},
         {.label = "a negative load",
          .change = racking_load(-1.0),
          .verdict = Verdict::not_assessed,
          .reason = "Panel_Structure.RackingLoad of a load-bearing panel (characteristic, at its head, not negative; 0 "
                    "where it is no part of the bracing)",
          .also_moves = {"*"}},
         kOneName,
     }})};

const RegisterCases kFixings{as_drawn(
    {.check = "structural.sheathing_fixings",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "nails by method A in plywood",
          .change = make_plywood(),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "in OSB at less than table 8.2 asks for",
          .verdict = Verdict::evidence_needed,
          .reason = "distance from the edge of the sheet of 9.0 mm keeps 3 d by common practice, but EN "
                    "1995-1-1:2004+A1:2008 table 8.2 asks for "
                    "12.5 mm: a declaration of this fastener in this board, or a wider distance "
                    "(Panel_Fastener.EdgeDistance)"},
         {.label = "by method B",
          .change = together({make_plywood(), method_b()}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "screws, by the root of their thread",
          .change = together({make_plywood(),
                              [](Project& project, Settings&) {
                                Part& nails = part_named(project, "nails");
                                nails.object_type = "SCREW";
                                set_fastener(nails, "RootDiameter", 0.0020);
                              }}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "screws whose smooth shank stands in the timber",
          .change = together({make_plywood(),
                              [](Project& project, Settings&) {
                                Part& nails = part_named(project, "nails");
                                nails.object_type = "SCREW";
                                set_fastener(nails, "SmoothShankLength", 0.025);
                              }}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "no racking load",
          .change = racking_load(0.0),
          .verdict = Verdict::information,
          .value = std::string("no racking load"),
          .also_moves = {"*"}},
         {.label = "not load-bearing",
          .change = make_infill(),
          .verdict = Verdict::information,
          .value = std::string("no racking load"),
          .also_moves = {"*"}},
         {.label = "a load beyond the fasteners",
          .change = racking_load(60000.0),
          .verdict = Verdict::fail,
          .reason = "the force on a fastener exceeds its resistance",
          .also_moves = {"*"}},
         {.label = "nails at 3 d from the edge of the sheet",
          .change = together({make_plywood(), set_of_nails("EdgeDistance", 0.0075)}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "nails nearer than that",
          .change = set_of_nails("EdgeDistance", 0.0074),
          .verdict = Verdict::fail,
          .reason = "distance from the edge of the sheet is not kept (EN 1995-1-1:2004+A1:2008 table 8.2: 3 d, common "
                    "practice; table 8.2 "
                    "(a_4,c) asks "
                    "for 5 d)"},
         {.label = "no edge distance",
          .change = [](Project& project,
                       Settings&) { remove(part_named(project, "nails").properties, "Panel_Fastener.EdgeDistance"); },
          .verdict = Verdict::not_assessed,
          .reason = "Panel_Fastener.EdgeDistance of 'nails' (distance from the edge of a sheet)",
          .also_moves = {"*"}},
         {.label = "all materials of one name",
          .change = rename_materials("material"),
          .verdict = Verdict::evidence_needed,
          .reason = "distance from the edge of the sheet of 9.0 mm keeps 3 d by common practice, but EN "
                    "1995-1-1:2004+A1:2008 table 8.2 asks for "
                    "12.5 mm: a declaration of this fastener in this board, or a wider distance "
                    "(Panel_Fastener.EdgeDistance)",
          .unchanged = true},
     }})};

}  // namespace
