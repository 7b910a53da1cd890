#include "plugins/structural/fixings/frame_forces.h"

#include <algorithm>

namespace panel_dossier::structural {

double wind_width_m(const FrameActions& actions) {
  double studs = 1.0;
  for (int i = 1; actions.stud_spacing_m > 0.0 && i * actions.stud_spacing_m < actions.bracket_spacing_m; ++i) {
    studs += 2.0 * (1.0 - i * actions.stud_spacing_m / actions.bracket_spacing_m);
  }
  return std::max({actions.width_m / actions.brackets_in_row, actions.bracket_spacing_m, studs * actions.stud_width_m});
}

BracketForces bracket_forces(const FrameActions& actions, double gamma_g, double gamma_q) {
  BracketForces forces;
  const double n = actions.brackets_in_row;
  const double wind = actions.wind_pa * actions.wind_height_m;
  const double leading = std::max(wind + actions.barrier_psi0 * actions.barrier_n_per_m,
                                  actions.wind_psi0 * wind + actions.barrier_n_per_m);
  forces.across_n = gamma_q * leading * wind_width_m(actions);
  forces.barrier_n = gamma_q * actions.barrier_n_per_m * wind_width_m(actions);
  if (actions.weight_n > 0.0) {
    forces.couple_n = gamma_g * actions.weight_n * actions.eccentricity_m / (actions.rows_apart_m * n);
    forces.shear_n = gamma_g * actions.weight_n / n;
  }
  return forces;
}

}  // namespace panel_dossier::structural
