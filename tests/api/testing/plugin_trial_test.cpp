// The trial of a plugin: an innocent one has no fault, and each guilty one is found guilty of its one thing.
#include "core/api/testing/plugin_trial.h"

#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <cfenv>
#include <chrono>
#include <clocale>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "tests/api/testing/toy_plugin.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<std::string> faults_of(const ToyPlugin& plugin, const TrialOptions& options = {}) {
  return try_plugin(plugin, toy_project(), toy_settings(), options).faults;
}

using Faults = std::vector<std::string>;

/// An innocent plugin whose finding `toy.load` of a panel is changed.
template <typename Change>
ToyPlugin with_load(const Change& change) {
  ToyPlugin plugin;
  plugin.panel = [change](const Project& project, const Settings& settings, const Panel& panel) {
    CheckOutcome outcome = toy_panel(project, settings, panel);
    change(outcome.findings.front(), settings, panel);
    return outcome;
  };
  return plugin;
}

/// An innocent plugin that does something besides, whenever it checks a panel.
template <typename Act>
ToyPlugin that_also(const Act& act) {
  return with_load([act](Finding&, const Settings&, const Panel&) { act(); });
}

/// `toy.load` by another computation that takes what it needs without asking whether it is there.
Finding careless_load(const Settings& settings, const Panel& panel, double stand_in_kn) {
  static const std::vector<CheckDeclaration> checks = toy_checks();
  FindingBuilder finding(checks[0], panel.global_id);
  const auto load_kn = panel.properties.number("Panel_Toy", "Load");
  if (load_kn) finding.number("load", "F", "kN", load_kn, "");
  const auto limit_kn = finding.positive("limit of the load", "F_lim", "kN", settings.number("toy.limit_kn"),
                                         "the limit of the load: give toy.limit_kn");
  if (finding.incomplete()) return finding.not_assessed();
  const double value_kn = load_kn ? load_kn->value : stand_in_kn;
  return finding.judge(value_kn, "kN", Relation::at_most, *limit_kn, "too much load");
}

}  // namespace

TEST_CASE("An innocent plugin has no fault, and the trial tells how much it tried") {
  TrialOptions strict;
  strict.figures_too = true;
  strict.uncited_inputs = true;
  const TrialReport report = try_plugin(ToyPlugin(), toy_project(), toy_settings(), strict);
  CHECK(report.faults == Faults{});
  CHECK(report.findings == 8);  // two of each of three panels, the openings of one, the sum
  CHECK(report.formulas == 4);
  CHECK(report.inputs == 4);  // load, class, both limits
  // On one panel of each of two types: load, class and limit of each, and the limit of the sum.
  CHECK(report.removals == 7);
  CHECK(report.spoilings == 12);  // NaN and the opposite sign of five numbers, a word for two texts
}

TEST_CASE("The number of types bounds what is tried") {
  TrialOptions one;
  one.types = 1;
  const TrialReport report = try_plugin(ToyPlugin(), toy_project(), toy_settings(), one);
  CHECK(report.faults == Faults{});
  CHECK(report.removals == 4);
}

TEST_CASE("Guilty of a declaration or a finding that breaks the contract") {
  ToyPlugin plugin;
  plugin.declared[1].sentence.clear();
  CHECK(faults_of(plugin) == Faults{"check 'toy.class' has no sentence that says what is found"});
  CHECK(faults_of(with_load([](Finding& finding, const Settings&, const Panel&) { finding.unit = "N"; })) ==
        Faults{"finding 'toy.load' has the unit 'N', which its declaration does not name of panel P1"});
  plugin = ToyPlugin();
  plugin.project = [](const Project&, const Settings&, const std::vector<PanelFindings>&) { return CheckOutcome{}; };
  CHECK(faults_of(plugin) == Faults{"declared check 'toy.load' gives neither a finding nor the reason why it does not "
                                    "apply of the project"});
}

