#include "core/pipeline/run.h"

#include <atomic>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "tests/pipeline/plugins/example_plugin.h"

using namespace panel_dossier;

namespace {

Project project_of(std::size_t count) {
  Project project;
  for (std::size_t i = 0; i < count; ++i) {
    Panel panel;
    panel.mark = "P" + std::to_string(i);
    panel.global_id = "id-" + panel.mark;
    panel.width_m.value = 3.0 + static_cast<double>(i % 4);
    panel.height_m.value = 3.0;
    project.panels.push_back(panel);
  }
  return project;
}

LoadedPlugin loaded(std::shared_ptr<const Plugin> plugin) {
  LoadedPlugin result;
  result.info = plugin->info();
  result.plugin = std::move(plugin);
  return result;
}

std::vector<std::string> checks_in(const Results& results) {
  std::vector<std::string> checks;
  for (const auto& findings : results.panel_findings) {
    for (const RecordedFinding& finding : findings) {
      checks.push_back(finding.panel + " " + finding.check + " " + std::to_string(std::get<double>(finding.value)));
    }
  }
  return checks;
}

using Fault = std::function<CheckOutcome(const Panel&)>;

/// Does to P2 whatever the test asks.
class FaultyRun final : public example::ExampleRun {
 public:
  explicit FaultyRun(Fault fault) : ExampleRun(example::example_checks("faulty")), fault_(std::move(fault)) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    return panel.mark == "P2" ? fault_(panel) : ExampleRun::check_panel(panel);
  }

 private:
  Fault fault_;
};

class Faulty final : public example::ExamplePlugin {
 public:
  explicit Faulty(Fault fault) : ExamplePlugin("faulty"), fault_(std::move(fault)) {}

  std::unique_ptr<PluginRun> prepare(const Project& /*project*/, const Settings& /*settings*/) const override {
    return std::make_unique<FaultyRun>(fault_);
  }

 private:
  Fault fault_;
};

std::string failure_after(Fault fault) {
  const Project project = project_of(4);
  NoProgress progress;
  const Results results = run_checks(project, {}, {loaded(std::make_shared<Faulty>(std::move(fault)))}, 2, progress);
  REQUIRE(results.failures.size() == 1);
  REQUIRE(results.panel_findings[2].size() == 1);
  CHECK(results.panel_findings[2][0].check == "faulty.run");
  CHECK(results.panel_findings[2][0].verdict == Verdict::not_assessed);
  CHECK(results.panel_findings[1].size() == 2);
  return results.failures[0];
}

/// Both declared checks as they should be.
CheckOutcome sound_outcome(const Panel& panel) {
  return example::ExampleRun(example::example_checks("faulty")).check_panel(panel);
}

class CountingProgress final : public Progress {
 public:
  void begin(const std::string& stage, std::size_t total) override {
    stages.push_back(stage + " " + std::to_string(total));
  }
  void advance(std::size_t count) override { done += count; }

  std::vector<std::string> stages;
  std::atomic<std::size_t> done{0};
};

}  // namespace

namespace {

/// Holds what the check of the project is given.
class LookingRun final : public example::ExampleRun {
 public:
  explicit LookingRun(std::vector<PanelFindings>& seen) : ExampleRun(example::example_checks("looking")), seen_(seen) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    CheckOutcome outcome = ExampleRun::check_panel(panel);
    Finding& area = outcome.findings.at(1);
    area.tables = {{"of the sides", {{"side", ""}}, {{1.0}}, "looking.sides"},
                   {"of nothing", {{"side", ""}}, {{1.0}}, ""}};
    area.inputs.push_back({"width", "b", panel.width_m.value, "m", panel.width_m.origin});
    area.steps.push_back({"area", "A", panel.gross_area_m2(), "m²", ""});
    area.values.push_back({"looking.area", panel.gross_area_m2(), "m²"});
    area.notes.emplace_back("of the face");
    return outcome;
  }

  CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
    seen_ = panels;
    return ExampleRun::check_project(panels);
  }

 private:
  std::vector<PanelFindings>& seen_;
};

class Looking final : public example::ExamplePlugin {
 public:
  explicit Looking(std::vector<PanelFindings>& seen) : ExamplePlugin("looking"), seen_(seen) {}

  std::unique_ptr<PluginRun> prepare(const Project& /*project*/, const Settings& /*settings*/) const override {
    return std::make_unique<LookingRun>(seen_);
  }

 private:
  std::vector<PanelFindings>& seen_;
};

}  // namespace

TEST_CASE("The check of the project is given results and named values of panels, and nothing of their derivations") {
  const Project project = project_of(3);
  std::vector<PanelFindings> seen;
  NoProgress progress;
  const Results results = run_checks(project, {}, {loaded(std::make_shared<Looking>(seen))}, 1, progress);
  CHECK(results.failures.empty());
  REQUIRE(seen.size() == 3);
  CHECK(seen[1].panel == &project.panels[1]);
  REQUIRE(seen[1].findings.size() == 2);
  const Finding& area = seen[1].findings[0];
  CHECK(std::get<double>(area.value) == 12.0);
  CHECK(area.check == "looking.area");
  REQUIRE(area.values.size() == 1);
  CHECK(area.inputs.empty());
  CHECK(area.steps.empty());
  CHECK(area.notes.empty());
  REQUIRE(area.tables.size() == 1);
  CHECK(area.tables[0].id == "looking.sides");
  CHECK(whole_finding(results.panel_findings[1][0]).steps.size() == 1);
}

TEST_CASE("Results do not depend on the number of threads") {
  const Project project = project_of(500);
  const std::vector<LoadedPlugin> plugins{loaded(std::make_shared<example::ExamplePlugin>("b")),
                                          loaded(std::make_shared<example::ExamplePlugin>("a"))};
  NoProgress progress;
  const auto one = checks_in(run_checks(project, {}, plugins, 1, progress));
  const auto many = checks_in(run_checks(project, {}, plugins, 8, progress));
  CHECK(one.size() == 2000);
  CHECK(one == many);
}

TEST_CASE("Findings of a panel are ordered by plugin, then check") {
  const Project project = project_of(1);
  NoProgress progress;
  const Results results = run_checks(project, {}, {loaded(std::make_shared<example::ExamplePlugin>("a"))}, 1, progress);
  REQUIRE(results.panel_findings[0].size() == 2);
  CHECK(results.panel_findings[0][0].check == "a.area");
  CHECK(results.panel_findings[0][1].check == "a.width");
}

TEST_CASE("A project finding sees every panel") {
  const Project project = project_of(4);
  NoProgress progress;
  const Results results = run_checks(project, {}, {loaded(std::make_shared<example::ExamplePlugin>("a"))}, 2, progress);
  REQUIRE(results.project_findings.size() == 1);
  CHECK(std::get<double>(results.project_findings[0].value) == Approx((3.0 + 4.0 + 5.0 + 6.0) * 3.0));
}

TEST_CASE("A plugin that throws on one panel costs that panel's findings only") {
  CHECK(failure_after([](const Panel&) -> CheckOutcome { throw std::runtime_error("out of bounds"); }) ==
        "plugin 'faulty' failed on panel 'P2': out of bounds");
}

TEST_CASE("A plugin that throws what is no exception is caught") {
  CHECK(failure_after([](const Panel&) -> CheckOutcome { throw 7; }) ==
        "plugin 'faulty' failed on panel 'P2': threw something that is not a std::exception");
}

