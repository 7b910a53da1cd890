// Cases of cavity barriers, of a panel and of the project.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/fire/facade/cavity_panel.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kBarriers = "fire.cavity_barriers";
constexpr const char* kMass = "fire.during_construction";

Change with_barrier(double to_x_m) {
  return change_panels([to_x_m](Panel& panel) { panel.parts.push_back(foot_barrier(to_x_m)); });
}

const RegisterCases kCavityCases{
    {.check = kBarriers,
     .sound_project = panel_with_cavity,
     .sound_settings = cassette_settings,
     .cases = {
         // Foot 2.4 m; the panel above closes the head.
         {.label = "no barrier at its foot",
          .verdict = Verdict::evidence_needed,
          .value = 2.4,
          .reason = "the export has no cavity barrier in the cavity (parts of ObjectType CAVITY_BARRIER); 2.4 m are "
                    "needed: foot of the cavity"},
         {.label = "closed at its foot",
          .change = with_barrier(2.4),
          .verdict = Verdict::information,
          .value = 2.4,
          .also_moves = {kMass}},
         {.label = "no cavity, though an outer leaf may make one on site: not seen",
          .change = change_panels([](Panel& panel) { panel.layers.erase(panel.layers.begin() + 3); }),
          .verdict = Verdict::information,
          .value = "no cavity outside"},
         // Foot 2.4, head and sill 1.2 each, jambs 1.5 each.
         {.label = "round a window",
          .change = change_panels([](Panel& panel) { panel.openings.push_back(cavity_window()); }),
          .verdict = Verdict::evidence_needed,
          .value = 7.8,
          .reason = "the export has no cavity barrier in the cavity (parts of ObjectType CAVITY_BARRIER); 7.8 m are "
                    "needed: foot of the cavity, head of 'W', sill of 'W', left jamb of 'W', right jamb of 'W'",
          .also_moves = {kMass}},
         {.label = "at the head where no storey lies above",
          .change = [](Project& project, Settings&) { project.storeys.pop_back(); },
          .verdict = Verdict::evidence_needed,
          .value = 4.8,
          .reason = "the export has no cavity barrier in the cavity (parts of ObjectType CAVITY_BARRIER); 4.8 m are "
                    "needed: foot of the cavity, head of the cavity"},
         {.label = "at a floor that it passes, foot and head closed",
          .change = together({change_panels([](Panel& panel) {
            panel.height_m.value = 6.0;
            panel.parts.push_back(foot_barrier(2.4));
            panel.parts.push_back(cavity_barrier(0.0, 2.4, 5.95, 6.05));
          })}),
          .verdict = Verdict::evidence_needed,
          .value = 7.2,
          .reason = "cavity barriers of the export do not cover: floor 'upper'",
          .also_moves = {kMass}},
         {.label = "not at a floor of the same compartment",
          .change = together({change_panels([](Panel& panel) {
                                panel.height_m.value = 6.0;
                                panel.parts.push_back(foot_barrier(2.4));
                                panel.parts.push_back(cavity_barrier(0.0, 2.4, 5.95, 6.05));
                              }),
                              set_setting("fire.compartment_floors", false)}),
          .verdict = Verdict::information,
          .value = 4.8,
          .also_moves = {kMass}},
         {.label = "a barrier 10 mm too short: cutting and fitting",
          .change = with_barrier(2.3901),
          .verdict = Verdict::information,
          .value = 2.4,
          .also_moves = {kMass}},
         {.label = "a barrier that leaves more bare",
          .change = with_barrier(2.3899),
          .verdict = Verdict::evidence_needed,
          .value = 2.4,
          .reason = "cavity barriers of the export do not cover: foot of the cavity",
          .also_moves = {kMass}},
         {.label = "not known which face is outside",
          .change = change_panels([](Panel& panel) { panel.outside_known = false; }),
          .verdict = Verdict::not_assessed,
          .reason = "which face is outside is not known (Panel_Construction.FirstLayerFace or setting "
                    "intake.layer_order)",
          .also_moves = {"fire.reaction_to_fire", "fire.external_wall_material"}},
     }}};