TEST_CASE("Guilty of throwing") {
  ToyPlugin plugin;
  plugin.panel = [](const Project&, const Settings&, const Panel&) -> CheckOutcome {
    throw std::runtime_error("no idea");
  };
  CHECK(faults_of(plugin) == Faults{"throws: no idea"});
  // Only when an input is gone.
  plugin.panel = [](const Project& project, const Settings& settings, const Panel& panel) {
    if (!panel.properties.text("Panel_Toy", "Class")) throw std::runtime_error("no class");
    return toy_panel(project, settings, panel);
  };
  CHECK(faults_of(plugin) == Faults{"throws without Panel_Toy.Class: no class"});
}

TEST_CASE("Guilty of findings that are not the same again") {
  const auto calls = std::make_shared<std::atomic<int>>(0);
  const Faults faults = faults_of(with_load([calls](Finding& finding, const Settings&, const Panel&) {
    finding.notes.push_back("call " + std::to_string(++*calls));
  }));
  REQUIRE(faults.size() == 3);
  CHECK(faults[0] == "does not give the same a second time of panel P1: toy.load: notes[0]: 'call 1' and 'call 4'");
  CHECK(faults[1].find("with the panels in opposite order") != std::string::npos);
  CHECK(faults[2].find("from several threads") != std::string::npos);
}

TEST_CASE("Guilty of depending on the order of panels") {
  // Its run remembers the panel before, which check_panel must not.
  ToyPlugin plugin;
  const auto before = std::make_shared<std::string>();
  plugin.panel = [before](const Project& project, const Settings& settings, const Panel& panel) {
    CheckOutcome outcome = toy_panel(project, settings, panel);
    if (&panel == &project.panels.front()) before->clear();
    const bool follows_next = *before == "P3" && panel.mark == "P2";
    if (follows_next) outcome.findings.front().notes.emplace_back("after P3");
    *before = panel.mark;
    return outcome;
  };
  TrialOptions options;
  options.threads = 0;
  CHECK(faults_of(plugin, options) == Faults{"does not give the same with the panels in opposite order of panel P2: "
                                             "toy.load: notes: 0 and 1 entries"});
}

TEST_CASE("Guilty of a result that depends on what other threads do") {
  const auto busy = std::make_shared<std::atomic<int>>(0);
  const Faults faults = faults_of(with_load([busy](Finding& finding, const Settings&, const Panel&) {
    const int others = (*busy)++;
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
    if (others > 0) finding.notes.emplace_back("not alone");
    --*busy;
  }));
  REQUIRE(faults.size() == 1);
  CHECK(faults.front().find("does not give the same from several threads") == 0);
}

TEST_CASE("Guilty of passing without an input, or with one that is no number") {
  ToyPlugin plugin;
  plugin.panel = [](const Project& project, const Settings& settings, const Panel& panel) {
    CheckOutcome outcome = toy_panel(project, settings, panel);
    outcome.findings.front() = careless_load(settings, panel, 1.0);
    return outcome;
  };
  CHECK(faults_of(plugin) == Faults{"toy.load of panel P1 is 'pass' without Panel_Toy.Load",
                                    "toy.load of panel P1 is 'pass' with the opposite sign of Panel_Toy.Load"});
  // What stands in where the declaration says so is no fault.
  plugin.declared.front().inputs.front().optional = true;
  CHECK(faults_of(plugin) == Faults{});
}

TEST_CASE("A number may have either sign, and a text may be any, where the test says so") {
  ToyPlugin plugin;
  plugin.panel = [](const Project& project, const Settings& settings, const Panel& panel) {
    CheckOutcome outcome = toy_panel(project, settings, panel);
    outcome.findings.front() = careless_load(settings, panel, 1.0e6);
    outcome.findings[1].verdict = outcome.findings[1].inputs.empty() ? Verdict::not_assessed : Verdict::pass;
    if (!outcome.findings[1].inputs.empty()) outcome.findings[1].reason.clear();
    return outcome;
  };
  const Faults all = faults_of(plugin);
  CHECK(std::count(all.begin(), all.end(), "toy.load of panel P1 is 'pass' with the opposite sign of Panel_Toy.Load") ==
        1);
  CHECK(std::count(all.begin(), all.end(),
                   "toy.class of panel P1 is 'pass' with an unknown word for Panel_Toy.Class") == 1);
  TrialOptions options;
  options.either_sign = {"Panel_Toy.Load"};
  options.free_text = {"Panel_Toy.Class"};
  const Faults left = faults_of(plugin, options);
  REQUIRE(left.size() == 1);
  CHECK(left.front().find(
            "toy.load of panel P1 is 'fail' without Panel_Toy.Load, for a reason that does not name it") == 0);
}

