#include "plugins/structural/basis/member_resistance.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace panel_dossier::structural {

namespace {

/// km, 6.1.6(2).
double redistribution(const Section& section) {
  return section.outline ? 1.0 : 0.7;
}

double design(double characteristic_pa, const Resistance& resistance) {
  return resistance.system_factor * resistance.modification_factor * characteristic_pa / resistance.partial_factor;
}

double squared(double value) {
  return value * value;
}

void add_strong_axis(StabilityVerification& result, const Section& section, const Resistance& resistance,
                     const Restraint& restraint) {
  result.slenderness_y = restraint.buckling_length_y_m / section.radius_m();
  result.relative_slenderness_y =
      relative_slenderness(result.slenderness_y, resistance.compression_parallel_pa, resistance.modulus_fifth_pa);
  result.buckling_factor_y = buckling_factor(result.relative_slenderness_y, resistance.straightness_factor);
}

void add_weak_axis(StabilityVerification& result, const Section& section, const Resistance& resistance,
                   const Restraint& restraint) {
  result.slenderness_z = restraint.buckling_length_z_m / section.weak_radius_m();
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

bool Section::whole() const {
  return depth_hole_m == 0.0 && width_hole_m == 0.0 && notched_depth_m == 0.0 && notched_width_m == 0.0 &&
         end_depth_m == 0.0 && !outline;
}

namespace {

struct Rectangle {
  double width_m = 0.0;
  double depth_m = 0.0;
};

/// What is left of b and h outside of a hole.
Rectangle rectangle_left(const Section& section) {
  return {section.notched_width_m > 0.0 ? section.notched_width_m : section.width_m,
          section.notched_depth_m > 0.0 ? section.notched_depth_m : section.depth_m};
}

/// Of a rectangle with a hole through `width` in the middle of `depth`, bent in the direction of `depth`.
double modulus_beside_hole(double width_m, double depth_m, double hole_m) {
  return width_m * (depth_m * depth_m * depth_m - hole_m * hole_m * hole_m) / (6.0 * depth_m);
}

}  // namespace

double Section::area_m2() const {
  if (outline) return outline->area_m2;
  const Rectangle left = rectangle_left(*this);
  return (left.width_m - width_hole_m) * (left.depth_m - depth_hole_m);
}

double Section::section_modulus_m3() const {
  if (outline) return outline->section_modulus_m3;
  const Rectangle left = rectangle_left(*this);
  return modulus_beside_hole(left.width_m - width_hole_m, left.depth_m, depth_hole_m);
}

double Section::weak_modulus_m3() const {
  if (outline) return outline->weak_modulus_m3;
  const Rectangle left = rectangle_left(*this);
  return modulus_beside_hole(left.depth_m - depth_hole_m, left.width_m, width_hole_m);
}

double Section::shear_area_m2() const {
  return outline ? outline->shear_area_m2 : area_m2();
}

double Section::second_moment_m4() const {
  return outline ? outline->second_moment_m4 : width_m * depth_m * depth_m * depth_m / 12.0;
}

double Section::weak_second_moment_m4() const {
  return outline ? outline->weak_second_moment_m4 : depth_m * width_m * width_m * width_m / 12.0;
}

double Section::radius_m() const {
  return outline ? std::sqrt(outline->second_moment_m4 / outline->area_m2) : depth_m / std::sqrt(12.0);
}

double Section::weak_radius_m() const {
  return outline ? std::sqrt(outline->weak_second_moment_m4 / outline->area_m2) : width_m / std::sqrt(12.0);
}

double notched_shear_factor(double depth_m, double left_depth_m, double notch_length_m, double notch_factor) {
  const double depth_mm = 1000.0 * depth_m;
  const double alpha = left_depth_m / depth_m;
  const double crack =
      std::sqrt(alpha * (1.0 - alpha)) + 0.8 * notch_length_m / depth_m * std::sqrt(1.0 / alpha - alpha * alpha);
  return std::min(1.0, notch_factor / (std::sqrt(depth_mm) * crack));
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
  result.stress_pa = 1.5 * forces.shear_n / (resistance.crack_factor * section.shear_area_m2());
  result.strength_pa = resistance.shear_design_pa();
  result.utilisation = result.stress_pa / result.strength_pa;
  if (section.end_depth_m == 0.0) return result;
  ShearVerification end;
  end.notched_end =
      notched_shear_factor(section.depth_m, section.end_depth_m, section.end_notch_m, resistance.notch_factor);
  end.stress_pa = 1.5 * forces.shear_n / (resistance.crack_factor * section.width_m * section.end_depth_m);
  end.strength_pa = end.notched_end * resistance.shear_design_pa();
  end.utilisation = end.stress_pa / end.strength_pa;
  return end.utilisation > result.utilisation ? end : result;
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
      result.weak_axis_sum = compression / result.buckling_factor_z + redistribution(section) * bending;
    }
  }
  if (!restraint.compression_edge_held) {
    result.lateral_sum = squared(bending / result.lateral_factor) + compression / result.buckling_factor_z;
  }
  result.utilisation = std::max({result.section_sum, result.strong_axis_sum, result.weak_axis_sum, result.lateral_sum});
  return result;
}

}  // namespace panel_dossier::structural
