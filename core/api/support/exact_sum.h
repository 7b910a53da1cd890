// Sums that come out the same whatever their order and grouping: parts, panels and project agree to the last digit.
#pragma once

#include <cstdint>

namespace panel_dossier {

/// Largest magnitude, exclusive, that `rounded_to_millionth` and `ExactSum` take: below it every whole number of
/// millionths has a double of its own.
inline constexpr double kExactSumLimit = 2.0e9;

/// `value` rounded to whole millionths of its unit (kg to mg, m² to mm², m to µm). NaN when `value` is not finite or
/// its magnitude is `kExactSumLimit` or more.
double rounded_to_millionth(double value);

/// Adds values as whole millionths of their unit, so addition is exact. A plain sum of doubles would depend on order
/// by its last digit, and a column of subtotals would then not add up to the total beside it.
/// Not thread-safe; holds no resources.
class ExactSum {
 public:
  /// Rounds `value` to millionths first. A value out of range makes the total NaN.
  ExactSum& add(double value);
  /// The sum, as the double nearest to the whole number of millionths; NaN when out of range.
  double total() const;

 private:
  std::int64_t millionths_ = 0;
  bool in_range_ = true;
};

}  // namespace panel_dossier
