// Cases of studs and posts.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// Both materials of the frame and its sheets under one name: members and sheets are known by index.
const CheckCase kOneName{.label = "all materials of one name",
                         .change = rename_materials("material"),
                         .verdict = Verdict::pass,
                         .unchanged = true};

/// 7 m high with supports every 3 m: 1 m stands above the highest.
Change raise(double height_m) {
  return together({change_panels([height_m](Panel& panel) {
                     const double more_m = height_m - panel.height_m.value;
                     panel.height_m.value = height_m;
                     for (Part& part : panel.parts) {
                       const bool at_head = part.kind == PartKind::rail && part.bounds->min.z > 0.1;
                       if (at_head || part.object_type == "LIFTING LOOP") part.bounds->min.z += more_m;
                       if (part.bounds->max.z > 1.0) part.bounds->max.z += more_m;
                       if (part.kind == PartKind::stud) part.volume_m3.value().value *= 1.0 + more_m / 2.91;
                     }
                   }),
                   set_of_panels("Panel_Structure.SupportSpacing", 3.0)});
}

Change without_sheets() {
  return together({drop_parts(PartKind::sheet), change_panels([](Panel& panel) { panel.layers.clear(); })});
}

const RegisterCases kBending{
    as_drawn({.check = "structural.stud_bending",
              .sound_project = sound_project,
              .sound_settings = sound_settings,
              .cases = {
                  {.label = "as made", .verdict = Verdict::pass},
                  {.label = "not load-bearing", .change = make_infill(), .verdict = Verdict::pass, .also_moves = {"*"}},
                  {.label = "glued laminated timber",
                   .change = set_of_material(kTimber, "Pset_MaterialWood.StrengthGrade", std::string("GL24h")),
                   .verdict = Verdict::pass,
                   .also_moves = {"*"}},
                  {.label = "persons leaning on the panel",
                   .change = make_barrier(),
                   .verdict = Verdict::pass,
                   .also_moves = {"*"}},
                  {.label = "expressions (6.10a) and (6.10b)",
                   .change = set_setting("structural.combination", std::string("6.10a and b")),
                   .verdict = Verdict::pass,
                   .also_moves = {"*"}},
                  {.label = "two spans and a part above them",
                   .change = raise(7.0),
                   .verdict = Verdict::pass,
                   .also_moves = {"*"}},
                  {.label = "with sheets by annex B",
                   .change = set_setting("structural.composite_sheathing", std::string("annex B")),
                   .verdict = Verdict::pass,
                   .also_moves = {"structural.deflection", "structural.composite_action"}},
                  {.label = "nine times the wind",
                   .change = wind_of(9000.0),
                   .verdict = Verdict::fail,
                   .reason = "bending stress exceeds the bending strength of 'S3'",
                   .also_moves = {"*"}},
                  {.label = "unknown strength class",
                   .change = set_of_material(kTimber, "Pset_MaterialWood.StrengthGrade", std::string("C99")),
                   .verdict = Verdict::not_assessed,
                   .reason = "strength class 'C99' of material 'softwood' is unknown",
                   .also_moves = {"*"}},
                  kOneName,
              }})};

const RegisterCases kStability{as_drawn(
    {.check = "structural.stud_stability",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::pass},
         {.label = "without sheets the studs buckle along the wall and twist",
          .change = together({without_sheets(), make_infill()}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "a part above the highest support buckles over twice its length",
          .change = together({raise(4.6), make_infill()}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "persons leaning on the panel",
          .change = make_barrier(),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "ten times the load on the head",
          .change = set_of_panels("Panel_Structure.PermanentLineLoad", 80000.0),
          .verdict = Verdict::fail,
          .reason = "compression and bending together exceed the resistance of 'S3'",
          .also_moves = {"*"}},
         {.label = "a racking load that governs an end stud",
          .change = set_of_panels("Panel_Structure.RackingLoad", 60000.0),
          .verdict = Verdict::fail,
          .reason = "compression and bending together exceed the resistance of 'S5'",
          .also_moves = {"structural.racking", "structural.sheathing_fixings"}},
         {.label = "an edge of the sheathing without a stud",
          .change = [](Project& project, Settings&) { part_named(project, "right sheet").bounds->min.x = 1.4; },
          .verdict = Verdict::not_assessed,
          .reason =
              "the compression from racking, which is not known without a stud over the height of the panel under "
              "the edge of the sheathing at x = 1.400 m",
          .also_moves = {"*"}},
         kOneName,
     }})};

