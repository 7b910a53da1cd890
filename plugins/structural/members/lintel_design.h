// The members round the openings of a panel and what they carry: lintels vertical load and trimmers wind.
#pragma once

#include <string>
#include <vector>

#include "plugins/structural/members/cross_member.h"

namespace panel_dossier::structural {

/// One member at one opening under one combination.
struct LintelCase {
  std::size_t opening = 0;  ///< index into Panel::openings
  CrossMember member;
  double span_m = 0.0;
  double vertical_share = 0.0;  ///< of the load above the opening; lintels side by side share it
  double wind_share = 0.0;      ///< of the wind on the strip at this side of the opening
  double wind_strip_m = 0.0;    ///< height of that strip
  Combination combination;      ///< vertical in N/m as `axial_n`, wind in N/m as `line_load_n_per_m`; before the shares
  Sourced<double> modification_factor;
  LateralBuckling lateral;
  CrossForces forces;
  CrossVerification verification;
  double creeping_n_per_m = 0.0;       ///< vertical load above the opening, characteristic and kdef of what lasts
  double vertical_deflection_m = 0.0;  ///< final, characteristic loads and creep
  double wind_deflection_m = 0.0;      ///< instantaneous: ψ2 of wind is 0

  double utilisation() const;  ///< of bending and shear
};

struct LintelDesign {
  std::vector<LintelCase> cases;
  std::vector<std::string> missing;  ///< not empty: the cases are not complete
};

/// Precondition: `design.missing` is empty. Vertical load: that of the head and the weight of the panel above the
/// opening. Its top edge is held by a member or by sheets of a wood-based panel over its whole length. Wind: half of
/// the opening and half of what lies between it and the next support.
LintelDesign design_lintels(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                            const StudDesign& design);

/// The members at or below the height at which persons lean on a barrier, which no member here is checked for; empty
/// where the panel is no barrier.
std::vector<std::string> barrier_members(const Panel& panel, const LintelDesign& lintels, const DesignBasis& basis);

/// Weight of the panel over an opening in N/m.
double weight_above_n_per_m(const Panel& panel, const Opening& opening, const DesignBasis& basis);

}  // namespace panel_dossier::structural
