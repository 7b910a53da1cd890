// The quantities discipline: areas, masses, cutting lists, fixings, loads and times from the same parts.
#include <filesystem>
#include <memory>
#include <string_view>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/outputs.h"

namespace panel_dossier::quantities {

class QuantitiesRun final : public PluginRun {
 public:
  QuantitiesRun(const Project& project, const Settings& settings) : project_(project), settings_(settings) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    return quantities::check_panel(panel, project_, settings_);
  }
  CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
    return quantities::check_project(project_, panels, settings_);
  }
  std::vector<OutputRow> panel_rows(std::string_view output, const PanelFindings& panel) const override {
    return quantities::panel_rows(output, project_, panel);
  }
  std::vector<OutputRow> project_rows(std::string_view output, const std::vector<Finding>& findings) const override {
    return quantities::project_rows(output, project_, findings);
  }

 private:
  const Project& project_;
  const Settings& settings_;
};

class QuantitiesPlugin final : public Plugin {
 public:
  explicit QuantitiesPlugin(const std::filesystem::path& /*data_dir*/) {}

  const PluginInfo& info() const override { return info_; }
  const std::vector<CheckDeclaration>& checks() const override { return quantities::checks(); }

  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& settings) const override {
    return std::make_unique<QuantitiesRun>(project, settings);
  }

 private:
  PluginInfo info_{"quantities",
                   "Quantities, workshop and site",
                   "1.1.0",
                   {"EN 1991-1-1:2002", "ISO 1803:1997"},
                   "Masses and centres of gravity are nominal. Lifting, handling and temporary stability need a lift "
                   "plan by a competent person, a trial lift, and compliance with local regulations; figures here do "
                   "not replace weighing."};
};

}  // namespace panel_dossier::quantities

PANEL_DOSSIER_PLUGIN(panel_dossier::quantities::QuantitiesPlugin, "quantities");
