// A horizontal member of the frame, bent up and down and across the wall: lintels, trimmers and rails.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// A part lying along the wall.
struct CrossMember {
  std::size_t part = 0;   ///< index into Panel::parts
  double length_m = 0.0;  ///< along the wall
  double height_m = 0.0;  ///< upright
  double depth_m = 0.0;   ///< through the wall
  Section section;        ///< its b upright, its h through the wall
  MemberMaterial material;

  double shear_area_m2() const { return section.shear_area_m2(); }
  double upright_modulus_m3() const { return section.weak_modulus_m3(); }    ///< for vertical loads
  double across_modulus_m3() const { return section.section_modulus_m3(); }  ///< for wind
  double upright_second_moment_m4() const { return section.weak_second_moment_m4(); }
  double across_second_moment_m4() const { return section.second_moment_m4(); }
};

/// None, with the reason added to `missing`, when solid, size or material cannot be used. An end notch counts as one
/// between the ends, and what stays in doubt of a section is missing.
std::optional<CrossMember> cross_member(const Panel& panel, std::size_t part, const Project& project,
                                        const Settings& settings, const Tables& tables, const std::string& annex,
                                        std::vector<std::string>& missing);

/// Design moments and shear forces for vertical load and for wind; >= 0.
struct CrossForces {
  double vertical_moment_nm = 0.0;
  double wind_moment_nm = 0.0;
  double vertical_shear_n = 0.0;
  double wind_shear_n = 0.0;
};

struct CrossVerification {
  double vertical_strength_pa = 0.0;  ///< kcrit·fm,d with kh of the upright height, (6.33)
  double wind_strength_pa = 0.0;      ///< fm,d with kh of the depth
  double shear_strength_pa = 0.0;     ///< fv,d
  double vertical_stress_pa = 0.0;
  double wind_stress_pa = 0.0;
  double shear_stress_pa = 0.0;  ///< of both directions together, on kcr of the section
  double bending = 0.0;          ///< the larger of (6.11) and (6.12), km = 0.7
  double shear = 0.0;            ///< (6.13)
};

/// Lateral torsional buckling under vertical load, 6.3.3.
struct LateralBuckling {
  bool held = false;                  ///< the top edge is held over the whole span: kcrit = 1 and no more is known
  double effective_length_m = 0.0;    ///< 0.9·l + 2·h, table 6.1: uniform load on the compression edge
  double critical_stress_pa = 0.0;    ///< σm,crit (6.32)
  double relative_slenderness = 0.0;  ///< λrel,m (6.30)
  double factor = 1.0;                ///< kcrit (6.34)
};

LateralBuckling lateral_buckling(const CrossMember& member, double span_m, bool top_held);

/// Name, section and material of a member with its bending and shear strength, kmod and γM, as inputs. `what` says
/// which member it is.
void add_cross_member(FindingBuilder& builder, const Panel& panel, const char* what, const CrossMember& member,
                      const Sourced<double>& modification_factor);

/// EN 1995-1-1:2004+A1:2008 6.1.6 and 6.1.7, with kcrit of 6.3.3 on the strength for vertical load.
CrossVerification verify_cross_member(const CrossMember& member, double modification_factor, double crack_factor,
                                      const CrossForces& forces, double lateral_factor = 1.0);

/// Stresses, strengths and what they make together, as steps, after M_y,d, M_z,d, V_y and V_z. `lateral`: k_crit stands
/// among the steps.
void add_cross_verification(FindingBuilder& builder, const CrossMember& member, const CrossVerification& verification,
                            bool lateral);

}  // namespace panel_dossier::structural
