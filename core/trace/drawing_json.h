// Drawings and charts as JSON. Private to the trace stage.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "core/api/finding/drawing.h"

namespace panel_dossier {

nlohmann::ordered_json drawing_to_json(const Drawing& drawing);
nlohmann::ordered_json series_to_json(const Series& series);
nlohmann::ordered_json bar_chart_to_json(const BarChart& chart);

/// All throw std::runtime_error naming the member that is missing or wrong.
Drawing drawing_from_json(const nlohmann::ordered_json& json);
Series series_from_json(const nlohmann::ordered_json& json);
BarChart bar_chart_from_json(const nlohmann::ordered_json& json);

}  // namespace panel_dossier
