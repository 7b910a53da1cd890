// The fire plugin: resistance by evidence with a calculation beside it, and reaction to fire of materials.
#include <memory>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/fire/checks.h"

namespace panel_dossier::fire {

class FireRun final : public PluginRun {
 public:
  FireRun(const Project& project, const Settings& settings, const Tables& tables)
      : project_(project), settings_(settings), tables_(tables) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    return {fire::check_panel(panel, project_, settings_, tables_)};
  }

  CheckOutcome check_project(const std::vector<PanelFindings>& /*panels*/) const override {
    return {fire::check_project(project_, settings_, tables_)};
  }

 private:
  const Project& project_;
  const Settings& settings_;
  const Tables& tables_;
};

class FirePlugin final : public Plugin {
 public:
  explicit FirePlugin(const std::filesystem::path& data_dir) : info_(plugin_info()), tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }
  const std::vector<CheckDeclaration>& checks() const override { return fire::checks(); }

  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& settings) const override {
    return std::make_unique<FireRun>(project, settings, tables_);
  }

 private:
  PluginInfo info_;
  Tables tables_;
};

}  // namespace panel_dossier::fire

PANEL_DOSSIER_PLUGIN(panel_dossier::fire::FirePlugin, "fire");
