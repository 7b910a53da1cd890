// The fire plugin: resistance by evidence with a calculation beside it, and reaction to fire of materials.
#include "core/api/plugin.h"
#include "plugins/fire/checks.h"

namespace panel_dossier::fire {

class FirePlugin final : public Plugin {
 public:
  explicit FirePlugin(const std::filesystem::path& data_dir) : info_(plugin_info()), tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }

  std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                   const Settings& settings) const override {
    return fire::check_panel(panel, project, settings, tables_);
  }

  std::vector<Finding> check_project(const Project& project, const std::vector<PanelFindings>& /*panels*/,
                                     const Settings& settings) const override {
    return fire::check_project(project, settings, tables_);
  }

 private:
  PluginInfo info_;
  Tables tables_;
};

}  // namespace panel_dossier::fire

PANEL_DOSSIER_PLUGIN(panel_dossier::fire::FirePlugin, "fire");