TEST_CASE("Guilty of a reason that does not name what is absent") {
  const ToyPlugin plugin = with_load([](Finding& finding, const Settings&, const Panel&) {
    if (finding.verdict == Verdict::not_assessed) finding.reason = "something is missing";
  });
  const Faults faults = faults_of(plugin);
  CHECK(std::count(faults.begin(), faults.end(),
                   "toy.load of panel P1 is 'not assessed' without Panel_Toy.Load, for a reason that does not name it: "
                   "something is missing") == 1);
  CHECK(std::count(faults.begin(), faults.end(),
                   "toy.load of panel P1 is 'not assessed' without toy.limit_kn, for a reason that does not name it: "
                   "something is missing") == 1);
}

TEST_CASE("Guilty of a figure without its input, where figures are looked at") {
  ToyPlugin plugin;
  plugin.declared[2].inputs = {property("Panel_Toy.Share")};
  plugin.panel = [](const Project& project, const Settings& settings, const Panel& panel) {
    CheckOutcome outcome = toy_panel(project, settings, panel);
    if (panel.openings.empty()) return outcome;
    FindingBuilder finding(toy_checks()[2], panel.global_id);
    const auto share = panel.properties.number("Panel_Toy", "Share");
    if (share) finding.number("share", "p", "", share, "");
    outcome.findings.back() = finding.inform(share ? share->value : 1.0, "m²");
    return outcome;
  };
  Project project = toy_project();
  put(project.panels.front().properties, "Panel_Toy", "Share", 0.5);
  CHECK(try_plugin(plugin, project, toy_settings()).faults == Faults{});
  TrialOptions options;
  options.figures_too = true;
  options.either_sign = {"Panel_Toy.Share"};
  CHECK(try_plugin(plugin, project, toy_settings(), options).faults ==
        Faults{"toy.openings of panel P1 is 'information' without Panel_Toy.Share"});
}

TEST_CASE("Guilty of letting a thousandfold number pass, where that is looked at") {
  Settings settings = toy_settings();
  TrialOptions options;
  options.thousandfold = true;
  const Faults faults = try_plugin(ToyPlugin(), toy_project(), settings, options).faults;
  // A limit a thousand times too high is kept by every load.
  CHECK(std::count(faults.begin(), faults.end(), "toy.load of panel P1 is 'pass' with a thousand times toy.limit_kn") ==
        1);
  CHECK(std::count(faults.begin(), faults.end(),
                   "toy.load of panel P1 is 'pass' with a thousand times Panel_Toy.Load") == 0);
}

TEST_CASE("Guilty of an input that the declaration does not name, or the other way round") {
  ToyPlugin plugin;
  plugin.declared[1].inputs.clear();
  CHECK(faults_of(plugin) == Faults{"toy.class cites Panel_Toy.Class, which its declaration does not"});
  plugin = ToyPlugin();
  plugin.declared[0].inputs.back() = setting("toy.totals.limit_kn");
  CHECK(faults_of(plugin) == Faults{"toy.load cites toy.totals.0.limit_kn, which its declaration does not"});
  const auto cite = [](Finding& finding, const Settings&, const Panel&) {
    Origin origin;
    origin.kind = OriginKind::data_table;
    origin.table = "factors.csv";
    finding.inputs.push_back({"factor", "", 1.0, "", origin});
  };
  CHECK(faults_of(with_load(cite)) == Faults{"toy.load cites factors.csv, which its declaration does not"});
  plugin = with_load(cite);
  plugin.declared[0].inputs.push_back(data_table("factors.csv"));
  CHECK(faults_of(plugin) == Faults{});

  plugin = ToyPlugin();
  plugin.declared[0].inputs.push_back(property("Panel_Toy.Colour"));
  CHECK(faults_of(plugin) == Faults{});
  TrialOptions options;
  options.uncited_inputs = true;
  CHECK(faults_of(plugin, options) == Faults{"toy.load declares Panel_Toy.Colour, which no finding cites"});
}

