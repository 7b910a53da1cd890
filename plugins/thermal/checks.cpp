#include "plugins/thermal/checks.h"

#include <iterator>
#include <optional>
#include <string>
#include <utility>

#include "plugins/thermal/air/air_permeability.h"
#include "plugins/thermal/air/joint_length.h"
#include "plugins/thermal/junctions/junction_heat.h"
#include "plugins/thermal/junctions/linear_transmittance.h"
#include "plugins/thermal/moisture/interstitial.h"
#include "plugins/thermal/moisture/surface.h"
#include "plugins/thermal/periodic/dynamic_check.h"
#include "plugins/thermal/site/moisture_in_use.h"
#include "plugins/thermal/site/weather_exposure.h"
#include "plugins/thermal/transmittance/design_values.h"
#include "plugins/thermal/transmittance/heat_loss.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "plugins/thermal/windows/window_check.h"

namespace panel_dossier::thermal {

namespace {

/// Gathers what the checks of one call give, in their order.
class Outcome {
 public:
  void add(Finding finding) { all_.findings.push_back(std::move(finding)); }
  void add(CheckOutcome outcome) {
    std::move(outcome.findings.begin(), outcome.findings.end(), std::back_inserter(all_.findings));
    std::move(outcome.not_applicable.begin(), outcome.not_applicable.end(), std::back_inserter(all_.not_applicable));
  }
  CheckOutcome close() { return std::move(all_); }

 private:
  CheckOutcome all_;
};

}  // namespace

const std::vector<CheckDeclaration>& checks() {
  static const std::vector<CheckDeclaration> all{
      kUValueCheck,
      kRValueCheck,
      kHeatLossCheck,
      kLinearTransmittanceCheck,
      kJunctionTemperatureFactorCheck,
      kSurfaceTemperatureFactorCheck,
      kWindowUValueCheck,
      kDoorUValueCheck,
      kAirPermeabilityCheck,
      kJointLengthCheck,
      kSurfaceCondensationCheck,
      kInterstitialCondensationCheck,
      kDynamicTransmittanceCheck,
      kDecrementCheck,
      kArealHeatCapacityCheck,
      kDesignValuesCheck,
      kWeatherExposureCheck,
      kMoistureInUseCheck,
      // The scaffold enters a further check above this line: k@Check@Check,
  };
  return all;
}

CheckOutcome check_panel(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                         conduction::DetailSolver& solver) {
  const TransmittanceResult transmittance = check_transmittance(panel, project, settings, tables);
  std::optional<PanelJunctionHeat> junctions;
  if (transmittance.transmittance) {
    junctions = junction_heat(panel, project, settings, tables, *transmittance.transmittance, solver);
  }
  const PanelJunctionHeat* known_junctions = junctions ? &*junctions : nullptr;
  const std::string why_not = transmittance.why_not();
  Outcome outcome;
  outcome.add(transmittance.u_value);
  outcome.add(transmittance.r_value);
  outcome.add(check_heat_loss(panel, known_junctions, why_not));
  outcome.add(check_linear_transmittance(panel, known_junctions, why_not));
  outcome.add(check_junction_temperature(panel, settings, tables, known_junctions, why_not));
  outcome.add(check_surface_temperature(panel, settings, tables, transmittance));
  outcome.add(check_windows(panel, settings, tables));
  outcome.add(check_doors(panel, settings, tables));
  outcome.add(check_air_permeability(panel, project, settings, tables));
  outcome.add(check_joints(panel));
  outcome.add(check_surface_condensation(panel, settings, tables, transmittance));
  outcome.add(check_interstitial_condensation(panel, project, settings, tables, transmittance));
  outcome.add(CheckOutcome{check_dynamic_characteristics(panel, project, transmittance)});
  outcome.add(check_weather_exposure(panel, project, settings));
  outcome.add(check_moisture_in_use(panel, tables));
  // The scaffold enters a further check above this line: outcome.add(check_@check@(panel, settings));
  return outcome.close();
}

CheckOutcome check_project(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                           const Tables& tables, conduction::DetailSolver& solver) {
  Outcome outcome;
  outcome.add(average_u_value(project, panels, settings, tables));
  outcome.add(total_heat_loss(project, panels));
  outcome.add(register_junctions(project, panels, settings, tables, solver));
  outcome.add(average_fillings(project, panels, settings, tables));
  outcome.add(check_building_air(project, settings, tables));
  outcome.add(total_joints(project));
  outcome.add(check_design_values(project, settings, tables));
  return outcome.close();
}

}  // namespace panel_dossier::thermal
