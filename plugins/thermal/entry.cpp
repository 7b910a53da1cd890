// The thermal plugin as the program loads it.
#include <filesystem>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/thermal/air_tightness_joints.h"
#include "plugins/thermal/design_value_check.h"
#include "plugins/thermal/panel_checks.h"
#include "plugins/thermal/project_totals.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

class ThermalPlugin : public Plugin {
 public:
  explicit ThermalPlugin(const std::filesystem::path& data_dir) : tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }

  std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                   const Settings& settings) const override {
    return thermal::check_panel(panel, project, settings, tables_);
  }

  std::vector<Finding> check_project(const Project& project, const std::vector<PanelFindings>& panels,
                                     const Settings& settings) const override {
    std::vector<Finding> findings = total_project(project, panels);
    findings.push_back(total_joints(project));
    findings.push_back(check_design_values(project, settings, tables_));
    return findings;
  }

 private:
  Tables tables_;
  PluginInfo info_{
      "thermal",
      "Thermal performance",
      "0.1.0",
      {"EN ISO 6946:2017", "EN ISO 10077-1:2017", "EN ISO 10456:2007", "EN ISO 13786:2017", "EN ISO 13788:2012",
       "EN ISO 13789:2017", "EN ISO 9972:2015"},
      "Calculated from the design values in the export; joints and other thermal bridges are not included."};
};

}  // namespace panel_dossier::thermal

PANEL_DOSSIER_PLUGIN(panel_dossier::thermal::ThermalPlugin, "thermal");
