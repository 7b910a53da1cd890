// Whether the formulas that a finding prints have the one form and give the numbers printed beside them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"

namespace panel_dossier::testing {

/// What is wrong with the formulas of the steps, one text a formula, in their order; empty when nothing is.
///
/// A formula is `symbol = expression`. The symbol is the step's own and holds letters, digits, `_`, `,`, primes and en
/// dashes. The expression holds numbers with a decimal point, + − · × / ^, the superscripts ² ³ ⁴, √( ), ( ), | |, π,
/// min(a; b), max(a; b), sum(x), exp( ), ln( ), sin( ), cos( ), tan( ), and symbols of inputs and earlier steps of the
/// finding. A symbol has one meaning: one number in one unit. Names of columns of one of the finding's tables may stand
/// inside sum(), min() and max(): the expression is then taken row by row, rows without one of the numbers left out.
///
/// Its number must be the step's to 1e-9 relative, or 1e-12 absolute: with every symbol as a number of its unit where
/// the units work out to that of the step, else, as in the empirical formulas of standards, with the numbers as
/// printed. A number has no unit, so it cannot stand for 9.80665 m/s² where the units are to work out. Where a unit is
/// none of measure (`pieces`), either way will do. A step of whole millionths of its unit counts as rounded to them. An
/// angle in ° is an angle either way.
std::vector<std::string> formula_faults(const Finding& finding);

/// The number of SI units (m, kg, s, K, N, Pa, W, J and their products, rad, ratios) in one of this unit, for example
/// 1e6 for `N/mm²`, 1e-12 for `mm⁴` and 0.01 for `%`. What is no unit of measure (`GBP`, `pieces`, `CO2e`) and °C count
/// as themselves: 1.
double unit_factor(std::string_view unit);

}  // namespace panel_dossier::testing
