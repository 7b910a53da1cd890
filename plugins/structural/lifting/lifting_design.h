// What hangs on the hook: mass, centre of gravity and lifting points of a panel, and the statics of a rigid body on
// them.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::structural {

struct LiftingPoint {
  const Part* part = nullptr;  ///< lives as long as the panel
  double x_m = 0.0;            ///< in the panel's frame
  double y_m = 0.0;
  double z_m = 0.0;                   ///< of its upper end
  double working_load_limit_n = 0.0;  ///< Panel_Fastener.WorkingLoadLimit
};

struct LiftingBasis {
  double mass_kg = 0.0;
  Vec3 centre;                       ///< of gravity, in the panel's frame
  double dynamic_factor = 0.0;       ///< ψ
  std::vector<LiftingPoint> points;  ///< by x

  double hoisted_n() const;  ///< ψ·m·g
};

/// Mass and centre from the parts, points from the fasteners that lift, ψ from setting
/// `structural.lifting.dynamic_factor`. What is missing is noted in `builder`, and the result is then of no use.
LiftingBasis read_lifting_basis(const Panel& panel, const Project& project, const Settings& settings,
                                FindingBuilder& builder);

/// What every finding on lifting says.
inline constexpr const char* kLiftingCaution =
    "For the competent person who plans the lift, and no replacement of a lift plan: slings, shackles, crane, ground, "
    "wind "
    "and the fitting of the points are theirs to judge. Nobody stands under a hanging panel. Make a trial lift.";

/// Greatest force in each of at least two points of a row at `x_m` (ascending, apart) under `weight_n` at `centre_x_m`.
/// Unless the load is equalised between the points, any two that hold the panel in balance may carry all of it: more
/// than two are not determined by statics. Equalised: the forces follow a straight line, R_i = W/n + W·e·(x_i − x̄)/Σ(x
/// − x̄)². Empty when no two points hold the centre of gravity between them.
std::vector<double> lifting_reactions_n(const std::vector<double>& x_m, double centre_x_m, double weight_n,
                                        bool equalised);

/// Pull in a sling at `angle_rad` from the vertical: R / cos β. 0 <= β <= 60°.
double leg_force_n(double reaction_n, double angle_rad);

/// Largest moment in Nm of a member that is turned up from lying flat: on its foot at 0, held at `held_m`, its head
/// free at `length_m` >= `held_m` > `length_m` / 2, under its own weight along it: w·(l² − a²)²/(8·l²) with l = held
/// length and a = length − l beyond it, at least w·a²/2.
double turning_moment_nm(double line_load_n_per_m, double held_m, double length_m);

}  // namespace panel_dossier::structural
