// The structural plugin: studs and posts under wind and axial load.
#include "core/api/plugin.h"
#include "plugins/structural/checks.h"

namespace panel_dossier::structural {

class StructuralPlugin final : public Plugin {
 public:
  explicit StructuralPlugin(const std::filesystem::path& data_dir) : info_(plugin_info()), tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }

  std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                   const Settings& settings) const override {
    return structural::check_panel(panel, project, settings, tables_);
  }

  /// No structural result of the whole project is formed from those of its panels.
  std::vector<Finding> check_project(const Project& /*project*/, const std::vector<PanelFindings>& /*panels*/,
                                     const Settings& /*settings*/) const override {
    return {};
  }

 private:
  PluginInfo info_;
  Tables tables_;
};

}  // namespace panel_dossier::structural

PANEL_DOSSIER_PLUGIN(panel_dossier::structural::StructuralPlugin, "structural");
