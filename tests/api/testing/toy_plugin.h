// A small plugin that does all that a plugin must, and whose parts a test replaces to make it guilty of one thing.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "core/api/support/words.h"
#include "core/api/testing/panels.h"
#include "core/api/testing/properties.h"

namespace panel_dossier::testing {

/// Declarations of `toy.load` (a limit of each panel and of the project), `toy.class` (a classification) and
/// `toy.openings` (a figure of panels with openings).
inline std::vector<CheckDeclaration> toy_checks() {
  CheckDeclaration load{.id = "toy.load",
                        .title = "Load",
                        .project_title = "Load of all panels",
                        .sentence = "The design load is at most the limit.",
                        .clause = "common practice"};
  load.units = {"kN"};
  load.kind = CheckKind::limit;
  load.scope = CheckScope::panels_and_project;
  load.inputs = {property("Panel_Toy.Load"), optional_property("Panel_Toy.Factor"), setting("toy.limit_kn"),
                 setting("toy.totals.*.limit_kn")};
  CheckDeclaration class_of{.id = "toy.class",
                            .title = "Class",
                            .project_title = "",
                            .sentence = "The class is I or II.",
                            .clause = "common practice"};
  class_of.kind = CheckKind::classification;
  class_of.inputs = {property("Panel_Toy.Class")};
  CheckDeclaration openings{.id = "toy.openings",
                            .title = "Area of openings",
                            .project_title = "",
                            .sentence = "The area of all openings.",
                            .clause = "common practice"};
  openings.units = {"m²"};
  return {load, class_of, openings};
}

/// F_d = γ · F against the limit; γ is 1.5 unless the panel has its own.
inline Finding toy_load(const Settings& settings, const Panel& panel) {
  constexpr double kFactor = 1.5;
  static const std::vector<CheckDeclaration> checks = toy_checks();
  FindingBuilder finding(checks[0], panel.global_id);
  const auto load_kn = finding.positive("load", "F", "kN", panel.properties.number("Panel_Toy", "Load"),
                                        "the load: give Panel_Toy.Load");
  const auto limit_kn = finding.positive("limit of the load", "F_lim", "kN", settings.number("toy.limit_kn"),
                                         "the limit of the load: give toy.limit_kn");
  auto factor = panel.properties.number("Panel_Toy", "Factor");
  if (!factor) factor = Sourced<double>{kFactor, settings.number("toy.limit_kn").value_or(Sourced<double>{}).origin};
  const auto gamma = finding.positive("partial factor", "γ", "", factor, "the partial factor");
  if (finding.incomplete()) return finding.not_assessed();
  const double design_kn = *gamma * *load_kn;
  finding.step("design load", "F_d", design_kn, "kN", "F_d = γ · F");
  return finding.judge(design_kn, "kN", Relation::at_most, *limit_kn,
                       "the design load of " + fixed_text(design_kn, 1) + " kN is more than " +
                           fixed_text(*limit_kn, 1) + " kN; reduce Panel_Toy.Load");
}

inline Finding toy_class(const Panel& panel) {
  static const std::vector<CheckDeclaration> checks = toy_checks();
  FindingBuilder finding(checks[1], panel.global_id);
  const auto name = finding.text("class", panel.properties.text("Panel_Toy", "Class"), "the class: Panel_Toy.Class");
  if (finding.incomplete()) return finding.not_assessed();
  if (*name != "I" && *name != "II" && *name != "III") finding.missing("'" + *name + "' is no class");
  return finding.judge_class(*name, Relation::at_most, "II", *name == "III" ? Verdict::fail : Verdict::pass,
                             "class III is not allowed; change Panel_Toy.Class");
}

inline CheckOutcome toy_panel(const Project& /*project*/, const Settings& settings, const Panel& panel) {
  static const std::vector<CheckDeclaration> checks = toy_checks();
  CheckOutcome outcome{{toy_load(settings, panel), toy_class(panel)}};
  if (panel.openings.empty()) {
    outcome.not_applicable.push_back({"toy.openings", "the panel has no opening"});
  } else {
    outcome.findings.push_back(FindingBuilder(checks[2], panel.global_id).inform(panel.opening_area_m2(), "m²"));
  }
  return outcome;
}

/// The sum of the panels' design loads against the limit of the first total.
inline CheckOutcome toy_project_finding(const Project& /*project*/, const Settings& settings,
                                        const std::vector<PanelFindings>& panels) {
  static const std::vector<CheckDeclaration> checks = toy_checks();
  FindingBuilder finding(checks[0], "");
  const PanelValues loads = panel_values(panels, "toy.load");
  if (!loads.whole()) finding.missing(loads.what_is_missing("toy.load"));
  const auto limit_kn = finding.positive("limit of the sum", "F_lim", "kN", settings.number("toy.totals.0.limit_kn"),
                                         "the limit of the sum: give toy.totals.0.limit_kn");
  if (finding.incomplete()) return {{finding.not_assessed()}};
  Table table{"loads", {{"panel", ""}, {"F_i", "kN"}}, {}};
  double sum_kn = 0.0;
  for (const PanelValue& load : loads.entries) {
    sum_kn += load.value;
    table.rows.push_back({load.panel->mark, load.value});
  }
  finding.table(std::move(table)).step("sum", "F", sum_kn, "kN", "F = sum(F_i)");
  return {{finding.judge(sum_kn, "kN", Relation::at_most, *limit_kn, "the sum is more than the limit")}};
}

class ToyPlugin final : public Plugin {
 public:
  std::vector<CheckDeclaration> declared = toy_checks();
  std::function<CheckOutcome(const Project&, const Settings&, const Panel&)> panel = toy_panel;
  std::function<CheckOutcome(const Project&, const Settings&, const std::vector<PanelFindings>&)> project =
      toy_project_finding;

