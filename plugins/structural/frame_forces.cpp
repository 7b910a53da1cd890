#include "plugins/structural/frame_forces.h"

namespace panel_dossier::structural {

BracketForces bracket_forces(const FrameActions& actions, double gamma_g, double gamma_q) {
  BracketForces forces;
  const double n = actions.brackets_in_row;
  forces.wind_n = gamma_q * actions.wind_pa * actions.wind_height_m * actions.width_m / n;
  if (actions.weight_n > 0.0) {
    forces.couple_n = gamma_g * actions.weight_n * actions.eccentricity_m / (actions.rows_apart_m * n);
    forces.shear_n = gamma_g * actions.weight_n / n;
  }
  return forces;
}

}  // namespace panel_dossier::structural
