// A plugin that measures panels; the faulty ones are made from it.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/plugin.h"

namespace panel_dossier::example {

class ExamplePlugin : public Plugin {
 public:
  explicit ExamplePlugin(std::string id) {
    info_.id = std::move(id);
    info_.title = "Example";
    info_.version = "1.0";
  }

  const PluginInfo& info() const override { return info_; }

  std::vector<Finding> check_panel(const Panel& panel, const Project& /*project*/,
                                   const Settings& /*settings*/) const override {
    return {width(panel), area(panel)};
  }

  std::vector<Finding> check_project(const Project& /*project*/, const std::vector<PanelFindings>& panels,
                                     const Settings& /*settings*/) const override {
    double total_m2 = 0.0;
    for (const PanelFindings& own : panels) total_m2 += own.panel->gross_area_m2();
    return {FindingBuilder(info_.id + ".area", "Area", {}, "common practice").inform(total_m2, "m²")};
  }

 private:
  Finding width(const Panel& panel) const {
    return FindingBuilder(info_.id + ".width", "Width", panel.global_id, "common practice")
        .judge(panel.width_m.value, "m", Relation::at_most, 4.5, "wider than 4.5 m");
  }

  Finding area(const Panel& panel) const {
    return FindingBuilder(info_.id + ".area", "Area", panel.global_id, "common practice")
        .inform(panel.gross_area_m2(), "m²");
  }

  PluginInfo info_;
};

}  // namespace panel_dossier::example
