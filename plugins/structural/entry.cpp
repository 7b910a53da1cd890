// The structural plugin: frame, rails, openings and sheathing of panels under wind and vertical load.
#include "core/api/plugin.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/members/utilisation_table.h"
#include "plugins/structural/wind/project.h"

namespace panel_dossier::structural {

class StructuralPlugin final : public Plugin {
 public:
  explicit StructuralPlugin(const std::filesystem::path& data_dir) : info_(plugin_info()), tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }

  std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                   const Settings& settings) const override {
    return structural::check_panel(panel, project, settings, tables_, *facades_.of(project, settings));
  }

  std::vector<Finding> check_project(const Project& project, const std::vector<PanelFindings>& panels,
                                     const Settings& settings) const override {
    return {project_wind_pressure(project, panels, settings, *facades_.of(project, settings)),
            utilisation_table(panels)};
  }

 private:
  PluginInfo info_;
  Tables tables_;
  mutable FacadeCache facades_;  ///< computed once, whichever panel comes first
};

}  // namespace panel_dossier::structural

PANEL_DOSSIER_PLUGIN(panel_dossier::structural::StructuralPlugin, "structural");
