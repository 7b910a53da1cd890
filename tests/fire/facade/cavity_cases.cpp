// Cases of cavity barriers, of a panel and of the project.
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
         {.label = "closed at its foot", .verdict = Verdict::information, .value = 2.4},
         {.label = "no cavity, though an outer leaf may make one on site: not seen",
          .change = change_panels([](Panel& panel) { panel.layers.erase(panel.layers.begin() + 3); }),
          .verdict = Verdict::information,
          .value = "no cavity outside"},
         // Foot 2.4, head and sill 1.2 each, jambs 1.5 each.
         {.label = "round a window",
          .change = change_panels([](Panel& panel) { panel.openings.push_back(cavity_window()); }),
          .verdict = Verdict::information,
          .value = 7.8,
          .also_moves = {kMass}},
         {.label = "at the head where no storey lies above",
          .change = [](Project& project, Settings&) { project.storeys.pop_back(); },
          .verdict = Verdict::information,
          .value = 4.8},
         {.label = "at a floor that it passes",
          .change = change_panels([](Panel& panel) { panel.height_m.value = 6.0; }),
          .verdict = Verdict::information,
          .value = 7.2,
          .also_moves = {kMass}},
         {.label = "not at a floor of the same compartment",
          .change = together({change_panels([](Panel& panel) { panel.height_m.value = 6.0; }),
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

const RegisterCases kProjectCases{{.check = kBarriers,
                                   .sound_project = panel_with_cavity,
                                   .sound_settings = cassette_settings,
                                   .cases =
                                       {
                                           // Foot 2.4 m and two ends of 3 m.
                                           {.label = "one panel", .verdict = Verdict::information, .value = 8.4},
                                           {.label = "no cavity",
                                            .change = change_panels([](Panel& panel) { panel.layers.resize(3); }),
                                            .verdict = Verdict::information,
                                            .value = "no panel has a cavity outside"},
                                           // 20 m at most: 19.2 m in one run need none between, 21.6 m one.
                                           {.label = "a run shorter than the limit",
                                            .change = in_line(8),
                                            .verdict = Verdict::information,
                                            .value = 8 * 2.4 + 2 * 3.0,
                                            .also_moves = {kMass}},
                                           {.label = "a run longer than the limit",
                                            .change = in_line(9),
                                            .verdict = Verdict::information,
                                            .value = 9 * 2.4 + 3 * 3.0,
                                            .also_moves = {kMass}},
                                           {.label = "panels 49 mm apart: their cavity runs on",
                                            .change = beside(0.049),
                                            .verdict = Verdict::information,
                                            .value = 2 * 2.4 + 2 * 3.0,
                                            .also_moves = {kMass}},
                                           {.label = "panels 51 mm apart: each cavity ends",
                                            .change = beside(0.051),
                                            .verdict = Verdict::information,
                                            .value = 2 * 2.4 + 4 * 3.0,
                                            .also_moves = {kMass}},
                                       },
                                   .of_project = true}};

}  // namespace
