// What open findings miss, read out of their reasons and held against what the project has.
#include "core/pipeline/gaps.h"

#include <catch2/catch.hpp>
#include <utility>

using namespace panel_dossier;

namespace {

PropertyRow row(std::string set, std::string name, std::string on) {
  PropertyRow made;
  made.set = std::move(set);
  made.property = std::move(name);
  made.on = std::move(on);
  return made;
}

const std::vector<PropertyRow> kRows{row("Pset_Thermal", "Conductivity", "material"),
                                     row("Panel_Air", "Q50", "panel"),
                                     row("Panel_Air", "Q50", "building"),
                                     row("Pset_Window", "U", "filling"),
                                     row("Panel_Screw", "Diameter", "part"),
                                     row("Panel_Note", "Text", "panel")};

Finding open_finding(const std::string& check, const std::string& reason) {
  Finding made;
  made.check = check;
  made.verdict = Verdict::not_assessed;
  made.reason = reason;
  return made;
}

Project two_panels() {
  Project project;
  project.materials.resize(2);
  project.materials[0].name = "wool's best";
  project.materials[1].name = "board";
  project.panels.resize(2);
  project.panels[0].mark = "A";
  project.panels[1].mark = "B";
  project.panels[0].openings.resize(1);
  project.panels[0].openings[0].filling_name = "W1";
  project.panels[1].parts.resize(1);
  project.panels[1].parts[0].name = "screw";
  return project;
}

Results results_with(std::vector<Finding> first, std::vector<Finding> second, std::vector<Finding> project = {}) {
  CheckDeclaration check;
  check.id = "heat.u";
  check.inputs = {property("Pset_Thermal.Conductivity"), property("Panel_Air.Q50"), property("Pset_Window.U"),
                  property("Panel_Screw.Diameter"),      setting("heat.climate"),   setting("heat.cranes.*.radius_m")};
  Results results;
  results.plugins.resize(1);
  results.plugins[0].info.id = "heat";
  results.plugins[0].info.title = "Heat";
  results.plugins[0].checks = {check};
  FindingRecorder recorder;
  results.panel_findings = {recorder.record_all(std::move(first)), recorder.record_all(std::move(second))};
  results.project_findings = recorder.record_all(std::move(project));
  return results;
}

std::vector<Gap> gaps(const Project& project, const Settings& settings, const Results& results) {
  return gaps_of(project, settings, results, kRows);
}

}  // namespace

TEST_CASE("A property of a material is a gap of the material that the reason names", "[pipeline]") {
  Project project = two_panels();
  const std::string reason =
      "material 'wool's best' has no Pset_Thermal.Conductivity above 0; material 'board' has no density";
  const Results results = results_with({open_finding("heat.u", reason)}, {open_finding("heat.u", reason)});
  const auto found = gaps(project, {}, results);
  REQUIRE(found.size() == 1);
  CHECK(found[0].name == "Pset_Thermal.Conductivity");
  CHECK(found[0].subjects == std::set<std::string>{"wool's best"});
  CHECK(found[0].panels == std::set<std::size_t>{0, 1});
  CHECK(found[0].disciplines == std::set<std::string>{"heat"});
  CHECK_FALSE(found[0].whole_project);

  project.materials[0].properties.add("Pset_Thermal", "Conductivity", {-1.0, "", {}});
  CHECK(gaps(project, {}, results).empty());  // it is there, and wrong
}

TEST_CASE("What hangs on a panel is a gap of the panels whose findings name it", "[pipeline]") {
  Project project = two_panels();
  project.panels[1].properties.add("Panel_Air", "Q50", {1.0, "", {}});
  const Finding finding = open_finding("heat.air", "no measured value (Panel_Air.Q50); test it");
  const auto found = gaps(project, {}, results_with({finding}, {finding}, {finding}));
  REQUIRE(found.size() == 2);  // of a panel, and of the building
  CHECK(found[0].property->on == "building");
  CHECK(found[0].whole_project);
  CHECK(found[1].property->on == "panel");
  CHECK(found[1].subjects == std::set<std::string>{"A"});
  CHECK(found[1].panels == std::set<std::size_t>{0});
}

TEST_CASE("Windows and parts are gaps by their names", "[pipeline]") {
  const Project project = two_panels();
  const auto found = gaps(project, {},
                          results_with({open_finding("heat.w", "'W1' has no Pset_Window.U")},
                                       {open_finding("heat.s", "'screw' has no Panel_Screw.Diameter")}));
  REQUIRE(found.size() == 2);
  CHECK(found[0].subjects == std::set<std::string>{"screw"});
  CHECK(found[1].subjects == std::set<std::string>{"W1"});
}

TEST_CASE("A setting is a gap where it is absent and some check declares it", "[pipeline]") {
  const Project project = two_panels();
  const Results results = results_with(
      {open_finding("heat.u", "setting 'heat.climate' is missing; setting heat.cranes.0.radius_m; setting heat.other")},
      {});
  const auto found = gaps(project, {}, results);
  REQUIRE(found.size() == 2);
  CHECK(found[0].name == "heat.climate");
  CHECK(found[0].source == Gap::Source::setting);
  CHECK(found[1].name == "heat.cranes.0.radius_m");
  Settings settings;
  settings.set("heat.climate", std::string("London"));
  CHECK(gaps(project, settings, results).size() == 1);
}

TEST_CASE("What passes, fails or is no declared input is no gap", "[pipeline]") {
  const Project project = two_panels();
  Finding failed = open_finding("heat.u", "setting heat.climate");
  failed.verdict = Verdict::fail;
  CHECK(gaps(project, {}, results_with({failed}, {open_finding("heat.u", "no Panel_Note.Text")})).empty());
}

TEST_CASE("A discipline's state counts what is open and what has a figure", "[pipeline]") {
  Finding figure = open_finding("heat.u", "");
  figure.verdict = Verdict::information;
  figure.value = 1.0;
  Finding evidence = open_finding("heat.e", "none");
  evidence.verdict = Verdict::evidence_needed;
  const auto states = discipline_states(results_with({figure, evidence}, {}, {open_finding("heat.l", "x")}));
  REQUIRE(states.size() == 1);
  CHECK(states[0].title == "Heat");
  CHECK(states[0].findings == 3);
  CHECK(states[0].open == 2);
  CHECK(states[0].figures == 1);
}