  const PluginInfo& info() const override { return info_; }
  const std::vector<CheckDeclaration>& checks() const override { return declared; }
  std::unique_ptr<PluginRun> prepare(const Project& of, const Settings& settings) const override {
    return std::make_unique<Run>(*this, of, settings);
  }

 private:
  class Run final : public PluginRun {
   public:
    Run(const ToyPlugin& plugin, const Project& project, const Settings& settings)
        : plugin_(plugin), project_(project), settings_(settings) {}
    CheckOutcome check_panel(const Panel& panel) const override { return plugin_.panel(project_, settings_, panel); }
    CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
      return plugin_.project(project_, settings_, panels);
    }

   private:
    const ToyPlugin& plugin_;
    const Project& project_;
    const Settings& settings_;
  };

  PluginInfo info_{"toy", "Toy", "1", {"common practice"}, ""};
};

/// Panels P1 of type A with a window, P2 of type B and P3 of type A: loads of 2, 3 and 4 kN, class I.
inline Project toy_project() {
  Project project;
  const std::vector<std::pair<std::string, double>> panels{{"A", 2.0}, {"B", 3.0}, {"A", 4.0}};
  for (const auto& [type, load_kn] : panels) {
    Panel panel = plain_panel(2.4, 2.7);
    panel.mark = "P" + std::to_string(project.panels.size() + 1);
    panel.global_id = panel.mark;
    panel.type = type;
    put(panel.properties, "Panel_Toy", "Load", load_kn);
    put(panel.properties, "Panel_Toy", "Class", std::string("I"));
    project.panels.push_back(std::move(panel));
  }
  add_window(project.panels.front(), 0.6, 1.6, 0.9, 2.1, std::nullopt);
  return project;
}

/// Limits that every panel and the sum keep.
inline Settings toy_settings() {
  Settings settings;
  settings.set("toy.limit_kn", 10.0);
  settings.set("toy.totals.0.limit_kn", 20.0);
  return settings;
}

}  // namespace panel_dossier::testing
