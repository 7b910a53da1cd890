// The structural plugin: frame, rails, openings and sheathing of panels under wind and vertical load.
#include <memory>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/wind/wind_checks.h"

namespace panel_dossier::structural {

class StructuralRun final : public PluginRun {
 public:
  StructuralRun(const Project& project, const Settings& settings, const Tables& tables)
      : project_(project), settings_(settings), tables_(tables), site_(lay_out_site(project, settings)) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    return structural::check_panel(panel, project_, settings_, tables_, site_);
  }

  CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
    return {{project_wind_pressure(project_, panels, settings_, site_.facades), utilisation_table(panels)}};
  }

 private:
  const Project& project_;
  const Settings& settings_;
  const Tables& tables_;
  SiteLayout site_;
};

class StructuralPlugin final : public Plugin {
 public:
  explicit StructuralPlugin(const std::filesystem::path& data_dir) : info_(plugin_info()), tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }
  const std::vector<CheckDeclaration>& checks() const override { return structural::checks(); }

  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& settings) const override {
    return std::make_unique<StructuralRun>(project, settings, tables_);
  }

 private:
  PluginInfo info_;
  Tables tables_;
};

}  // namespace panel_dossier::structural

PANEL_DOSSIER_PLUGIN(panel_dossier::structural::StructuralPlugin, "structural");