TEST_CASE("A finding that breaks the contract is refused with the reason") {
  struct Breach {
    const char* label;
    void (*spoil)(Finding&);
    const char* message;
  };
  const Breach breach =
      GENERATE(Breach{"foreign id", [](Finding& f) { f.check = "other.width"; },
                      "finding 'other.width' is not declared for panels"},
               Breach{"clause of its own", [](Finding& f) { f.clause = "EN 1"; },
                      "finding 'faulty.width' has the clause 'EN 1', which its declaration does not name"},
               Breach{"unit of its own", [](Finding& f) { f.unit = "mm"; },
                      "finding 'faulty.width' has the unit 'mm', which its declaration does not name"},
               Breach{"a result that is no number",
                      [](Finding& f) {
                        f.values = {{"a", std::nan(""), "m"}};
                      },
                      "finding 'faulty.width' holds a number that is not finite"},
               Breach{"a note in another encoding", [](Finding& f) { f.notes = {"T\xFCre"}; },
                      "finding 'faulty.width' holds a text that is not UTF-8"},
               Breach{"value twice",
                      [](Finding& f) {
                        f.values = {{"a", 1.0, "m"}, {"a", 2.0, "m"}};
                      },
                      "finding 'faulty.width' gives the value 'a' twice"},
               Breach{"another panel", [](Finding& f) { f.panel = "x"; },
                      "finding 'faulty.width' names panel 'x' instead of 'id-P2'"},
               Breach{"not a number", [](Finding& f) { f.value = std::nan(""); },
                      "finding 'faulty.width' holds a number that is not finite"},
               Breach{"infinite step",
                      [](Finding& f) {
                        f.steps.push_back({"s", "s", HUGE_VAL, "m", ""});
                      },
                      "finding 'faulty.width' holds a number that is not finite"},
               Breach{"fail without reason", [](Finding& f) { f.reason.clear(); },
                      "finding 'faulty.width' is 'fail' without a reason"},
               Breach{"no clause", [](Finding& f) { f.clause.clear(); }, "finding 'faulty.width' names no clause"},
               Breach{"short row",
                      [](Finding& f) {
                        f.tables.push_back({"t", {{"a", ""}, {"b", ""}}, {{1.0}}});
                      },
                      "finding 'faulty.width' has a table row that is not as long as its head"});
  INFO(breach.label);
  CHECK(failure_after([&](const Panel& panel) {
          CheckOutcome outcome = sound_outcome(panel);
          breach.spoil(outcome.findings[0]);
          return outcome;
        }) == "plugin 'faulty' failed on panel 'P2': " + std::string(breach.message));
}

TEST_CASE("A check id that stands twice on one panel is refused") {
  CHECK(failure_after([](const Panel& panel) {
          CheckOutcome outcome = sound_outcome(panel);
          outcome.findings.push_back(outcome.findings[0]);
          return outcome;
        }) == "plugin 'faulty' failed on panel 'P2': finding 'faulty.width' stands twice");
}

TEST_CASE("A declared check that is silent is refused, with a reason it is let through") {
  CHECK(failure_after([](const Panel& panel) {
          CheckOutcome outcome = sound_outcome(panel);
          outcome.findings.pop_back();
          return outcome;
        }) ==
        "plugin 'faulty' failed on panel 'P2': declared check 'faulty.area' gives neither a finding nor the reason "
        "why it does not apply");
  CHECK(failure_after([](const Panel& panel) {
          CheckOutcome outcome = sound_outcome(panel);
          outcome.findings.pop_back();
          outcome.not_applicable.push_back({"faulty.area", ""});
          return outcome;
        }) == "plugin 'faulty' failed on panel 'P2': check 'faulty.area' does not apply, without a reason");

  const Project project = project_of(4);
  NoProgress progress;
  const auto outcome_without_area = [](const Panel& panel) {
    CheckOutcome outcome = sound_outcome(panel);
    outcome.findings.pop_back();
    outcome.not_applicable.push_back({"faulty.area", "the panel has no face"});
    return outcome;
  };
  const Results results =
      run_checks(project, {}, {loaded(std::make_shared<Faulty>(outcome_without_area))}, 2, progress);
  CHECK(results.failures.empty());
  REQUIRE(results.panel_not_applicable[2].size() == 1);
  CHECK(results.panel_not_applicable[2][0].reason == "the panel has no face");
  CHECK(results.panel_not_applicable[1].empty());
}