TEST_CASE("A list is taken away as a whole, and is what a reason must name") {
  ToyPlugin plugin;
  plugin.declared[0].inputs.back() = setting("toy.limits.*");
  const auto limit_of = [](const Settings& settings, const std::string& reason) {
    FindingBuilder finding(toy_checks()[0], "");
    double limit_kn = 0.0;
    for (const char* key : {"toy.limits.0", "toy.limits.1"}) {
      const auto further = settings.number(key);
      if (!further) continue;
      finding.number("limit", "", "kN", further, "");
      limit_kn += further->value;
    }
    if (limit_kn == 0.0) finding.missing(reason);
    return CheckOutcome{{finding.judge(1.0, "kN", Relation::at_most, limit_kn, "too much")}};
  };
  const auto with_reason = [&](const std::string& reason) {
    plugin.project = [=](const Project&, const Settings& settings, const std::vector<PanelFindings>&) {
      return limit_of(settings, reason);
    };
    Settings settings = toy_settings();
    settings.set("toy.limits.0", 20.0);
    settings.set("toy.limits.1", 30.0);
    TrialOptions options;
    options.either_sign = {"toy.limits.*"};
    return try_plugin(plugin, toy_project(), settings, options).faults;
  };
  // Without one of the two limits it would pass by the other.
  CHECK(with_reason("give the list toy.limits") == Faults{});
  CHECK(with_reason("give some limit") ==
        Faults{"toy.load of the project is 'not assessed' without toy.limits, for a reason that does not name it: give "
               "some limit"});
}

TEST_CASE("Guilty of a formula that does not hold") {
  CHECK(faults_of(with_load([](Finding& finding, const Settings&, const Panel&) {
          if (!finding.steps.empty()) finding.steps.front().formula = "F_d = F";
        })) == Faults{"toy.load: formula 'F_d = F': gives 2 in SI and 2 as printed, the step says 3 of panel P1"});
}

TEST_CASE("Guilty of touching what belongs to the whole program") {
  const std::string head = "changes what belongs to the whole program: ";
  SECTION("rounding mode") {
    const int mode = std::fegetround();
    const Faults faults = faults_of(that_also([] { std::fesetround(FE_TOWARDZERO); }));
    std::fesetround(mode);
    CHECK(std::count(faults.begin(), faults.end(), head + "rounding mode") == 1);
  }
  SECTION("environment") {
    CHECK(faults_of(that_also([] { ::setenv("PANEL_DOSSIER_TOY", "1", 1); })) == Faults{head + "environment"});
    ::unsetenv("PANEL_DOSSIER_TOY");
  }
  SECTION("signal handlers") {
    CHECK(faults_of(that_also([] { std::signal(SIGUSR1, SIG_IGN); })) == Faults{head + "signal handlers"});
    std::signal(SIGUSR1, SIG_DFL);
  }
  SECTION("current folder") {
    const std::filesystem::path here = std::filesystem::current_path();
    const TemporaryFolder folder;
    CHECK(faults_of(that_also([&] { std::filesystem::current_path(folder.path()); })) ==
          Faults{head + "current folder"});
    std::filesystem::current_path(here);
  }
  SECTION("locale") {
    const std::string here = std::setlocale(LC_ALL, nullptr);
    REQUIRE(here != "C.UTF-8");
    CHECK(faults_of(that_also([] { std::setlocale(LC_ALL, "C.UTF-8"); })) == Faults{head + "locale"});
    std::setlocale(LC_ALL, here.c_str());
  }
}
