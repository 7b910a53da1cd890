// A plugin that measures panels; the faulty ones are made from it.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/plugin.h"

namespace panel_dossier::example {

/// Width against 4.5 m, area as a figure with the project's total, and a height that only tall panels have.
inline std::vector<CheckDeclaration> example_checks(const std::string& id) {
  return {{.id = id + ".width",
           .title = "Width",
           .sentence = "The panel is at most 4.5 m wide.",
           .clause = "common practice",
           .units = {"m"},
           .kind = CheckKind::limit},
          {.id = id + ".area",
           .title = "Area",
           .project_title = "Area of all panels",
           .sentence = "Gross area of the face.",
           .clause = "common practice",
           .units = {"m²"},
           .scope = CheckScope::panels_and_project}};
}

class ExampleRun : public PluginRun {
 public:
  explicit ExampleRun(std::vector<CheckDeclaration> checks) : checks_(std::move(checks)) {}

  CheckOutcome check_panel(const Panel& panel) const override { return {{width(panel), area(panel)}}; }

  CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
    double total_m2 = 0.0;
    for (const PanelFindings& own : panels) total_m2 += own.panel->gross_area_m2();
    return {{FindingBuilder(checks_[1], {}).inform(total_m2, "m²")}};
  }

  std::vector<OutputRow> panel_rows(std::string_view /*output*/, const PanelFindings& panel) const override {
    return {{panel.panel->mark, panel.panel->gross_area_m2()}};
  }

  std::vector<OutputRow> project_rows(std::string_view /*output*/,
                                      const std::vector<Finding>& findings) const override {
    return {{std::string("TOTAL"), findings.front().value}};
  }

 protected:
  Finding width(const Panel& panel) const {
    return FindingBuilder(checks_[0], panel.global_id)
        .judge(panel.width_m.value, "m", Relation::at_most, 4.5, "wider than 4.5 m");
  }

  Finding area(const Panel& panel) const {
    return FindingBuilder(checks_[1], panel.global_id).inform(panel.gross_area_m2(), "m²");
  }

 private:
  std::vector<CheckDeclaration> checks_;
};

class ExamplePlugin : public Plugin {
 public:
  explicit ExamplePlugin(std::string id) : checks_(example_checks(id)) {
    info_.id = std::move(id);
    info_.title = "Example";
    info_.version = "1.0";
  }

  const PluginInfo& info() const override { return info_; }
  const std::vector<CheckDeclaration>& checks() const override { return checks_; }

  std::unique_ptr<PluginRun> prepare(const Project& /*project*/, const Settings& /*settings*/) const override {
    return std::make_unique<ExampleRun>(checks_);
  }

 protected:
  std::vector<CheckDeclaration> checks_;

 private:
  PluginInfo info_;
};

}  // namespace panel_dossier::example
