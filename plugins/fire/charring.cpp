#include "plugins/fire/charring.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::fire {

namespace {

constexpr double kRateFactorAfterFailure = 2.0;   ///< k3, 3.4.3.2(4)
constexpr double kProtectiveCharDepth_mm = 25.0;  ///< (3.8)

}  // namespace

double gypsum_charring_start_min(double thickness_mm) {
  return std::max(0.0, 2.8 * thickness_mm - 14.0);
}

double wood_panel_charring_start_min(double thickness_mm, double rate_mm_per_min, double density_kg_per_m3) {
  const double density_factor = std::sqrt(450.0 / density_kg_per_m3);
  const double thickness_factor = std::max(1.0, std::sqrt(20.0 / thickness_mm));
  return thickness_mm / (rate_mm_per_min * density_factor * thickness_factor);
}

double char_depth_mm(double time_min, double charring_start_min, double rate_mm_per_min) {
  if (time_min <= charring_start_min) return 0.0;
  const double fast_rate = kRateFactorAfterFailure * rate_mm_per_min;
  const double fast_min = std::min(charring_start_min, kProtectiveCharDepth_mm / fast_rate);
  const double after_start_min = time_min - charring_start_min;
  if (after_start_min <= fast_min) return fast_rate * after_start_min;
  return fast_rate * fast_min + rate_mm_per_min * (after_start_min - fast_min);
}

double zero_strength_factor(double time_min, double charring_start_min) {
  return std::clamp(time_min / std::max(20.0, charring_start_min), 0.0, 1.0);
}

double effective_char_depth_mm(double time_min, double charring_start_min, double rate_mm_per_min) {
  return char_depth_mm(time_min, charring_start_min, rate_mm_per_min) +
         zero_strength_factor(time_min, charring_start_min) * kZeroStrengthLayer_mm;
}

}  // namespace panel_dossier::fire
