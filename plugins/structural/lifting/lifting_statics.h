// Forces in the lifting points of a rigid panel that hangs from a row of them. Mechanics, no standard.
#pragma once

#include <vector>

namespace panel_dossier::structural {

/// Greatest force in each of at least two points of a row at `x_m` (ascending, apart) under `weight_n` at `centre_x_m`.
/// Unless the load is equalised between the points, any two that hold the panel in balance may carry all of it: more
/// than two are not determined by statics. Equalised: the forces follow a straight line, R_i = W/n + W·e·(x_i − x̄)/Σ(x
/// − x̄)². Empty when no two points hold the centre of gravity between them.
std::vector<double> lifting_reactions_n(const std::vector<double>& x_m, double centre_x_m, double weight_n,
                                        bool equalised);

/// Pull in a sling at `angle_rad` from the vertical: R / cos β. 0 <= β < 60°.
double leg_force_n(double reaction_n, double angle_rad);

/// Largest moment in Nm of a member that is turned up from lying flat: on its foot at 0, held at `held_m`, its head
/// free at `length_m` >= `held_m` > `length_m` / 2, under its own weight along it: w·(l² − a²)²/(8·l²) with l = held
/// length and a = length − l beyond it, at least w·a²/2.
double turning_moment_nm(double line_load_n_per_m, double held_m, double length_m);

}  // namespace panel_dossier::structural