TEST_CASE("A figure that is judged is refused") {
  CHECK(failure_after([](const Panel& panel) {
          CheckOutcome outcome = sound_outcome(panel);
          outcome.findings[1].verdict = Verdict::pass;
          return outcome;
        }) ==
        "plugin 'faulty' failed on panel 'P2': finding 'faulty.area' is 'pass' but is declared as a figure, which is "
        "not judged");
}

namespace {

/// Cannot start on any project.
class Unprepared final : public example::ExamplePlugin {
 public:
  explicit Unprepared(bool throws) : ExamplePlugin("unprepared"), throws_(throws) {}

  std::unique_ptr<PluginRun> prepare(const Project& /*project*/, const Settings& /*settings*/) const override {
    if (throws_) throw std::runtime_error("no climate of that name");
    return nullptr;
  }

 private:
  bool throws_;
};

}  // namespace

TEST_CASE("A plugin that cannot be prepared is told once and leaves no panel without a word") {
  const Project project = project_of(3);
  NoProgress progress;
  const Results results = run_checks(project, {}, {loaded(std::make_shared<Unprepared>(true))}, 2, progress);
  CHECK(results.failures ==
        std::vector<std::string>{"plugin 'unprepared' could not start on the project: no climate of that name"});
  for (const auto& findings : results.panel_findings) {
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].verdict == Verdict::not_assessed);
    CHECK(findings[0].reason == "the plugin failed: no climate of that name");
  }
  const Results nothing = run_checks(project, {}, {loaded(std::make_shared<Unprepared>(false))}, 2, progress);
  CHECK(nothing.failures ==
        std::vector<std::string>{"plugin 'unprepared' could not start on the project: it prepared nothing"});
}

TEST_CASE("The rows of an output are those of the panels, then those of the project") {
  const Project project = project_of(2);
  NoProgress progress;
  LoadedPlugin plugin = loaded(std::make_shared<example::ExamplePlugin>("a"));
  plugin.outputs = {{"areas.csv", "Areas", "One row a panel.", {{"mark", "", "mark"}, {"area_m2", "m²", "gross"}}}};
  const Results results = run_checks(project, {}, {plugin}, 2, progress);
  REQUIRE(results.outputs.size() == 1);
  CHECK(csv_of(results.outputs[0]) == "mark,area_m2\r\nP0,9\r\nP1,12\r\nTOTAL,21\r\n");
  CHECK(results.failures.empty());
}

TEST_CASE("An output that breaks its declaration keeps its head alone and makes the build incomplete") {
  const Project project = project_of(2);
  NoProgress progress;
  LoadedPlugin plugin = loaded(std::make_shared<example::ExamplePlugin>("a"));
  plugin.outputs = {
      {"areas.csv", "Areas", "One row a panel.", {{"mark_m", "m", "is text"}, {"area_m2", "m²", "gross"}}}};
  const Results results = run_checks(project, {}, {plugin}, 2, progress);
  CHECK(csv_of(results.outputs.at(0)) == "mark_m,area_m2\r\n");
  CHECK(results.failures ==
        std::vector<std::string>{"plugin 'a' failed on its outputs: output 'areas.csv', row 1: column "
                                 "'mark_m' in m holds text"});
}

TEST_CASE("Progress counts every panel and every plugin") {
  const Project project = project_of(50);
  CountingProgress progress;
  run_checks(project, {}, {loaded(std::make_shared<example::ExamplePlugin>("a"))}, 2, progress);
  CHECK(progress.stages == std::vector<std::string>{"checking panels 50", "checking the project 1"});
  CHECK(progress.done == 51);
}
