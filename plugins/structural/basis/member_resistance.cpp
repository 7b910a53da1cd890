#include "plugins/structural/basis/member_resistance.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace panel_dossier::structural {

namespace {

constexpr double kRedistribution = 0.7;  ///< km for rectangular sections, 6.1.6(2)

double design(double characteristic_pa, const Resistance& resistance) {
  return resistance.system_factor * resistance.modification_factor * characteristic_pa / resistance.partial_factor;
}

double squared(double value) {
  return value * value;
}

void add_strong_axis(StabilityVerification& result, const Section& section, const Resistance& resistance,
                     const Restraint& restraint) {
  result.slenderness_y = restraint.buckling_length_y_m / (section.depth_m / std::sqrt(12.0));
  result.relative_slenderness_y =
      relative_slenderness(result.slenderness_y, resistance.compression_parallel_pa, resistance.modulus_fifth_pa);
  result.buckling_factor_y = buckling_factor(result.relative_slenderness_y, resistance.straightness_factor);
}

void add_weak_axis(StabilityVerification& result, const Section& section, const Resistance& resistance,
                   const Restraint& restraint) {
  result.slenderness_z = restraint.buckling_length_z_m / (section.width_m / std::sqrt(12.0));
  result.relative_slenderness_z =
      relative_slenderness(result.slenderness_z, resistance.compression_parallel_pa, resistance.modulus_fifth_pa);
  result.buckling_factor_z = buckling_factor(result.relative_slenderness_z, resistance.straightness_factor);
}

/// Table 6.1: uniform load on a simple span, 0.9·l, with 2·h added for load at the compression edge.
void add_lateral_buckling(StabilityVerification& result, const Section& section, const Resistance& resistance,
                          const Restraint& restraint) {
  result.effective_length_m = 0.9 * restraint.buckling_length_z_m + 2.0 * section.depth_m;
  result.critical_bending_stress_pa =
      0.78 * squared(section.width_m) * resistance.modulus_fifth_pa / (section.depth_m * result.effective_length_m);
  result.relative_slenderness_m = std::sqrt(resistance.bending_pa / result.critical_bending_stress_pa);
  result.lateral_factor = lateral_buckling_factor(result.relative_slenderness_m);
}

}  // namespace

double Resistance::bending_design_pa() const {
  return depth_factor * design(bending_pa, *this);
}
double Resistance::compression_design_pa() const {
  return design(compression_parallel_pa, *this);
}
double Resistance::tension_design_pa() const {
  return design(tension_parallel_pa, *this);
}
double Resistance::shear_design_pa() const {
  return design(shear_pa, *this);
}

double relative_slenderness(double slenderness, double compression_parallel_pa, double modulus_fifth_pa) {
  return slenderness / std::numbers::pi * std::sqrt(compression_parallel_pa / modulus_fifth_pa);
}

double buckling_factor(double relative_slenderness, double straightness_factor) {
  if (relative_slenderness <= kNoBuckling) return 1.0;
  const double k =
      0.5 * (1.0 + straightness_factor * (relative_slenderness - kNoBuckling) + squared(relative_slenderness));
  return 1.0 / (k + std::sqrt(squared(k) - squared(relative_slenderness)));
}

double lateral_buckling_factor(double relative_slenderness_in_bending) {
  if (relative_slenderness_in_bending <= kNoLateralBuckling) return 1.0;
  if (relative_slenderness_in_bending <= kElasticLateralBuckling) return 1.56 - 0.75 * relative_slenderness_in_bending;
  return 1.0 / squared(relative_slenderness_in_bending);
}

BendingVerification verify_bending(const Section& section, const Resistance& resistance, const Forces& forces) {
  BendingVerification result;
  result.stress_pa = forces.moment_nm / section.section_modulus_m3();
  result.strength_pa = resistance.bending_design_pa();
  result.utilisation = result.stress_pa / result.strength_pa;
  return result;
}

ShearVerification verify_shear(const Section& section, const Resistance& resistance, const Forces& forces) {
  ShearVerification result;
  result.stress_pa = 1.5 * forces.shear_n / (resistance.crack_factor * section.area_m2());
  result.strength_pa = resistance.shear_design_pa();
  result.utilisation = result.stress_pa / result.strength_pa;
  return result;
}

StabilityVerification verify_stability(const Section& section, const Resistance& resistance, const Restraint& restraint,
                                       const Forces& forces) {
  StabilityVerification result;
  result.compression_stress_pa = forces.axial_n / section.area_m2();
  result.compression_strength_pa = resistance.compression_design_pa();
  add_strong_axis(result, section, resistance, restraint);
  if (!restraint.restrained_along_wall) add_weak_axis(result, section, resistance, restraint);
  if (!restraint.compression_edge_held) add_lateral_buckling(result, section, resistance, restraint);

  const double bending = verify_bending(section, resistance, forces).utilisation;
  const double compression = result.compression_stress_pa / result.compression_strength_pa;
  result.section_sum = squared(compression) + bending;
  // Up to a relative slenderness of 0.3 expression (6.19) alone governs, 6.3.2(2).
  if (std::max(result.relative_slenderness_y, result.relative_slenderness_z) > kNoBuckling) {
    result.strong_axis_sum = compression / result.buckling_factor_y + bending;
    if (!restraint.restrained_along_wall) {
      result.weak_axis_sum = compression / result.buckling_factor_z + kRedistribution * bending;
    }
  }
  if (!restraint.compression_edge_held) {
    result.lateral_sum = squared(bending / result.lateral_factor) + compression / result.buckling_factor_z;
  }
  result.utilisation = std::max({result.section_sum, result.strong_axis_sum, result.weak_axis_sum, result.lateral_sum});
  return result;
}

}  // namespace panel_dossier::structural
