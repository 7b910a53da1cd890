#include "plugins/structural/members/cross_member.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/support/units.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

std::optional<CrossMember> cross_member(const Panel& panel, std::size_t part, const Project& project,
                                        const Settings& settings, const Tables& tables, const std::string& annex,
                                        std::vector<std::string>& missing) {
  const Part& found = panel.parts[part];
  MemberSection read = read_section(found, MemberAxis::along_wall);
  if (!read.problem.empty()) {
    missing.push_back(std::move(read.problem));
    return std::nullopt;
  }
  for (std::string& doubt : read.doubts) missing.push_back(std::move(doubt));
  if (read.section.end_depth_m > 0.0) {
    missing.push_back("'" + found.name + "' has a notched end, which is not verified (EN 1995-1-1 6.5.2)");
  }
  const Vec3 size = found.bounds->size();
  const auto material =
      member_material(material_at(project, found.material), found.name, settings, tables, annex, missing);
  if (!material) return std::nullopt;
  return CrossMember{part, size.x, size.z, size.y, read.section, *material};
}

namespace {

/// kh, which is that of a rectangle.
double size_factor(const CrossMember& member, double size_m) {
  return member.section.outline ? 1.0 : depth_factor(member.material.timber.family, size_m);
}

/// W_y and W_z where the section is no full rectangle, with what they are made of.
void add_weakened_moduli(FindingBuilder& builder, const Section& section) {
  builder
      .step("section modulus for vertical load where the section is weakest", "W_y", section.weak_modulus_m3() * 1e9,
            "mm³")
      .step("section modulus for load across the wall where the section is weakest", "W_z",
            section.section_modulus_m3() * 1e9, "mm³")
      .step("shear area where the section is weakest", "A_v", section.shear_area_m2() * 1e6, "mm²");
}

}  // namespace

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
      lateral_factor * size_factor(member, member.height_m) * factor * timber.bending_pa.value;
  result.wind_strength_pa = size_factor(member, member.depth_m) * factor * timber.bending_pa.value;
  result.shear_strength_pa = factor * timber.shear_pa.value;
  result.vertical_stress_pa = forces.vertical_moment_nm / member.upright_modulus_m3();
  result.wind_stress_pa = forces.wind_moment_nm / member.across_modulus_m3();
  const double vertical = result.vertical_stress_pa / result.vertical_strength_pa;
  const double wind = result.wind_stress_pa / result.wind_strength_pa;
  const double redistribution = member.section.outline ? 1.0 : 0.7;  // km, 6.1.6(2)
  result.bending = std::max(vertical + redistribution * wind, redistribution * vertical + wind);
  const double shear_n = std::hypot(forces.vertical_shear_n, forces.wind_shear_n);
  result.shear_stress_pa = 1.5 * shear_n / (crack_factor * member.shear_area_m2());
  result.shear = result.shear_stress_pa / result.shear_strength_pa;
  return result;
}

void add_cross_member(FindingBuilder& builder, const Panel& panel, const char* what, const CrossMember& member,
                      const Sourced<double>& modification_factor) {
  const Part& part = panel.parts[member.part];
  const auto size = [&](const char* name, const char* symbol, double value_m) {
    builder.number(name, symbol, "mm", Sourced<double>{units::millimetres_from_metres(value_m), part.origin}, {});
  };
  builder.text(what, Sourced<std::string>{part.name, part.origin}, {});
  size("height of the section", "h", member.height_m);
  size("width of the section through the wall", "b", member.depth_m);
  add_inputs(builder, member.material.inputs);
  add_strength(builder, "bending strength", "f_m,k", member.material.timber.bending_pa);
  add_strength(builder, "shear strength", "f_v,k", member.material.timber.shear_pa);
  builder.number("modification factor", "k_mod", "", modification_factor, {});
  builder.number("partial factor of the material", "γ_M", "", member.material.partial_factor, {});
  if (const auto holes = part.properties.text("Panel_Member", "Holes")) builder.text("holes", holes, {});
}

void add_cross_verification(FindingBuilder& builder, const CrossMember& member, const CrossVerification& verification,
                            bool lateral) {
  const TimberFamily family = member.material.timber.family;
  const auto stress = [&](const char* name, const char* symbol, double value_pa, const char* formula) {
    builder.step(name, symbol, value_pa / units::kPascalPerNewtonPerMm2, "N/mm²", formula);
  };
  const bool whole = member.section.whole();
  const bool outline = member.section.outline.has_value();
  if (!whole) add_weakened_moduli(builder, member.section);
  stress("stress from vertical load", "σ_m,y,d", verification.vertical_stress_pa,
         whole ? "σ_m,y,d = 6 · M_y,d / (b · h²)" : "σ_m,y,d = M_y,d / W_y");
  stress("stress from load across the wall", "σ_m,z,d", verification.wind_stress_pa,
         whole ? "σ_m,z,d = 6 · M_z,d / (h · b²)" : "σ_m,z,d = M_z,d / W_z");
  builder
      .step("depth factor by the height, 3.2(3) or 3.3(3)", "k_h,h", size_factor(member, member.height_m), "",
            outline ? "k_h,h = 1" : depth_factor_formula("k_h,h", family, "h"))
      .step("depth factor by the width", "k_h,b", size_factor(member, member.depth_m), "",
            outline ? "k_h,b = 1" : depth_factor_formula("k_h,b", family, "b"));
  stress(lateral ? "strength for vertical load (6.33)" : "strength for vertical load", "f_m,y,d",
         verification.vertical_strength_pa,
         lateral ? "f_m,y,d = k_crit · k_h,h · k_mod · f_m,k / γ_M" : "f_m,y,d = k_h,h · k_mod · f_m,k / γ_M");
  stress("strength for load across the wall", "f_m,z,d", verification.wind_strength_pa,
         "f_m,z,d = k_h,b · k_mod · f_m,k / γ_M");
  builder.step(outline ? "bending, (6.11) and (6.12) with k_m = 1" : "bending, (6.11) and (6.12) with k_m = 0.7", "η_m",
               verification.bending, "",
               outline ? "η_m = σ_m,y,d / f_m,y,d + σ_m,z,d / f_m,z,d"
                       : "η_m = max(σ_m,y,d / f_m,y,d + 0.7 · σ_m,z,d / f_m,z,d; 0.7 · σ_m,y,d / f_m,y,d + σ_m,z,d / "
                         "f_m,z,d)");
  stress("shear stress, 6.1.7", "τ_d", verification.shear_stress_pa,
         whole ? "τ_d = 1.5 · √(V_y² + V_z²) / (k_cr · b · h)" : "τ_d = 1.5 · √(V_y² + V_z²) / (k_cr · A_v)");
  builder.step("shear, (6.13)", "η_v", verification.shear, "", "η_v = τ_d / (k_mod · f_v,k / γ_M)");
}

}  // namespace panel_dossier::structural
