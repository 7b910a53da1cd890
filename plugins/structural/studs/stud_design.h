// Every stud and post of a panel under every combination of actions, and what they press on rails and brackets.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/basis/combinations.h"
#include "plugins/structural/basis/design_basis.h"
#include "plugins/structural/basis/framing.h"
#include "plugins/structural/basis/member_resistance.h"
#include "plugins/structural/basis/timber.h"
#include "plugins/structural/studs/composite_stud.h"
#include "plugins/structural/studs/stud_system.h"

namespace panel_dossier::structural {

/// One member under one combination.
struct StudCase {
  std::size_t member = 0;  ///< index into StudDesign::framing.members
  Combination combination;
  Sourced<double> modification_factor;  ///< kmod
  Resistance resistance;
  double racking_n = 0.0;  ///< part of the axial force that the bracing action presses into the stud
  Forces forces;
  std::optional<CompositeCheck> composite;  ///< where sheets work with the stud and a load acts across it
  BendingVerification bending;              ///< with sheets: σm,2 + σ2·fm,d/ft,0,d against fm,d
  ShearVerification shear;
  StabilityVerification stability;
};

/// Deflection of one member under the characteristic wind, EN 1995-1-1 2.2.3 and 7.2.
struct StudDeflection {
  std::size_t member = 0;
  ServiceabilityCombination combination;  ///< the characteristic one that governs the member
  ServiceabilityCombination quasi_permanent;
  SpanDeflection span;     ///< instantaneous
  SpanDeflection lasting;  ///< under the quasi-permanent combination
};

struct StudDesign {
  DesignBasis basis;
  Framing framing;
  std::vector<MemberMaterial> materials;  ///< one entry a member
  std::vector<StudSystem> systems;        ///< one entry a member
  std::vector<StudEffects> unit_effects;  ///< one entry a member, of 1 N/m across it
  std::vector<StudCase> cases;            ///< members in order, combinations in order
  std::vector<StudDeflection> deflections;
  CompositeDesign composite;
  std::vector<std::string> racking_missing;  ///< why the compression from racking is not known
  std::vector<std::string> missing;          ///< not empty: `cases` and `deflections` are empty

  /// What persons leaning with `barrier_n` do, with its place above the member's lower end; empty for 0.
  std::vector<PointLoad> barrier(std::size_t member, double barrier_n) const;
  Section section(std::size_t member) const;
  /// Why the verifications of studs may not pass though they are kept; see VerticalMember::doubts.
  std::vector<std::string> doubts() const;
  /// A projecting part buckles over twice its length.
  Restraint restraint(std::size_t member) const;
  double bending_stiffness_nm2(std::size_t member) const;  ///< E0,mean·I, or (EI)ef with Kser
  double shear_stiffness_n(std::size_t member) const;      ///< Gmean·A/1.2, of another outline Gmean·Av/1.5
  /// kdef, or with sheets CompositeStud::creep_factor.
  double creep_factor(std::size_t member) const;
  /// u_fin = u_inst + k_def · u of the quasi-permanent combination, EN 1995-1-1 2.2.3(5) and (3).
  double final_m(const StudDeflection& deflection) const;
  /// Deflection over span, 0 for a member wholly above the highest support.
  double span_ratio(const StudDeflection& deflection) const;
  /// Tip deflection over twice the projecting length (EN 1995-1-1 table 7.2 allows a cantilever twice the share of its
  /// length); 0 where none projects.
  double tip_ratio(const StudDeflection& deflection) const;
};

/// What acts on a member over the width of wall it carries, characteristic.
Actions actions_on(const VerticalMember& member, const DesignBasis& basis);

/// `wind` is that of the panel. Bad or missing data go to StudDesign::missing.
StudDesign design_studs(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                        const PartsPressure& wind);

/// The stud that presses hardest on the rails, per pascal of wind, and what persons leaning on it add.
struct StudReaction {
  std::size_t member = 0;
  double per_line_load_m = 0.0;  ///< largest reaction of 1 N/m across the stud
  double width_m = 0.0;          ///< of wall that it carries
  double spacing_m = 0.0;        ///< to its nearer neighbour; 0 without one
  double barrier_share = 0.0;    ///< largest reaction of 1 N at the height of the barrier; 0 where the panel is none
};

/// `design` has nothing missing.
StudReaction hardest_stud(const StudDesign& design);

}  // namespace panel_dossier::structural
