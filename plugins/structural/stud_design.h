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
#include "plugins/structural/stud_system.h"

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
  SpanDeflection span;
};

struct StudDesign {
  DesignBasis basis;
  Framing framing;
  std::vector<MemberMaterial> materials;  ///< one entry a member
  std::vector<StudSystem> systems;        ///< one entry a member
  std::vector<UnitEffects> effects;       ///< one entry a member
  std::vector<StudCase> cases;            ///< members in order, combinations in order
  std::vector<StudDeflection> deflections;
  std::vector<std::string> missing;  ///< not empty: `cases` and `deflections` are empty

  Section section(std::size_t member) const;
  /// A projecting part buckles over twice its length.
  Restraint restraint(std::size_t member) const;
  double bending_stiffness_nm2(std::size_t member) const;  ///< E0,mean·I
  double shear_stiffness_n(std::size_t member) const;      ///< Gmean·A/1.2
  /// Deflection over span, 0 for a member wholly above the highest support.
  double span_ratio(const StudDeflection& deflection) const;
  /// Tip deflection over twice the projecting length (EN 1995-1-1 table 7.2 allows a cantilever twice the share of its
  /// length); 0 where none projects.
  double tip_ratio(const StudDeflection& deflection) const;
};

/// What acts on a member over the width of wall it carries, characteristic.
Actions actions_on(const VerticalMember& member, const DesignBasis& basis);

/// `wind` is the panel's finding structural.wind_pressure. Bad or missing data go to StudDesign::missing.
StudDesign design_studs(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                        const Finding& wind);

}  // namespace panel_dossier::structural
