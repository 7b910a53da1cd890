// Lengths of time as the standard writes them.
#pragma once

#include <optional>
#include <string_view>

namespace panel_dossier {

/// Seconds of an IfcDuration: `P12Y`, `P1Y6M`, `PT36H`, `P2W` (ISO 8601-1:2019, 5.5.2). A year counts 365.25 days and a
/// month a twelfth of it, since a duration of the standard has no day to start from. None for anything else, a sign and
/// an empty duration (`P`) among it.
std::optional<double> seconds_of_duration(std::string_view text);

}  // namespace panel_dossier
