// Sentences that come with the program, on projects of which something is not proved: each says so, and none reads as
// if it were.
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <string>
#include <vector>

#include "tests/dossier/shipped_guidance.h"

using namespace panel_dossier;
using namespace panel_dossier::test;
using Catch::Matchers::Contains;

namespace {

RecordedFinding finding_on(const std::string& check, Value value, Verdict verdict) {
  Finding finding;
  finding.check = check;
  finding.title = "Finding of " + check;
  finding.value = std::move(value);
  finding.verdict = verdict;
  finding.clause = "EN 99999:2017";
  if (verdict != Verdict::pass && verdict != Verdict::information) finding.reason = "the paper is not there";
  return FindingRecorder().record(finding);
}

void find_of_panel(SyntheticDossier& made, const std::string& check, Value value, Verdict verdict) {
  made.results.panels[0].findings.push_back(finding_on(check, std::move(value), verdict));
}

void find_of_project(SyntheticDossier& made, const std::string& check, Value value, Verdict verdict) {
  made.results.project_findings.push_back(finding_on(check, std::move(value), verdict));
}

void stays_dry(SyntheticDossier& made, Verdict verdict) {
  RecordedFinding finding = finding_on("thermal.interstitial_condensation", std::string("dry"), verdict);
  Finding whole = whole_finding(finding);
  whole.values = {{"punctured", std::string("If it is punctured, nothing condenses."), ""}};
  made.results.panels[0].findings.push_back(FindingRecorder().record(whole));
}

}  // namespace

TEST_CASE("what is not proved is not told as if it were") {
  struct Case {
    const char* label;
    const char* topic;
    const char* says;
    const char* does_not_say;  ///< null: nothing more is asked
    std::function<void(SyntheticDossier&)> change;
  };
  const std::vector<Case> cases{
      {"an opening that nothing fills", "safety.risk", "Fall through the opening (opening)", "(window)",
       [](SyntheticDossier& made) {
         made.project.panels[0].openings.push_back(window(0.6, 0.9, 1.8, 2.1));
         made.project.panels[0].openings[0].filling_entity.clear();
       }},
      {"no order of erection", "safety.dismantling", "the order of erection is not known: 1", "as the table has it",
       [](SyntheticDossier&) {}},
      {"an order of erection", "safety.dismantling", "as the table has it", "is not known",
       [](SyntheticDossier& made) { put_role(made, 0, role::kErection, std::string("3"), Verdict::information); }},
      {"too heavy for the crane", "safety.risk", "That the crane can lift the panel is NOT PROVED: fail", nullptr,
       [](SyntheticDossier& made) { put_role(made, 0, role::kHookLoad, 900.0, Verdict::fail); }},
      {"lifting points without a paper", "safety.risk", "Lifting points are not proved: evidence needed", nullptr,
       [](SyntheticDossier& made) { put_role(made, 0, role::kLifting, 0.4, Verdict::evidence_needed); }},
      {"a barrier against falling that nobody assessed", "safety.risk", "falling is NOT PROVED: not assessed",
       "is stated to be no barrier",
       [](SyntheticDossier& made) { find_of_panel(made, "structural.fall_barrier", {}, Verdict::not_assessed); }},
      {"bracing that nobody assessed", "operation.fixing", "Forbidden: cutting or loosening the bracing boards",
       nullptr, [](SyntheticDossier& made) { find_of_panel(made, "structural.racking", {}, Verdict::not_assessed); }},
      {"a panel that is not part of the bracing", "operation.fixing", "Forbidden: cutting, notching", "bracing boards",
       [](SyntheticDossier& made) {
         find_of_panel(made, "structural.racking", std::string("not part of the bracing"), Verdict::information);
       }},
      {"a wall that is not dry even whole", "operation.puncture", "stays dry is NOT PROVED even while", nullptr,
       [](SyntheticDossier& made) { stays_dry(made, Verdict::fail); }},
      {"a wall that is dry", "operation.puncture", "air that flows through a hole carries far more moisture",
       "NOT PROVED", [](SyntheticDossier& made) { stays_dry(made, Verdict::pass); }},
      {"a building that is not tested", "operation.puncture",
       "the building as a whole, joints included, is airtight is NOT", "By test of the panel",
       [](SyntheticDossier& made) {
         claim(made.results.build, role::kAirTest, "thermal.air_permeability");
         find_of_project(made, "thermal.air_permeability", {}, Verdict::evidence_needed);
       }},
      {"a length of cavity barriers, for information", "fire_safety.required", "and as tested, is NOT PROVED", nullptr,
       [](SyntheticDossier& made) { find_of_project(made, "fire.cavity_barriers", 409.3, Verdict::information); }},
      {"cavity barriers that nobody worked out", "fire_safety.required", "are required is not worked out",
       "by EN 99999",
       [](SyntheticDossier& made) { find_of_project(made, "fire.cavity_barriers", {}, Verdict::not_assessed); }},
      {"no cavity", "fire_safety.required", "none, for no panel has a cavity", "NOT PROVED by this figure",
       [](SyntheticDossier& made) {
         find_of_project(made, "fire.cavity_barriers", std::string("no panel has a cavity outside"),
                         Verdict::information);
       }},
      {"no class required", "fire_safety.required", "is required of the panel is NOT KNOWN", "Fire resistance ≥",
       [](SyntheticDossier&) {}},
      {"no openings for services in the export", "fire_safety.installed", "each hole needs a seal", "NOT PROVED",
       [](SyntheticDossier& made) {
         find_of_panel(made, "fire.penetration_seals", std::string("none in the export"), Verdict::information);
       }},
      {"openings for services", "fire_safety.installed", "Seals of service penetrations: NOT PROVED", "each hole needs",
       [](SyntheticDossier& made) { find_of_panel(made, "fire.penetration_seals", {}, Verdict::evidence_needed); }},
      {"a panel that is not proved to carry its load in a fire", "fire_safety.responsible",
       "not proved to carry their load in a fire: 1", nullptr,
       [](SyntheticDossier& made) { put_role(made, 0, role::kBearingInFire, {}, Verdict::not_assessed); }},
      {"a barrier without a report", "fire_safety.evidence", "Not stated: property 'Panel_FireEvidence.DocumentId'",
       "Test report of the barrier:", [](SyntheticDossier& made) {
         Part barrier = box_part(PartKind::fastener, "Barrier", 0, {0, 0, 3}, {0.1, 0.1, 3.1});
         barrier.object_type = "CAVITY_BARRIER";
         made.project.panels[0].parts.push_back(std::move(barrier));
       }}};
  const GuidanceTables tables = shipped_tables();
  for (const Case& one : cases) {
    INFO(one.label);
    SyntheticDossier made = synthetic_dossier(1, 0);
    one.change(made);
    const std::string texts = all_texts(guidance_of(made, tables), one.topic);
    CHECK_THAT(texts, Contains(one.says));
    if (one.does_not_say != nullptr) CHECK_THAT(texts, !Contains(one.does_not_say));
  }
}