const RegisterCases kShear{as_drawn(
    {.check = "structural.stud_shear",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::pass},
         {.label = "simple spans", .change = make_infill(), .verdict = Verdict::pass, .also_moves = {"*"}},
         {.label = "two spans and a part above them",
          .change = raise(7.0),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "nine times the wind",
          .change = wind_of(9000.0),
          .verdict = Verdict::fail,
          .reason = "shear stress exceeds the shear strength of 'S3'",
          .also_moves = {"*"}},
         {.label = "no national annex",
          .change = drop_setting("structural.national_annex"),
          .verdict = Verdict::not_assessed,
          .reason = "setting structural.national_annex (recommended or UK); no partial or deformation factor for solid "
                    "timber",
          .also_moves = {"*"}},
         kOneName,
     }})};

const RegisterCases kDeflection{
    as_drawn({.check = "structural.deflection",
              .sound_project = sound_project,
              .sound_settings = sound_settings,
              .cases = {
                  {.label = "as made", .verdict = Verdict::pass},
                  {.label = "simple spans, not load-bearing",
                   .change = make_infill(),
                   .verdict = Verdict::pass,
                   .also_moves = {"*"}},
                  {.label = "a finish in place of the ratio",
                   .change = together({drop_setting("structural.deflection_limit_ratio"),
                                       set_setting("structural.deflection_finish", std::string("masonry"))}),
                   .verdict = Verdict::pass},
                  {.label = "persons leaning on the panel",
                   .change = make_barrier(),
                   .verdict = Verdict::pass,
                   .also_moves = {"*"}},
                  {.label = "with sheets by annex B",
                   .change = set_setting("structural.composite_sheathing", std::string("annex B")),
                   .verdict = Verdict::pass,
                   .also_moves = {"structural.stud_bending", "structural.composite_action"}},
                  {.label = "the top of a panel that stands far above its highest support",
                   .change = raise(5.4),
                   .verdict = Verdict::fail,
                   .reason = "deflection of the top of 'S3' exceeds its limit",
                   .also_moves = {"*"}},
                  {.label = "four times the wind",
                   .change = wind_of(4000.0),
                   .verdict = Verdict::fail,
                   .reason = "deflection of 'S3' exceeds its limit",
                   .also_moves = {"*"}},
                  {.label = "no limit",
                   .change = drop_setting("structural.deflection_limit_ratio"),
                   .verdict = Verdict::not_assessed,
                   .reason = "setting structural.deflection_limit_ratio"},
                  kOneName,
              }})};

Settings annex_b_settings() {
  Settings settings = sound_settings();
  settings.set("structural.composite_sheathing", std::string("annex B"));
  return settings;
}

Project sheathed_on_both_faces() {
  Project project = sound_project();
  for (const char* name : {"inner sheet", "right sheet", "nails"}) {
    Part outer = part_named(project, name);
    outer.name = std::string("outer ") + name;
    outer.bounds->min.y = 0.157;
    outer.bounds->max.y = 0.169;
    project.panels.front().parts.push_back(std::move(outer));
  }
  return project;
}

const RegisterCases kComposite{as_drawn(
    {.check = "structural.composite_action",
     .sound_project = sound_project,
     .sound_settings = annex_b_settings,
     .cases = {
         {.label = "a sheet on one face", .verdict = Verdict::pass},
         {.label = "not asked for",
          .change = set_setting("structural.composite_sheathing", std::string("neglected")),
          .reason =
              "the settings do not ask for composite action of studs and sheathing (structural.composite_sheathing)",
          .also_moves = {"structural.stud_bending", "structural.deflection"}},
         {.label = "fasteners that are too weak for the slip force",
          .change = wind_of(9000.0),
          .verdict = Verdict::fail,
          .reason = "stud, sheet or fastener of 'S2' is overloaded when they work together",
          .also_moves = {"*"}},
         {.label = "a sheet without a density",
          .change = together({drop_of_material(kOsb, "Pset_MaterialCommon.MassDensity"),
                              set_of_parts(PartKind::sheet, "Qto_PlateBaseQuantities.NetWeight", 20.0)}),
          .verdict = Verdict::not_assessed,
          .reason = "mean density of OSB/3 (Pset_MaterialCommon.MassDensity of the sheet's material)",
          .also_moves = {"*"}},
         kOneName,
     }})};

const RegisterCases kCompositeOnBothFaces{
    as_drawn({.check = "structural.composite_action",
              .sound_project = sheathed_on_both_faces,
              .sound_settings = annex_b_settings,
              .cases = {{.label = "equal sheets", .verdict = Verdict::pass},
                        {.label = "screws slip less and so take more than they can",
                         .change = change_panels([](Panel& panel) {
                           for (Part& part : panel.parts) {
                             if (part.object_type == "NAIL") {
                               part.object_type = "SCREW";
                               set_fastener(part, "RootDiameter", 0.002);
                             }
                           }
                         }),
                         .verdict = Verdict::fail,
                         .reason = "stud, sheet or fastener of 'S2' is overloaded when they work together",
                         .also_moves = {"*"}}}})};

}  // namespace
