#include "core/api/support/exact_sum.h"

#include <cmath>
#include <limits>

namespace panel_dossier {

namespace {

constexpr double kMillionthsPerUnit = 1.0e6;
constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

bool takes(double value) {
  return std::abs(value) < kExactSumLimit;  // false for NaN too
}

}  // namespace

double rounded_to_millionth(double value) {
  return ExactSum().add(value).total();
}

ExactSum& ExactSum::add(double value) {
  if (in_range_ && takes(value)) {
    millionths_ += std::llround(value * kMillionthsPerUnit);
    in_range_ = takes(total());
  } else {
    in_range_ = false;
  }
  return *this;
}

double ExactSum::total() const {
  return in_range_ ? static_cast<double>(millionths_) / kMillionthsPerUnit : kNaN;
}

}  // namespace panel_dossier
