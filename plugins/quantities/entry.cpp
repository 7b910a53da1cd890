// The quantities discipline: areas, masses, cutting lists, fixings, loads and times from the same parts.
#include <filesystem>

#include "core/api/plugin.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/programme/costs.h"
#include "plugins/quantities/programme/rates.h"
#include "plugins/quantities/project_findings.h"

namespace panel_dossier::quantities {

class QuantitiesPlugin final : public Plugin {
 public:
  explicit QuantitiesPlugin(const std::filesystem::path& /*data_dir*/) {}

  const PluginInfo& info() const override { return info_; }

  std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                   const Settings& settings) const override {
    std::vector<Finding> findings{area(panel, settings),
                                  mass(panel, project),
                                  centre_of_gravity(panel, project),
                                  take_off_measures(panel, project, settings),
                                  cutting_list(panel, project, settings),
                                  fixings(panel, project),
                                  assembly(panel, project, settings),
                                  as_built_size(panel, settings),
                                  loads(panel, project),
                                  erection_time(panel, settings)};
    // Optional: without rates nobody asked for costs.
    if (rates_given(settings)) findings.push_back(costs(panel, project, settings));
    return findings;
  }

  std::vector<Finding> check_project(const Project& project, const std::vector<PanelFindings>& panels,
                                     const Settings& settings) const override {
    return project_findings(project, panels, settings);
  }

 private:
  PluginInfo info_{
      "quantities",
      "Quantities, workshop and site",
      "1.1.0",
      {"EN 1991-1-1:2002", "ISO 1803:1997"},
      "Masses and centres of gravity are nominal. Lifting, handling and temporary stability need a lifting "
      "plan by a competent person, a trial lift, and compliance with local regulations; figures here do "
      "not replace weighing."};
};

}  // namespace panel_dossier::quantities

PANEL_DOSSIER_PLUGIN(panel_dossier::quantities::QuantitiesPlugin, "quantities");
