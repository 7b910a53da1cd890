#include "plugins/structural/fixings/fasteners.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/units.h"

namespace panel_dossier::structural {

std::array<FailureMode, 6> failure_modes(const ShearPlane& plane) {
  const double fh1_t1_d = plane.panel_embedment_pa * plane.thickness_m * plane.diameter_m;
  const double fh1_t2_d = plane.panel_embedment_pa * plane.penetration_m * plane.diameter_m;
  const double beta = plane.timber_embedment_pa / plane.panel_embedment_pa;
  const double ratio = plane.penetration_m / plane.thickness_m;
  // 4·β·(…)·My/(fh,1·d·t²) of modes d and e, without the bracket that differs.
  const auto bent = [&](double fh_t_d, double t_m) { return 4.0 * beta * plane.yield_moment_nm / (fh_t_d * t_m); };
  std::array<FailureMode, 6> modes{};
  modes[0] = {'a', fh1_t1_d, 0.0};
  modes[1] = {'b', beta * fh1_t2_d, 0.0};
  modes[2] = {'c',
              fh1_t1_d / (1.0 + beta) *
                  (std::sqrt(beta + 2.0 * std::pow(beta, 2) * (1.0 + ratio + std::pow(ratio, 2)) +
                             beta * std::pow(beta, 2) * std::pow(ratio, 2)) -
                   beta * (1.0 + ratio)),
              0.0};
  modes[3] = {'d',
              1.05 * fh1_t1_d / (2.0 + beta) *
                  (std::sqrt(2.0 * beta * (1.0 + beta) + (2.0 + beta) * bent(fh1_t1_d, plane.thickness_m)) - beta),
              0.0};
  modes[4] = {'e',
              1.05 * fh1_t2_d / (1.0 + 2.0 * beta) *
                  (std::sqrt(2.0 * std::pow(beta, 2) * (1.0 + beta) +
                             (1.0 + 2.0 * beta) * bent(fh1_t2_d, plane.penetration_m)) -
                   beta),
              0.0};
  modes[5] = {'f',
              1.15 * std::sqrt(2.0 * beta / (1.0 + beta)) *
                  std::sqrt(2.0 * plane.yield_moment_nm * plane.panel_embedment_pa * plane.diameter_m),
              0.0};
  for (std::size_t i = 2; i < modes.size(); ++i) {
    modes[i].rope_n = std::min(plane.withdrawal_n / 4.0, plane.rope_limit * modes[i].johansen_n);
  }
  return modes;
}

const FailureMode& governing_mode(const std::array<FailureMode, 6>& modes) {
  return *std::min_element(modes.begin(), modes.end(),
                           [](const FailureMode& a, const FailureMode& b) { return a.total_n() < b.total_n(); });
}

std::optional<double> panel_embedment_pa(std::string_view product, double diameter_m, double thickness_m,
                                         std::optional<double> density_kg_per_m3) {
  const double d_mm = diameter_m * units::kMillimetrePerMetre;
  if (product == "plywood") {
    if (!density_kg_per_m3) return std::nullopt;
    return 0.11 * *density_kg_per_m3 * std::pow(d_mm, -0.3) * units::kPascalPerNewtonPerMm2;
  }
  if (!product.starts_with("OSB/") && !product.starts_with("P")) return std::nullopt;
  return 65.0 * std::pow(d_mm, -0.7) * std::pow(thickness_m * units::kMillimetrePerMetre, 0.1) *
         units::kPascalPerNewtonPerMm2;
}

double timber_embedment_pa(double density_kg_per_m3, double diameter_m) {
  return 0.082 * density_kg_per_m3 * std::pow(diameter_m * units::kMillimetrePerMetre, -0.3) *
         units::kPascalPerNewtonPerMm2;
}

double yield_moment_nm(double tensile_strength_pa, double diameter_m) {
  constexpr double kNmPerNmm = 1e-3;
  return 0.3 * tensile_strength_pa / units::kPascalPerNewtonPerMm2 *
         std::pow(diameter_m * units::kMillimetrePerMetre, 2.6) * kNmPerNmm;
}

std::optional<Withdrawal> withdrawal(const ScrewGroup& screws) {
  constexpr double kLeastDiameter_mm = 6.0;
  constexpr double kGreatestDiameter_mm = 12.0;
  constexpr double kLeastPenetration = 6.0;  // diameters
  const double d = units::millimetres_from_metres(screws.diameter_m);
  const double l = units::millimetres_from_metres(screws.penetration_m);
  const bool in_range = d >= kLeastDiameter_mm && d <= kGreatestDiameter_mm && l >= kLeastPenetration * d;
  if (!in_range || !(screws.count >= 1.0) || !(screws.density_kg_per_m3 > 0.0)) return std::nullopt;
  Withdrawal result;
  const double strength = 0.52 * std::pow(d, -0.5) * std::pow(l, -0.1) * std::pow(screws.density_kg_per_m3, 0.8);
  result.strength_pa = strength * units::kPascalPerNewtonPerMm2;
  result.diameter_factor = std::min(d / 8.0, 1.0);
  result.effective_count = std::pow(screws.count, 0.9);
  result.resistance_n = result.effective_count * strength * d * l * result.diameter_factor;
  return result;
}

double pull_through_n(double effective_count, double head_strength_pa, double head_diameter_m) {
  return effective_count * head_strength_pa * head_diameter_m * head_diameter_m;
}

}  // namespace panel_dossier::structural
