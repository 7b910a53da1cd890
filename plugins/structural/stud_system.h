// How a stud or post is held up the panel, and what a load across it does to it.
#pragma once

#include <optional>
#include <vector>

#include "plugins/structural/beam_solver.h"
#include "plugins/structural/design_basis.h"
#include "plugins/structural/framing.h"

namespace panel_dossier::structural {

/// A member as a beam. Distances in m from its lower end.
struct StudSystem {
  double foot_m = 0.0;             ///< height of the lower end above the foot of the panel
  double length_m = 0.0;           ///< with the part above the highest support
  std::vector<double> supports_m;  ///< ascending, the first at 0
  bool clamped_foot = false;       ///< stands wholly above the highest support
  bool spliced = false;            ///< of several pieces: no moment passes a splice for certain
  std::vector<double> splices_m;

  double longest_span_m() const;  ///< the length of a clamped member
  double projection_m() const { return length_m - supports_m.back(); }
  bool single_span() const { return supports_m.size() == 2 && projection_m() == 0.0; }
};

/// Without a spacing of supports and with its head held a member spans its own length. Else its supports are those of
/// the panel, and an end within 0.1 m of one (the depth of a rail) stands on it; an end elsewhere is held by what it
/// meets there, a trimmer or a lintel.
StudSystem stud_system(const VerticalMember& member, const DesignBasis& basis);

/// What 1 N/m across a member does: the worst of load on all of it and load between its supports only, and for a
/// member of several pieces also of simple spans.
struct UnitEffects {
  double moment_m2 = 0.0;  ///< largest, per N/m
  double shear_m = 0.0;    ///< largest, per N/m
  double splice_moment_m2 = 0.0;
  BeamResult loaded;  ///< under load on all of it
};
UnitEffects unit_effects(const StudSystem& system);

/// Largest deflection between two supports and the deflection of the top, in m.
struct SpanDeflection {
  double span_m = 0.0;  ///< the span whose deflection is the largest share of it; 0 for a clamped member
  double bending_m = 0.0;
  double shear_m = 0.0;
  double tip_m = 0.0;  ///< under load above the highest support alone, which nothing below relieves

  double total_m() const { return bending_m + shear_m; }
};
SpanDeflection span_deflection(const StudSystem& system, double line_load_n_per_m, double bending_stiffness_nm2,
                               double shear_stiffness_n);

}  // namespace panel_dossier::structural
