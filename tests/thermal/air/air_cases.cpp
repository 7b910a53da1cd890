// Cases of air permeability, of a panel and of the building, and of joints to be sealed.
#include "core/api/testing/check_cases.h"
#include "core/api/testing/panels.h"
#include "tests/thermal/heated_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kPermeability = "thermal.air_permeability";
constexpr const char* kJoints = "thermal.joint_length";
constexpr const char* kMeasured = "Panel_Air.PermeabilityQ50";
constexpr const char* kReport = "Panel_Air.DocumentId";

Project timber_project() {
  return HeatedPanel().project;
}

Settings timber_settings() {
  return HeatedPanel().settings;
}

/// A test of the building with its report.
Change tested(double q50) {
  return together({set_of_project(kMeasured, q50), set_of_project(kReport, "AIR-1")});
}

Change report_is(EvidenceStatus status) {
  return [status](Project& project, Settings&) { project.evidence.front().status = status; };
}

const RegisterCases kPanelCases{
    {.check = kPermeability,
     .sound_project = timber_project,
     .sound_settings = timber_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::pass, .value = 0.6},
         {.label = "the limit itself", .change = set_of_panels(kMeasured, 8.0), .verdict = Verdict::pass, .value = 8.0},
         {.label = "over the limit",
          .change = set_of_panels(kMeasured, 8.01),
          .verdict = Verdict::fail,
          .value = 8.01,
          .reason = "measured 8.01 m³/(h·m²) is above 8.00; find and seal the leaks, then test again"},
         {.label = "a design value goes before the limit",
          .change = set_setting("thermal.design_q50_m3_per_hm2", 0.5),
          .verdict = Verdict::fail,
          .value = 0.6,
          .reason = "measured 0.60 m³/(h·m²) is above 0.50; find and seal the leaks, then test again"},
         {.label = "the design value itself",
          .change = set_setting("thermal.design_q50_m3_per_hm2", 0.6),
          .verdict = Verdict::pass,
          .value = 0.6},
         {.label = "a design value above the limit of the rule",
          .change = together({set_setting("thermal.design_q50_m3_per_hm2", 12.0), set_of_panels(kMeasured, 10.0)}),
          .verdict = Verdict::fail,
          .value = 10.0,
          .reason = "measured 10.00 m³/(h·m²) is above 8.00; find and seal the leaks, then test again"},
         {.label = "no report named",
          .change = drop_of_panels(kReport),
          .verdict = Verdict::evidence_needed,
          .value = 0.6,
          .reason = "the measured air permeability names no test report (Panel_Air.DocumentId); name the document that "
                    "holds it"},
         {.label = "a report that the export does not have",
          .change = set_of_panels(kReport, "AIR-2"),
          .verdict = Verdict::evidence_needed,
          .value = 0.6,
          .reason = "no document of the export has the identification 'AIR-2' that Panel_Air.DocumentId names "
                    "(IfcPropertySingleValue DocumentId, 0000000000000000000001, line 7); put the test report there"},
         {.label = "a report whose file is gone",
          .change = report_is(EvidenceStatus::missing),
          .verdict = Verdict::evidence_needed,
          .value = 0.6,
          .reason = "document 'AIR-1': missing: no file at that place ('evidence/air.pdf')"},
         {.label = "an emptied report",
          .change = report_is(EvidenceStatus::empty),
          .verdict = Verdict::evidence_needed,
          .value = 0.6,
          .reason = "document 'AIR-1': the file is empty ('evidence/air.pdf')"},
         {.label = "a report of a fire test",
          .change = [](Project& project, Settings&) { project.evidence.front().kind = EvidenceKind::fire_test_report; },
          .verdict = Verdict::evidence_needed,
          .value = 0.6,
          .reason = "document 'AIR-1' is of the kind 'fire test report'; needed: air test report"},
         {.label = "a report of the day after",
          .change = [](Project& project, Settings&) { project.evidence.front().issued = "2026-06-02"; },
          .verdict = Verdict::evidence_needed,
          .value = 0.6,
          .reason =
              "document 'AIR-1' is not issued on the assessment date 2026-06-01 (project.assessment_date): its day is "
              "2026-06-02"},
         {.label = "not measured",
          .change = drop_of_panels(kMeasured),
          .verdict = Verdict::evidence_needed,
          .reason = "no measured air permeability (Panel_Air.PermeabilityQ50); test the panel or one of its type"},
         {.label = "nothing leaks at all: no measurement",
          .change = set_of_panels(kMeasured, 0.0),
          .verdict = Verdict::not_assessed,
          .reason =
              "measured air permeability at 50 Pa must be greater than zero (IfcPropertySingleValue PermeabilityQ50, "
              "0000000000000000000001, line 7)"},
         {.label = "a place without a limit",
          .change = set_setting("project.jurisdiction", "Atlantis"),
          .verdict = Verdict::not_assessed,
          .reason = "air_permeability_limits.csv holds no limit for buildings other than dwellings in 'Atlantis' on "
                    "2026-06-01 (settings project.jurisdiction, project.use, project.assessment_date)",
          .also_moves = {"thermal.u_value", "thermal.surface_temperature_factor",
                         "thermal.junction_temperature_factor"}},
     }}};

