// Cases of a check as a table: a right table has no fault, and each wrong one is told.
#include "core/api/testing/check_cases.h"

#include <catch2/catch.hpp>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "tests/api/testing/toy_plugin.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const char* const kTooMuch = "the design load of 15.0 kN is more than 10.0 kN; reduce Panel_Toy.Load";

const RegisterCases kClassCases{{.check = "toy.class",
                                 .sound_project = toy_project,
                                 .sound_settings = toy_settings,
                                 .cases = {{.label = "class I", .verdict = Verdict::pass, .value = "I"},
                                           {.label = "the lowest class allowed",
                                            .change = set_of_panels("Panel_Toy.Class", "II"),
                                            .verdict = Verdict::pass,
                                            .value = "II"},
                                           {.label = "a class too low",
                                            .change = set_of_panels("Panel_Toy.Class", "III"),
                                            .verdict = Verdict::fail,
                                            .value = "III",
                                            .reason = "class III is not allowed; change Panel_Toy.Class"},
                                           {.label = "no class",
                                            .change = drop_of_panels("Panel_Toy.Class"),
                                            .verdict = Verdict::not_assessed,
                                            .reason = "the class: Panel_Toy.Class"}}}};

CheckCases load_cases(std::vector<CheckCase> cases) {
  return {.check = "toy.load",
          .sound_project = toy_project,
          .sound_settings = toy_settings,
          .cases = std::move(cases),
          .of_project = false,
          .whole_run = false};
}

CheckCase too_much() {
  return {.label = "too much load",
          .change = set_of_panels("Panel_Toy.Load", 10.0),
          .verdict = Verdict::fail,
          .value = 15.0,
          .reason = kTooMuch};
}

/// The one fault of a table of one case for `toy.load`, without what stands before every fault.
std::string fault_of(const CheckCase& one, const ToyPlugin& plugin = {}) {
  const std::vector<std::string> faults = case_faults(plugin, load_cases({one}));
  REQUIRE(faults.size() == 1);
  const std::string head = "toy.load, case '" + one.label + "': ";
  REQUIRE(faults.front().substr(0, head.size()) == head);
  return faults.front().substr(head.size());
}

}  // namespace

TEST_CASE("Right cases of a panel's and of the project's finding have no fault") {
  const ToyPlugin plugin;
  CHECK(case_faults(plugin, load_cases({{.label = "sound", .verdict = Verdict::pass, .value = 3.0},
                                        {.label = "at the limit",
                                         .change = set_setting("toy.limit_kn", 3.0),
                                         .verdict = Verdict::pass,
                                         .value = 3.0},
                                        {.label = "own factor",
                                         .change = set_of_panels("Panel_Toy.Factor", 1.333),
                                         .verdict = Verdict::pass,
                                         .value = 2.67,
                                         .tolerance = 0.005,
                                         .why_tolerance = "worked out by hand to two decimals"},
                                        too_much(),
                                        {.label = "no load",
                                         .change = drop_of_panels("Panel_Toy.Load"),
                                         .verdict = Verdict::not_assessed,
                                         .reason = "the load: give Panel_Toy.Load"},
                                        {.label = "the class does not matter",
                                         .change = set_of_panels("Panel_Toy.Class", "II"),
                                         .verdict = Verdict::pass,
                                         .value = 3.0,
                                         .also_moves = {"toy.class"},
                                         .unchanged = true}})) == std::vector<std::string>{});
  CheckCases of_project = load_cases({{.label = "sum", .verdict = Verdict::pass, .value = 13.5},
                                      {.label = "a sum too large",
                                       .change = set_setting("toy.totals.0.limit_kn", 13.0),
                                       .verdict = Verdict::fail,
                                       .value = 13.5,
                                       .reason = "the sum is more than the limit"},
                                      {.label = "loads too large",
                                       .change = set_of_panels("Panel_Toy.Load", 5.0),
                                       .verdict = Verdict::fail,
                                       .value = 22.5,
                                       .reason = "the sum is more than the limit"}});
  of_project.of_project = true;
  CHECK(case_faults(plugin, of_project) == std::vector<std::string>{});
}

TEST_CASE("A check that does not apply is a case as well") {
  CheckCases cases = load_cases({{.label = "a window", .verdict = Verdict::information, .value = 1.2},
                                 {.label = "no window",
                                  .change = change_panels([](Panel& panel) { panel.openings.clear(); }),
                                  .reason = "the panel has no opening"}});
  cases.check = "toy.openings";
  CHECK(case_faults(ToyPlugin(), cases) == std::vector<std::string>{});
  cases.cases.back().reason = "something else";
  CHECK(case_faults(ToyPlugin(), cases) ==
        std::vector<std::string>{"toy.openings, case 'no window': its reason is 'the panel has no opening', expected "
                                 "'something else'"});
}

TEST_CASE("Another verdict, value or reason than expected is a fault") {
  CheckCase one = too_much();
  one.verdict = Verdict::pass;
  one.reason.clear();
  CHECK(fault_of(one) == "is 'fail', expected 'pass'; its reason: " + std::string(kTooMuch));
  one = too_much();
  one.value = 15.1;
  CHECK(fault_of(one) == "its value is 15, expected 15.1");
  one.value = "heavy";
  CHECK(fault_of(one) == "its value is 15, expected 'heavy'");
  one = too_much();
  one.reason += " ";
  CHECK(fault_of(one) == "its reason is '" + std::string(kTooMuch) + "', expected '" + kTooMuch + " '");
}

