// Temperatures through a build-up in the steady state.
#pragma once

#include <vector>

#include "core/api/finding/drawing.h"
#include "plugins/thermal/transmittance/build_up.h"

namespace panel_dossier::thermal {

/// Temperatures in °C at the internal air, the internal surface, each interface, the external surface and the external
/// air, for heat that flows at right angles to the surface through `resistances` (m²·K/W).
std::vector<double> interface_temperatures_c(const std::vector<double>& resistances, double r_si, double r_se,
                                             double internal_c, double external_c);

/// A chart of temperature against depth from the inner face (mm) for the largest section and, where there is another,
/// the one that insulates least.
Series temperature_series(const BridgedLayers& bridged, double r_si, double r_se, double internal_c, double external_c);

}  // namespace panel_dossier::thermal
