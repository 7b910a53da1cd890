// Direction of heat flow through a panel, which decides surface and air-layer resistances.
#pragma once

#include <string_view>

#include "core/api/model/panel.h"

namespace panel_dossier::thermal {

enum class HeatFlow { upwards, horizontal, downwards };

/// `upwards`, `horizontal`, `downwards`: also the columns of the air-layer table.
std::string_view to_string(HeatFlow direction);

/// Direction from inside to outside. `horizontal` holds up to 30° from the horizontal (EN ISO 6946:2017, 6.8).
HeatFlow heat_flow_through(const Panel& panel);

}  // namespace panel_dossier::thermal