TEST_CASE("A tolerance is used and must be explained") {
  CheckCase one = too_much();
  one.value = 15.1;
  one.tolerance = 0.2;
  CHECK(fault_of(one) == "does not say why it has a tolerance");
  one.why_tolerance = "read from a diagram";
  CHECK(case_faults(ToyPlugin(), load_cases({one})).empty());
  one.tolerance = 0.05;
  CHECK(fault_of(one) == "its value is 15, expected 15.1");
}

TEST_CASE("A change must change something, and only what it says") {
  CheckCase one{.label = "same load", .change = set_of_panels("Panel_Toy.Load", 2.0), .verdict = Verdict::pass};
  CHECK(fault_of(one) == "its change changes nothing of the finding");
  one.change = drop_of_panels("Panel_Toy.Weight");
  CHECK(fault_of(one) == "throws: the case changes nothing: the project has no Panel_Toy.Weight");
  one = too_much();
  one.unchanged = true;
  CHECK(fault_of(one).substr(0, 35) == "must change nothing, but differs: v");
  one = too_much();
  one.change = together({one.change, set_of_panels("Panel_Toy.Class", "II")});
  CHECK(fault_of(one) == "moves toy.class: 'I'  became 'II' ");
  one.also_moves = {"toy.openings"};
  CHECK(fault_of(one) == "moves toy.class: 'I'  became 'II' ");
  one.also_moves = {"*"};
  CHECK(case_faults(ToyPlugin(), load_cases({one})).empty());
}

TEST_CASE("Only a whole run sees what moves in the project's findings") {
  CheckCases cases = load_cases({too_much()});
  CHECK(case_faults(ToyPlugin(), cases).empty());
  cases.whole_run = true;
  CHECK(
      case_faults(ToyPlugin(), cases) ==
      std::vector<std::string>{"toy.load, case 'too much load': moves toy.load of the project: 'pass' became 'fail'"});
  cases.cases.front().also_moves = {"toy.load"};
  CHECK(case_faults(ToyPlugin(), cases).empty());
}

TEST_CASE("Labels differ, and cases expect and find something of their own") {
  const ToyPlugin plugin;
  CHECK(case_faults(plugin, load_cases({too_much(), too_much()})) ==
        std::vector<std::string>{"toy.load, case 'too much load': has the label of another",
                                 "toy.load, case 'too much load': expects and finds what case 'too much load' does"});
  CheckCase one = too_much();
  one.label.clear();
  CHECK(fault_of(one) == "has no label");
  one = too_much();
  one.reason.clear();
  CHECK(case_faults(plugin, load_cases({one})).front() == "toy.load, case 'too much load': expects no reason");
}

TEST_CASE("A breach of the contract, a wrong formula and an exception are faults of a case") {
  ToyPlugin plugin;
  plugin.panel = [](const Project& project, const Settings& settings, const Panel& panel) {
    CheckOutcome outcome = toy_panel(project, settings, panel);
    outcome.findings.front().clause = "another";
    return outcome;
  };
  CHECK(fault_of(too_much(), plugin) ==
        "breaks the contract: finding 'toy.load' has the clause 'another', which its declaration does not name");
  plugin.panel = [](const Project& project, const Settings& settings, const Panel& panel) {
    CheckOutcome outcome = toy_panel(project, settings, panel);
    outcome.findings.front().steps.front().formula = "F_d = γ + F";
    return outcome;
  };
  CHECK(fault_of(too_much(), plugin) ==
        "toy.load: formula 'F_d = γ + F': gives 10.0015 in SI and 11.5 as printed, the step says 15");
  plugin.panel = [](const Project& project, const Settings& settings, const Panel& panel) {
    if (panel.properties.number("Panel_Toy", "Load")->value > 9.0) throw std::runtime_error("too heavy");
    return toy_panel(project, settings, panel);
  };
  CHECK(fault_of(too_much(), plugin) == "throws: too heavy");
}

TEST_CASE("Checks that lack cases are told, whichever kind they are") {
  const ToyPlugin plugin;
  REQUIRE(registered_cases().size() == 1);
  CHECK(case_faults(plugin, registered_cases().front()) == std::vector<std::string>{});
  CHECK(checks_without_cases(plugin, registered_cases()) ==
        std::vector<std::string>{"toy.load has no case", "toy.openings has no case"});
  std::vector<CheckCases> all = registered_cases();
  all.push_back(load_cases({{.label = "sound", .verdict = Verdict::pass}}));
  CHECK(checks_without_cases(plugin, all).front() == "toy.load has no case of the project's finding");
  all.push_back(all.back());
  all.back().of_project = true;
  CHECK(checks_without_cases(plugin, all).front() == "toy.load has no case that fails");
  all[1].cases.push_back(too_much());
  CHECK(checks_without_cases(plugin, all) == std::vector<std::string>{"toy.openings has no case"});
  all.push_back(all.front());
  all.back().check = "toy.weight";
  CHECK(checks_without_cases(plugin, all).back() == "toy.weight is not declared");
}
