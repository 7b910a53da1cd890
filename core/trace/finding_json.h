// Findings as JSON, under the names of their members. Private to the trace stage.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "core/api/finding/finding.h"

namespace panel_dossier {

/// Absent values, limits, utilisations and panels are null.
nlohmann::ordered_json finding_to_json(const Finding& finding);

/// Throws std::runtime_error naming the member that is missing or wrong.
Finding finding_from_json(const nlohmann::ordered_json& json);

}  // namespace panel_dossier
