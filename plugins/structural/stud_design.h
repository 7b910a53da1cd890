// Every stud and post of a panel under every combination of actions.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/structural/combinations.h"
#include "plugins/structural/design_basis.h"
#include "plugins/structural/framing.h"
#include "plugins/structural/member_resistance.h"

namespace panel_dossier::structural {

/// One member under one combination.
struct StudCase {
  std::size_t member = 0;  ///< index into StudDesign::framing.members
  Combination combination;
  Sourced<double> modification_factor;  ///< kmod
  Resistance resistance;
  Forces forces;
  BendingVerification bending;
  ShearVerification shear;
  StabilityVerification stability;
};

/// Deflection of one member under the characteristic wind, EN 1995-1-1 2.2.3 and 7.2.
struct StudDeflection {
  std::size_t member = 0;
  double line_load_n_per_m = 0.0;
  double bending_m = 0.0;  ///< 5·w·l⁴/(384·E·I)
  double shear_m = 0.0;    ///< 1.2·w·l²/(8·G·A)
  double tip_m = 0.0;      ///< of the part above the highest support; 0 where none projects

  double instantaneous_m() const { return bending_m + shear_m; }
};

struct StudDesign {
  DesignBasis basis;
  Framing framing;
  std::vector<MemberMaterial> materials;  ///< one entry a member
  std::vector<double> spans_m;            ///< one entry a member
  std::vector<double> projections_m;      ///< one entry a member: how far it stands above the highest support
  std::vector<StudCase> cases;            ///< members in order, combinations in order
  std::vector<StudDeflection> deflections;
  std::vector<std::string> missing;  ///< not empty: `cases` and `deflections` are empty

  Section section(std::size_t member) const;
  /// A projecting part buckles over twice its length.
  Restraint restraint(std::size_t member) const;
  double bending_stiffness_nm2(std::size_t member) const;  ///< E0,mean·I
  double shear_stiffness_n(std::size_t member) const;      ///< Gmean·A/1.2
  /// Larger of deflection over span and tip deflection over twice the projecting length (EN 1995-1-1 table 7.2 allows a
  /// cantilever twice the share of its length).
  double deflection_ratio(const StudDeflection& deflection) const;
};

/// `wind` is the panel's finding structural.wind_pressure. Bad or missing data go to StudDesign::missing.
StudDesign design_studs(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                        const Finding& wind);

}  // namespace panel_dossier::structural
