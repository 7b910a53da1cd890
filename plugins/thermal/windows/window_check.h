// U-values of the windows and doors of a panel.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/api/finding/finding.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// Name of the filling, else of the opening.
std::string filling_label(const Opening& opening);

/// Whether an opening is filled by an `IfcWindow` or `IfcDoor`.
bool has_filling(const Panel& panel, std::string_view entity);

/// U in W/(m²·K) of what fills an opening: from Panel_Window.GlassTransmittance, FrameTransmittance, EdgeTransmittance
/// and FrameWidth as soon as one of them is there (EN ISO 10077-1:2017), else the declared ThermalTransmittance.
/// None when something is missing, which `builder` then knows.
std::optional<double> filling_transmittance(const Opening& opening, FindingBuilder& builder);

/// `thermal.window_u_value`: the highest U-value of the panel's windows against the limit of the jurisdiction.
Finding check_windows(const Panel& panel, const Settings& settings, const Tables& tables);

/// `thermal.door_u_value`: the highest declared U-value of the panel's doors against the limit of the jurisdiction. For
/// panels with a door.
Finding check_doors(const Panel& panel, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal
