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
    for (const Finding& finding : findings) {
      checks.push_back(finding.panel + " " + finding.check + " " + std::to_string(std::get<double>(finding.value)));
    }
  }
  return checks;
}

/// Does to P2 whatever the test asks.
class Faulty final : public example::ExamplePlugin {
 public:
  explicit Faulty(std::function<std::vector<Finding>(const Panel&)> fault)
      : ExamplePlugin("faulty"), fault_(std::move(fault)) {}

  std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                   const Settings& settings) const override {
    return panel.mark == "P2" ? fault_(panel) : ExamplePlugin::check_panel(panel, project, settings);
  }

 private:
  std::function<std::vector<Finding>(const Panel&)> fault_;
};

std::string failure_after(std::function<std::vector<Finding>(const Panel&)> fault) {
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

Finding sound_finding(const Panel& panel) {
  return FindingBuilder("faulty.width", "Width", panel.global_id, "common practice").inform(1.0, "m");
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
  CHECK(failure_after([](const Panel&) -> std::vector<Finding> { throw std::runtime_error("out of bounds"); }) ==
        "plugin 'faulty' failed on panel 'P2': out of bounds");
}

TEST_CASE("A plugin that throws what is no exception is caught") {
  CHECK(failure_after([](const Panel&) -> std::vector<Finding> { throw 7; }) ==
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
                      "finding 'other.width' does not start with 'faulty.'"},
               Breach{"another panel", [](Finding& f) { f.panel = "x"; },
                      "finding 'faulty.width' names panel 'x' instead of 'id-P2'"},
               Breach{"not a number", [](Finding& f) { f.value = std::nan(""); },
                      "finding 'faulty.width' holds a number that is not finite"},
               Breach{"infinite step",
                      [](Finding& f) {
                        f.steps.push_back({"s", "s", HUGE_VAL, "m", ""});
                      },
                      "finding 'faulty.width' holds a number that is not finite"},
               Breach{"fail without reason", [](Finding& f) { f.verdict = Verdict::fail; },
                      "finding 'faulty.width' is 'fail' without a reason"},
               Breach{"no clause", [](Finding& f) { f.clause.clear(); }, "finding 'faulty.width' names no clause"},
               Breach{"short row",
                      [](Finding& f) {
                        f.tables.push_back({"t", {{"a", ""}, {"b", ""}}, {{1.0}}});
                      },
                      "finding 'faulty.width' has a table row that is not as long as its head"});
  INFO(breach.label);
  CHECK(failure_after([&](const Panel& panel) {
          Finding finding = sound_finding(panel);
          breach.spoil(finding);
          return std::vector<Finding>{finding};
        }) == "plugin 'faulty' failed on panel 'P2': " + std::string(breach.message));
}

TEST_CASE("A check id that stands twice on one panel is refused") {
  CHECK(failure_after([](const Panel& panel) {
          return std::vector<Finding>{sound_finding(panel), sound_finding(panel)};
        }) == "plugin 'faulty' failed on panel 'P2': finding 'faulty.width' stands twice");
}

TEST_CASE("Progress counts every panel and every plugin") {
  const Project project = project_of(50);
  CountingProgress progress;
  run_checks(project, {}, {loaded(std::make_shared<example::ExamplePlugin>("a"))}, 2, progress);
  CHECK(progress.stages == std::vector<std::string>{"checking panels 50", "checking the project 1"});
  CHECK(progress.done == 51);
}
