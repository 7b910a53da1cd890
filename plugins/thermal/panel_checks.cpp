#include "plugins/thermal/panel_checks.h"

#include <optional>
#include <string>
#include <utility>

#include "plugins/thermal/air/tightness_check.h"
#include "plugins/thermal/air/tightness_joints.h"
#include "plugins/thermal/junctions/junction_check.h"
#include "plugins/thermal/junctions/junction_heat.h"
#include "plugins/thermal/junctions/surface_temperature.h"
#include "plugins/thermal/moisture/interstitial.h"
#include "plugins/thermal/moisture/surface.h"
#include "plugins/thermal/periodic/checks.h"
#include "plugins/thermal/transmittance/heat_loss.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "plugins/thermal/windows/window_check.h"

namespace panel_dossier::thermal {

std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables, conduction::DetailSolver& solver) {
  TransmittanceResult transmittance = check_transmittance(panel, project, settings, tables);
  std::vector<Finding> findings;
  std::optional<PanelJunctionHeat> junctions;
  if (transmittance.transmittance) {
    junctions = junction_heat(panel, project, settings, tables, *transmittance.transmittance, solver);
  }
  const PanelJunctionHeat* known_junctions = junctions ? &*junctions : nullptr;
  const std::string reason = transmittance.u_value.reason;
  Finding surface = check_surface_temperature(panel, settings, tables, transmittance);
  Finding surface_condensation = check_surface_condensation(panel, settings, tables, transmittance);
  Finding interstitial = check_interstitial_condensation(panel, project, settings, tables, transmittance);
  std::vector<Finding> dynamic = check_dynamic_characteristics(panel, project, transmittance);
  findings.push_back(std::move(transmittance.u_value));
  findings.push_back(std::move(transmittance.r_value));
  findings.push_back(check_heat_loss(panel, known_junctions, reason));
  findings.push_back(check_linear_transmittance(panel, known_junctions, reason));
  findings.push_back(check_junction_temperature(panel, settings, tables, known_junctions, reason));
  findings.push_back(std::move(surface));
  findings.push_back(check_windows(panel, settings, tables));
  if (has_filling(panel, "IfcDoor")) findings.push_back(check_doors(panel, settings, tables));
  findings.push_back(check_air_permeability(panel, settings, tables));
  findings.push_back(check_joints(panel));
  findings.push_back(std::move(surface_condensation));
  findings.push_back(std::move(interstitial));
  for (Finding& finding : dynamic) findings.push_back(std::move(finding));
  return findings;
}

}  // namespace panel_dossier::thermal
