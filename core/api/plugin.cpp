#include "core/api/plugin.h"

namespace panel_dossier {

std::vector<OutputRow> PluginRun::panel_rows(std::string_view /*output*/, const PanelFindings& /*panel*/) const {
  return {};
}

std::vector<OutputRow> PluginRun::project_rows(std::string_view /*output*/,
                                               const std::vector<Finding>& /*findings*/) const {
  return {};
}

std::vector<InputProblem> PluginRun::problems() const {
  return {};
}

}  // namespace panel_dossier