/// Copies of the panel beside it, so that there are `count` in line with 10 mm between them.
Change in_line(int count) {
  return [count](Project& project, Settings&) {
    for (int i = 1; i < count; ++i) {
      project.panels.push_back(project.panels.front());
      project.panels.back().frame.origin.x = 2.41 * i;
    }
  };
}

/// A second panel whose left end stands `gap_m` from the right end of the first.
Change beside(double gap_m) {
  return [gap_m](Project& project, Settings&) {
    project.panels.push_back(project.panels.front());
    project.panels.back().frame.origin.x = 2.4 + gap_m;
  };
}

std::string not_there(const char* needed_m, const char* lacking_m) {
  return std::string(needed_m) + " m of cavity barriers are needed, and " + lacking_m +
         " m of them are not in the export (parts of ObjectType CAVITY_BARRIER)";
}

/// Barriers at the foot of each panel and at both its edges.
Change closed_all_round() {
  return change_panels([](Panel& panel) {
    panel.parts.push_back(foot_barrier(2.4));
    panel.parts.push_back(upright_barrier(0.0));
    panel.parts.push_back(upright_barrier(2.3));
  });
}

/// One in the middle of this panel of the run.
Change upright_in(std::size_t panel) {
  return [panel](Project& project, Settings&) { project.panels.at(panel).parts.push_back(upright_barrier(1.15)); };
}

const RegisterCases kProjectCases{
    {.check = kBarriers,
     .sound_project = panel_with_cavity,
     .sound_settings = cassette_settings,
     .cases =
         {
             // Foot 2.4 m and two ends of 3 m.
             {.label = "one panel",
              .verdict = Verdict::evidence_needed,
              .value = 8.4,
              .reason = not_there("8.4", "8.4")},
             {.label = "one panel with all its barriers",
              .change = closed_all_round(),
              .verdict = Verdict::information,
              .value = 8.4,
              .also_moves = {kMass}},
             {.label = "no cavity",
              .change = change_panels([](Panel& panel) { panel.layers.resize(3); }),
              .verdict = Verdict::information,
              .value = "no panel has a cavity outside"},
             {.label = "the class of a surface of the cavity is not known",
              .change = together({closed_all_round(), drop_of_material(kGypsum, "Panel_Fire.ReactionToFire")}),
              .verdict = Verdict::evidence_needed,
              .value = 8.4,
              .reason = "1 panels with a cavity: its largest undivided length is not told (no row for "
                        "project.jurisdiction in cavity_limits.csv, or a surface without Panel_Fire.ReactionToFire)",
              .also_moves = {"*"}},
             // 20 m at most: 19.2 m in one run need none between, 21.6 m one.
             {.label = "a run shorter than the limit",
              .change = in_line(8),
              .verdict = Verdict::evidence_needed,
              .value = 8 * 2.4 + 2 * 3.0,
              .reason = not_there("25.2", "25.2"),
              .also_moves = {kMass}},
             {.label = "a run longer than the limit",
              .change = in_line(9),
              .verdict = Verdict::evidence_needed,
              .value = 9 * 2.4 + 3 * 3.0,
              .reason = not_there("30.6", "30.6"),
              .also_moves = {kMass}},
             {.label = "a run longer than the limit with a barrier in its middle",
              .change = together({in_line(9), upright_in(4)}),
              .verdict = Verdict::evidence_needed,
              .value = 9 * 2.4 + 3 * 3.0,
              .reason = not_there("30.6", "27.6"),
              .also_moves = {kMass}},
             {.label = "panels 49 mm apart: their cavity runs on",
              .change = beside(0.049),
              .verdict = Verdict::evidence_needed,
              .value = 2 * 2.4 + 2 * 3.0,
              .reason = not_there("10.8", "10.8"),
              .also_moves = {kMass}},
             {.label = "panels 51 mm apart: each cavity ends",
              .change = beside(0.051),
              .verdict = Verdict::evidence_needed,
              .value = 2 * 2.4 + 4 * 3.0,
              .reason = not_there("16.8", "16.8"),
              .also_moves = {kMass}},
         },
     .of_project = true}};

}  // namespace
