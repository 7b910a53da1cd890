// A façade with its wind zones and panels, as a drawing.
#pragma once

#include <map>

#include "core/api/finding/drawing.h"
#include "core/api/model/project.h"
#include "plugins/structural/wind/facade.h"
#include "plugins/structural/wind/height.h"
#include "plugins/structural/wind/loads.h"

namespace panel_dossier::structural {

/// Pressure of each panel in Pa by index into Project::panels; panels without one are not in it.
using PanelPressures = std::map<std::size_t, double>;

/// Seen from outside: outline of the façade, zones A to C of wind from the left above it and from the right below it,
/// with dimensions, and the panels with mark and pressure. More panels than can be read are left out.
Drawing zone_elevation(const Facade& facade, const BlockSize& size, const GroundLevel& ground, const Project& project,
                       const PanelPressures& pressures);

}  // namespace panel_dossier::structural
