// The settings that steer the intake itself.
#pragma once

#include <optional>

#include "core/api/model/settings.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/export_reader.h"

namespace panel_dossier {

/// `intake.layer_order`: `inside_to_outside` or `outside_to_inside`; none when not set. Another value adds an error.
std::optional<LayerOrder> layer_order_setting(const Settings& settings, Diagnostics& diagnostics);

}  // namespace panel_dossier
