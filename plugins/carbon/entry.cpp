// The carbon plugin as the program loads it.
#include <filesystem>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/carbon/panel_checks.h"
#include "plugins/carbon/tables.h"
#include "plugins/carbon/totals/project_totals.h"

namespace panel_dossier::carbon {

class CarbonPlugin : public Plugin {
 public:
  explicit CarbonPlugin(const std::filesystem::path& data_dir) : tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }

  std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                   const Settings& settings) const override {
    return carbon::check_panel(panel, project, settings, tables_);
  }

  std::vector<Finding> check_project(const Project& project, const std::vector<PanelFindings>& panels,
                                     const Settings& settings) const override {
    return total_project(project, panels, settings, tables_);
  }

 private:
  Tables tables_;
  PluginInfo info_{
      "carbon",
      "Whole-life carbon",
      "0.1.0",
      {"EN 15978:2011", "EN 15804:2012+A2:2019", "EN 16449:2014"},
      "Declared values of the suppliers, not measurements; comparable only with accounts of the same scope."};
};

}  // namespace panel_dossier::carbon

PANEL_DOSSIER_PLUGIN(panel_dossier::carbon::CarbonPlugin, "carbon");
