// The thermal plugin as the program loads it.
#include <filesystem>
#include <memory>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/thermal/air/building_check.h"
#include "plugins/thermal/air/tightness_joints.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/junctions/junction_register.h"
#include "plugins/thermal/panel_checks.h"
#include "plugins/thermal/project_totals.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/design_value_check.h"

namespace panel_dossier::thermal {

class ThermalPlugin : public Plugin {
 public:
  explicit ThermalPlugin(const std::filesystem::path& data_dir) : tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }

  std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                   const Settings& settings) const override {
    return thermal::check_panel(panel, project, settings, tables_, *details_);
  }

  std::vector<Finding> check_project(const Project& project, const std::vector<PanelFindings>& panels,
                                     const Settings& settings) const override {
    std::vector<Finding> findings = total_project(project, panels, settings, tables_);
    findings.push_back(register_junctions(project, panels, settings, tables_, *details_));
    findings.push_back(check_building_air(project, settings, tables_));
    findings.push_back(total_joints(project));
    findings.push_back(check_design_values(project, settings, tables_));
    return findings;
  }

 private:
  Tables tables_;
  /// Remembers solved details only, which depend on nothing but their models.
  std::unique_ptr<conduction::DetailSolver> details_ = std::make_unique<conduction::DetailSolver>();
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
