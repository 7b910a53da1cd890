// Values between the points that a table of a standard gives.
#pragma once

#include <optional>
#include <utility>
#include <vector>

namespace panel_dossier::fire {

/// Argument and value, ascending by argument.
using Points = std::vector<std::pair<double, double>>;

/// Linear between the points, none below the first, the last value above the last.
std::optional<double> interpolated(const Points& points, double at);

}  // namespace panel_dossier::fire
