// How a stud or post is held up the panel, and what a load across it does to it.
#pragma once

#include <optional>
#include <vector>

#include "plugins/structural/basis/beam_solver.h"
#include "plugins/structural/basis/design_basis.h"
#include "plugins/structural/basis/framing.h"

namespace panel_dossier::structural {

/// A member as a beam. Distances in m from its lower end.
struct StudSystem {
  double foot_m = 0.0;             ///< height of the lower end above the foot of the panel
  double length_m = 0.0;           ///< with the part above the highest support
  std::vector<double> supports_m;  ///< ascending, the first at 0
  bool clamped_foot = false;       ///< stands wholly above the highest support
  bool spliced = false;            ///< of several pieces: no moment passes a splice for certain

  double longest_span_m() const;  ///< the length of a clamped member
  double projection_m() const { return length_m - supports_m.back(); }
  /// Whether a hinge at this height above the foot of the panel, where two pieces meet, lies at a support.
  bool held_at(double height_m) const;
  bool single_span() const { return supports_m.size() == 2 && projection_m() == 0.0; }
};

/// Whether a support of the panel, its foot included, holds what ends at this height above its foot.
bool panel_held_at(const DesignBasis& basis, double height_m);

/// Without a spacing of supports and with its head held a member spans its own length. Else its supports are those of
/// the panel, and an end within 0.1 m of one (the depth of a rail) stands on it; an end elsewhere is held by what it
/// meets there, a trimmer or a lintel.
StudSystem stud_system(const VerticalMember& member, const DesignBasis& basis);

/// What loads across a member do: the worst of the line load on all of it and between its supports only, and for a
/// member of several pieces also of simple spans.
struct StudEffects {
  double moment_nm = 0.0;  ///< largest
  double shear_n = 0.0;    ///< largest
  BeamResult loaded;       ///< with the line load on all of it
};
/// `point` holds places above the member's lower end; those beyond its ends are left out.
StudEffects stud_effects(const StudSystem& system, double line_load_n_per_m, const std::vector<PointLoad>& point);

/// Largest deflection between two supports and the deflection of the top, in m.
struct SpanDeflection {
  double span_m = 0.0;  ///< the span whose deflection is the largest share of it; 0 for a clamped member
  double bending_m = 0.0;
  double shear_m = 0.0;
  double tip_m = 0.0;  ///< under load above the highest support alone, which nothing below relieves

  double total_m() const { return bending_m + shear_m; }
};
/// `point` may be empty: the load of persons leaning, with its place above the member's lower end.
SpanDeflection span_deflection(const StudSystem& system, double line_load_n_per_m, const std::vector<PointLoad>& point,
                               double bending_stiffness_nm2, double shear_stiffness_n);

}  // namespace panel_dossier::structural
