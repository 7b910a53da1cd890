// Conjugate gradients for conduction networks.
#pragma once

#include "plugins/thermal/conduction/matrix.h"
#include "plugins/thermal/conduction/multigrid.h"

namespace panel_dossier::thermal::conduction {

struct Convergence {
  int iterations = 0;
  double relative_residual = 0.0;  ///< |b − A x| / |b|, computed afresh from x at the end
};

/// Solves A x = b from the start value x until the relative residual is at most `tolerance`, by conjugate gradients in
/// the flexible form that a K-cycle needs. Throws std::runtime_error when that takes more than 500 iterations.
Convergence solve(const Matrix& a, Multigrid& multigrid, const Vector& b, double tolerance, Vector& x);

}  // namespace panel_dossier::thermal::conduction