const RegisterCases kBuildingCases{
    {.check = kPermeability,
     .sound_project = timber_project,
     .sound_settings = timber_settings,
     .cases =
         {
             {.label = "not tested yet",
              .verdict = Verdict::evidence_needed,
              .reason = "the whole building is not tested yet; once it is, put the result on IfcBuilding as "
                        "Panel_Air.PermeabilityQ50 or Panel_Air.AirChangeRateN50, the report as Panel_Air.DocumentId"},
             {.label = "measured and no report named",
              .change = set_of_project(kMeasured, 3.0),
              .verdict = Verdict::evidence_needed,
              .value = 3.0,
              .reason = "the measured air permeability names no test report (Panel_Air.DocumentId); name the document "
                        "that holds it"},
             {.label = "an air change rate that says something else",
              .change = together({tested(5.6), set_of_project("Panel_Air.AirChangeRateN50", 2.5),
                                  set_setting("building.volume_m3", 3000.0),
                                  set_setting("building.envelope_area_m2", 1500.0)}),
              .verdict = Verdict::not_assessed,
              .reason =
                  "Panel_Air.PermeabilityQ50 is 5.60 m³/(h·m²) (IfcPropertySingleValue Panel_Air.PermeabilityQ50, "
                  "0000000000000000000001, line 7) and Panel_Air.AirChangeRateN50 of 2.50 1/h "
                  "(IfcPropertySingleValue Panel_Air.AirChangeRateN50, 0000000000000000000001, line 7) gives 5.00 "
                  "with building.volume_m3 and building.envelope_area_m2: one of them is wrong"},
             {.label = "the limit itself", .change = tested(8.0), .verdict = Verdict::pass, .value = 8.0},
             {.label = "over the limit",
              .change = set_of_project(kMeasured, 9.0),
              .verdict = Verdict::fail,
              .value = 9.0,
              .reason = "measured 9.00 m³/(h·m²) is above 8.00; find and seal the leaks, then test again"},
             {.label = "from the air change rate",
              .change = together({set_of_project("Panel_Air.AirChangeRateN50", 2.5), set_of_project(kReport, "AIR-1"),
                                  set_setting("building.volume_m3", 3000.0),
                                  set_setting("building.envelope_area_m2", 1500.0)}),
              .verdict = Verdict::pass,
              .value = 5.0},
             {.label = "the air change rate of a building of unknown size",
              .change = set_of_project("Panel_Air.AirChangeRateN50", 2.5),
              .verdict = Verdict::not_assessed,
              .reason = "setting 'building.volume_m3' is missing; setting 'building.envelope_area_m2' is missing"},
         },
     .of_project = true}};

const RegisterCases kJointCases{
    {.check = kJoints,
     .sound_project = timber_project,
     .sound_settings = timber_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 2.0 * (2.4 + 2.7)},
         {.label = "two windows",
          .change = change_panels([](Panel& panel) {
            add_window(panel, 0.7, 1.1, 1.0, 2.0, 1.2);
            add_window(panel, 1.3, 1.7, 1.0, 1.5, 1.2);
          }),
          .verdict = Verdict::information,
          .value = 2.0 * (2.4 + 2.7) + 2.0 * (0.4 + 1.0) + 2.0 * (0.4 + 0.5),
          .also_moves = {"*"}},
         {.label = "a panel without a height",
          .change = change_panels([](Panel& panel) { panel.height_m.value = 0.0; }),
          .verdict = Verdict::not_assessed,
          .reason = "height of the panel must be greater than zero (IfcWall Height, 0000000000000000000001, line 7)",
          .also_moves = {"*"}}}}};

const RegisterCases kAllJointCases{
    {.check = kJoints,
     .sound_project = timber_project,
     .sound_settings = timber_settings,
     .cases = {{.label = "two panels",
                .change = [](Project& project, Settings&) { project.panels.push_back(project.panels.front()); },
                .verdict = Verdict::information,
                .value = 4.0 * (2.4 + 2.7),
                .also_moves = {"*"}}},
     .of_project = true}};

}  // namespace
