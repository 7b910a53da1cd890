#include "plugins/fire/calculation/charring.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/api/support/units.h"

namespace panel_dossier::fire {

namespace {

constexpr double kRateFactorAfterFailure = 2.0;   ///< k3, 3.4.3.2(4)
constexpr double kProtectiveCharDepth_mm = 25.0;  ///< (3.8), (3.9)

/// Rate of a wood panel; none for gypsum.
std::optional<Sourced<double>> panel_rate(const CassetteBoard& board, const Tables& tables) {
  return tables.boards.number(board.key, "charring_mm_per_min");
}

BoardTimes gypsum_times(const CassetteBoard& board, double start_min, double slow_mm_per_min) {
  BoardTimes times{start_min, start_min, false, std::nullopt};
  if (!board.tested_failure_min || !board.fixings.shortest_m) return times;
  const double fastener_mm = units::millimetres_from_metres(board.fixings.shortest_m->value);
  times.pull_out_min = pull_out_min(start_min, fastener_mm, board.thickness_mm, slow_mm_per_min);
  times.fall_off_min = std::max(start_min, std::min(board.tested_failure_min->value, *times.pull_out_min));
  return times;
}

}  // namespace

double gypsum_charring_start_min(double thickness_mm, bool beside_open_joint) {
  return std::max(0.0, 2.8 * thickness_mm - (beside_open_joint ? 23.0 : 14.0));
}

double density_factor(double density_kg_per_m3) {
  return std::sqrt(450.0 / density_kg_per_m3);
}

double thickness_factor(double thickness_mm) {
  return std::max(1.0, std::sqrt(20.0 / thickness_mm));
}

double wood_panel_charring_start_min(double thickness_mm, double rate_mm_per_min, double density_kg_per_m3) {
  return thickness_mm / (rate_mm_per_min * density_factor(density_kg_per_m3) * thickness_factor(thickness_mm));
}

double slow_factor(double gypsum_mm) {
  return 1.0 - 0.018 * gypsum_mm;
}

double insulated_slow_factor(double gypsum_mm) {
  return 1.05 - 0.0073 * gypsum_mm;
}

double insulated_fast_factor(double fall_off_min) {
  return 1.0 + 0.036 * fall_off_min;
}

double CharringPhases::depth_mm(double time_min) const {
  const auto share = [&](double from_min, double to_min, double rate_mm_per_min) {
    const double lasted_min = std::min(time_min, to_min) - from_min;
    return lasted_min > 0.0 ? rate_mm_per_min * lasted_min : 0.0;
  };
  return share(start_min, fall_off_min, slow_mm_per_min) + share(fall_off_min, plain_from_min, fast_mm_per_min) +
         share(plain_from_min, std::numeric_limits<double>::infinity(), plain_mm_per_min);
}

double CharringPhases::time_min(double depth_mm) const {
  const double at_fall_off_mm = this->depth_mm(fall_off_min);
  if (depth_mm < at_fall_off_mm) return start_min + depth_mm / slow_mm_per_min;
  const double at_plain_mm = this->depth_mm(plain_from_min);
  if (depth_mm < at_plain_mm) return fall_off_min + (depth_mm - at_fall_off_mm) / fast_mm_per_min;
  return plain_from_min + (depth_mm - at_plain_mm) / plain_mm_per_min;
}

CharringPhases protected_member(double start_min, double fall_off_min, double rate_mm_per_min, double slow_factor) {
  CharringPhases phases{start_min,
                        fall_off_min,
                        fall_off_min,
                        slow_factor * rate_mm_per_min,
                        kRateFactorAfterFailure * rate_mm_per_min,
                        rate_mm_per_min};
  const double slow_mm = (fall_off_min - start_min) * phases.slow_mm_per_min;
  const double fast_min = std::max(0.0, kProtectiveCharDepth_mm - slow_mm) / phases.fast_mm_per_min;
  phases.plain_from_min += fall_off_min > start_min ? fast_min : std::min(fall_off_min, fast_min);
  return phases;
}

CharringPhases insulated_stud(double start_min, double fall_off_min, double one_dimensional_mm_per_min,
                              double section_factor, double slow_factor) {
  const double rate_mm_per_min = section_factor * kInsulatedSectionFactor * one_dimensional_mm_per_min;
  const double fast_mm_per_min = insulated_fast_factor(fall_off_min) * rate_mm_per_min;
  return {start_min, fall_off_min, fall_off_min, slow_factor * rate_mm_per_min, fast_mm_per_min, fast_mm_per_min};
}

double required_fastener_length_mm(double board_mm, double char_mm) {
  return board_mm + char_mm + kLeastPenetration_mm;
}

double pull_out_min(double start_min, double fastener_mm, double board_mm, double slow_mm_per_min) {
  return start_min + std::max(0.0, fastener_mm - required_fastener_length_mm(board_mm, 0.0)) / slow_mm_per_min;
}

bool is_wood_panel(const CassetteBoard& board, const Tables& tables) {
  return panel_rate(board, tables).has_value();
}

double charring_start_min(const CassetteBoard& board, const Tables& tables) {
  const auto rate = panel_rate(board, tables);
  if (!rate) return gypsum_charring_start_min(board.thickness_mm, board.joints.open());
  return wood_panel_charring_start_min(board.thickness_mm, rate->value, board.characteristic_density_kg_per_m3.value);
}

std::vector<BoardTimes> board_times(const CassetteBoard& board, const Tables& tables, double slow_mm_per_min) {
  const double start_min = charring_start_min(board, tables);
  if (!is_wood_panel(board, tables)) return {gypsum_times(board, start_min, slow_mm_per_min)};
  const double early_min = std::max(0.0, start_min - kEarlyFallOff_min);
  return {{start_min, start_min, false, std::nullopt}, {early_min, early_min, true, std::nullopt}};
}

double zero_strength_factor(double time_min, double charring_start_min) {
  return std::clamp(time_min / std::max(20.0, charring_start_min), 0.0, 1.0);
}

}  // namespace panel_dossier::fire
