// Cases of `sound.reduction_index`.
#include "core/api/testing/check_cases.h"
#include "core/api/testing/panels.h"

namespace {

using namespace panel_dossier;
using namespace panel_dossier::testing;

/// The ordinary panel with a requirement, a measurement and its report.
Project sound_project() {
  Project project = TimberPanel().project;
  put(project.panels[0].properties, "Panel_Sound", "TestedReductionIndex", 48.0);
  put(project.panels[0].properties, "Panel_Sound", "TestReport", std::string("ST-1"));
  Evidence report;
  report.id = "ST-1";
  report.status = EvidenceStatus::present;
  project.evidence.push_back(report);
  return project;
}

Settings sound_settings() {
  Settings settings;
  settings.set("sound.required_reduction_index_db", 45.0);
  return settings;
}

constexpr const char* kRequired = "sound.required_reduction_index_db";

const RegisterCases kCases{
    {.check = "sound.reduction_index",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "measured above the requirement", .verdict = Verdict::pass, .value = 48.0},
         {.label = "measured exactly what is required",
          .change = set_setting(kRequired, 48.0),
          .verdict = Verdict::pass,
          .value = 48.0},
         {.label = "measured below",
          .change = set_setting(kRequired, 49.0),
          .verdict = Verdict::fail,
          .value = 48.0,
          .reason = "the measured index is below the required one: add mass or a second lining on resilient bars"},
         {.label = "no requirement: a figure of the mass law",
          .change = drop_setting(kRequired),
          .verdict = Verdict::information},
         {.label = "an estimate never passes",
          .change = drop_of_panels("Panel_Sound.TestedReductionIndex"),
          .verdict = Verdict::evidence_needed,
          .reason =
              "the mass law estimates 38 dB: give Panel_Sound.TestedReductionIndex and Panel_Sound.TestReport of a "
              "measurement to EN ISO 10140-2"},
         {.label = "a report that nobody can read",
          .change = set_of_panels("Panel_Sound.TestReport", std::string("ST-2")),
          .verdict = Verdict::evidence_needed,
          .reason = "Panel_Sound.TestReport 'ST-2' is not among the documents: put the report into the project folder"},
         {.label = "no layers",
          .change = change_panels([](Panel& panel) { panel.layers.clear(); }),
          .verdict = Verdict::not_assessed,
          .reason = "the panel's material layers"},
     }}};

}  // namespace
