#include "plugins/structural/members/cross_member.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::structural {

std::optional<CrossMember> cross_member(const Panel& panel, std::size_t part, const Project& project,
                                        const Settings& settings, const Tables& tables, const std::string& annex,
                                        std::vector<std::string>& missing) {
  const Part& found = panel.parts[part];
  if (!found.bounds) {
    missing.push_back("'" + found.name + "' has no geometry");
    return std::nullopt;
  }
  const Vec3 size = found.bounds->size();
  if (!(size.x > 0.0) || !(size.y > 0.0) || !(size.z > 0.0)) {
    missing.push_back("'" + found.name + "' has a zero or negative size");
    return std::nullopt;
  }
  const auto material =
      member_material(material_at(project, found.material), found.name, settings, tables, annex, missing);
  if (!material) return std::nullopt;
  return CrossMember{part, size.x, size.z, size.y, *material};
}

LateralBuckling lateral_buckling(const CrossMember& member, double span_m, bool top_held) {
  LateralBuckling result;
  result.held = top_held;
  if (top_held) return result;
  const TimberClass& timber = member.material.timber;
  result.effective_length_m = 0.9 * span_m + 2.0 * member.height_m;
  result.critical_stress_pa = 0.78 * member.depth_m * member.depth_m * timber.modulus_fifth_pa.value /
                              (member.height_m * result.effective_length_m);
  result.relative_slenderness = std::sqrt(timber.bending_pa.value / result.critical_stress_pa);
  result.factor = lateral_buckling_factor(result.relative_slenderness);
  return result;
}

CrossVerification verify_cross_member(const CrossMember& member, double modification_factor, double crack_factor,
                                      const CrossForces& forces, double lateral_factor) {
  const TimberClass& timber = member.material.timber;
  const double factor = modification_factor / member.material.partial_factor.value;
  CrossVerification result;
  result.vertical_strength_pa =
      lateral_factor * depth_factor(timber.family, member.height_m) * factor * timber.bending_pa.value;
  result.wind_strength_pa = depth_factor(timber.family, member.depth_m) * factor * timber.bending_pa.value;
  result.shear_strength_pa = factor * timber.shear_pa.value;
  result.vertical_stress_pa = forces.vertical_moment_nm / member.upright_modulus_m3();
  result.wind_stress_pa = forces.wind_moment_nm / member.across_modulus_m3();
  const double vertical = result.vertical_stress_pa / result.vertical_strength_pa;
  const double wind = result.wind_stress_pa / result.wind_strength_pa;
  constexpr double kRedistribution = 0.7;  // km for rectangular sections, 6.1.6(2)
  result.bending = std::max(vertical + kRedistribution * wind, kRedistribution * vertical + wind);
  const double shear_n = std::hypot(forces.vertical_shear_n, forces.wind_shear_n);
  result.shear_stress_pa = 1.5 * shear_n / (crack_factor * member.area_m2());
  result.shear = result.shear_stress_pa / result.shear_strength_pa;
  return result;
}

}  // namespace panel_dossier::structural
