// The thermal plugin as the program loads it.
#include <filesystem>
#include <memory>
#include <utility>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/thermal/checks.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

class ThermalRun final : public PluginRun {
 public:
  ThermalRun(const Project& project, const Settings& settings, const Tables& tables,
             std::shared_ptr<conduction::SolvedModels> solved)
      : project_(project),
        settings_(settings),
        tables_(tables),
        details_(std::make_unique<conduction::DetailSolver>(std::move(solved))) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    return thermal::check_panel(panel, project_, settings_, tables_, *details_);
  }

  CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
    return thermal::check_project(project_, panels, settings_, tables_, *details_);
  }

 private:
  const Project& project_;
  const Settings& settings_;
  const Tables& tables_;
  /// Remembers solved details, which depend on nothing but their models; thread-safe.
  std::unique_ptr<conduction::DetailSolver> details_;
};

class ThermalPlugin final : public Plugin {
 public:
  explicit ThermalPlugin(const std::filesystem::path& data_dir) : tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }
  const std::vector<CheckDeclaration>& checks() const override { return thermal::checks(); }

  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& settings) const override {
    return std::make_unique<ThermalRun>(project, settings, tables_, solved_);
  }

 private:
  Tables tables_;
  /// Projects that differ in a number have most details in common.
  std::shared_ptr<conduction::SolvedModels> solved_ = std::make_shared<conduction::SolvedModels>();
  PluginInfo info_{"thermal",
                   "Thermal performance",
                   "0.1.0",
                   {"EN ISO 6946:2017", "EN ISO 10077-1:2017", "EN ISO 10456:2007", "EN ISO 13786:2017",
                    "EN ISO 13788:2012", "EN ISO 13789:2017", "EN ISO 10211:2017", "EN ISO 9972:2015"},
                   "Calculated from the design values in the export and the details in the settings; point bridges "
                   "such as brackets are "
                   "not included."};
};

}  // namespace panel_dossier::thermal

PANEL_DOSSIER_PLUGIN(panel_dossier::thermal::ThermalPlugin, "thermal");
