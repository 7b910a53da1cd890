// The build-up of one panel as heat sees it: layers with what bridges them, the sections through them, their resistance
// by the combined method, and the temperatures through them in the steady state.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/bridging.h"
#include "plugins/thermal/transmittance/plain_layers.h"

namespace panel_dossier::thermal {

/// One way for heat from inside to outside at right angles to the surface.
struct HeatPath {
  double fraction = 0.0;            ///< share of the area, above 0; all paths add up to 1
  std::vector<double> resistances;  ///< m²·K/W of each layer along this path, from inside; at least 0
};

/// All resistances in m²·K/W, surface resistances included in the totals.
struct CombinedResistance {
  double upper = 0.0;                     ///< R'tot: no heat flows sideways
  double lower = 0.0;                     ///< R''tot: every plane parallel to the surface has one temperature
  double total = 0.0;                     ///< Rtot: the mean of both limits
  std::vector<double> layer_resistances;  ///< equivalent resistance of each layer in the lower limit

  /// The method is not to be used above 1.5.
  double ratio() const { return upper / lower; }
  /// Largest relative error of `total`, as a share of 1.
  double max_relative_error() const { return (upper - lower) / (2.0 * total); }
  /// U in W/(m²·K), without corrections.
  double transmittance() const { return 1.0 / total; }
};

/// EN ISO 6946:2017, 6.7.2. `paths` is not empty and every path has the same number of layers; `r_si` and `r_se` are
/// the surface resistances in m²·K/W, above 0.
CombinedResistance combine(const std::vector<HeatPath>& paths, double r_si, double r_se);

/// What becomes of a build-up when its slightly ventilated air layer is taken as well ventilated.
struct VentilatedCase {
  std::size_t inner_layers = 0;  ///< layers inside the air layer, which alone count then
  double r_se_m2k_per_w = 0.0;   ///< of still air
  double share = 0.0;            ///< of this case in the total resistance; between 0 and 1
};

struct BuildUp {
  HeatFlow heat_flow = HeatFlow::horizontal;
  double r_si_m2k_per_w = 0.0;
  double r_se_m2k_per_w = 0.0;
  bool ends_at_cavity = false;               ///< a well-ventilated air layer stands for the outside
  std::optional<VentilatedCase> ventilated;  ///< there is a slightly ventilated air layer
  BridgedLayers bridged;
};

/// Reads layers, framing and surfaces, recording inputs, notes and what is missing in `builder`. The result is whole
/// when `builder` is not incomplete afterwards, and must not be used otherwise.
BuildUp read_build_up(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                      FindingBuilder& builder);

/// The sections as paths of heat, in their order.
std::vector<HeatPath> heat_paths(const BridgedLayers& bridged);

/// Total resistance with `r_si` in m²·K/W inside; where an air layer is slightly ventilated, each limit lies between
/// its values for that layer unventilated and well ventilated (EN ISO 6946:2017, 6.9.3).
CombinedResistance total_resistance(const BuildUp& build_up, double r_si);

/// Index of the section with the least resistance. `paths` is not empty.
std::size_t least_insulated(const std::vector<HeatPath>& paths);

/// R_si, the layers along `path` and R_se together, m²·K/W.
double resistance_along(const HeatPath& path, double r_si, double r_se);

/// The materials of a section that are not their layer's main material, joined by ` + `; `main materials` when none.
std::string section_name(const BridgedLayers& bridged, const SectionArea& section);

/// Temperatures in °C at the internal air, the internal surface, each interface, the external surface and the external
/// air, for heat that flows at right angles to the surface through `resistances` (m²·K/W).
std::vector<double> interface_temperatures_c(const std::vector<double>& resistances, double r_si, double r_se,
                                             double internal_c, double external_c);

/// A chart of temperature against depth from the inner face (mm) for the largest section and, where there is another,
/// the one that insulates least.
Series temperature_series(const BridgedLayers& bridged, double r_si, double r_se, double internal_c, double external_c);

}  // namespace panel_dossier::thermal
