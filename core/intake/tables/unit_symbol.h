// Units as people write them at the head of a column.
#pragma once

#include <optional>
#include <string_view>

namespace panel_dossier {

/// What a number in the unit `written` is multiplied by to be one in the unit `wanted`: 0.001 for `mm` and `m`.
/// Products, quotients and powers of SI units with their prefixes, and of g, t, min, h, d, Wh and %: `W/(m·K)`, `W/mK`,
/// `N/mm²`, `kJ/(kg.K)`, `m3/(h m2)`. A unit of other words (`°C`, `years`, `kgCO2e per declared unit`) must be the
/// wanted one. An empty `wanted` is a plain number: `written` is empty, `-`, `1` or `%`. None for a unit that cannot be
/// read and for one of another dimension.
std::optional<double> unit_conversion(std::string_view written, std::string_view wanted);

}  // namespace panel_dossier
