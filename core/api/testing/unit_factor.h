// What a printed unit is in SI.
#pragma once

#include <string_view>

namespace panel_dossier::testing {

/// The number of SI units (m, kg, s, K, N, Pa, W, J and their products, rad, ratios) in one of this unit, for example
/// 1e6 for `N/mm²`, 1e-12 for `mm⁴` and 0.01 for `%`. What is no unit of measure (`GBP`, `pieces`, `CO2e`) and °C count
/// as themselves: 1.
double unit_factor(std::string_view unit);

}  // namespace panel_dossier::testing
