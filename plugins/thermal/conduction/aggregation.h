// Coarsening of a conduction network: cells in close thermal contact are merged, at most four at a time.
#pragma once

#include <vector>

#include "plugins/thermal/conduction/matrix.h"

namespace panel_dossier::thermal::conduction {

struct Coarsening {
  std::vector<int> aggregate;  ///< of each fine unknown
  Matrix matrix;               ///< of the aggregates: Pᵀ A P with P constant in each aggregate
};

/// Double pairwise aggregation: each unknown is paired with the free neighbour that makes the best pair, and the pairs
/// are paired again. A pair is judged by how well a smoothing sweep damps what differs inside of it, measured on the
/// fine unknowns both times: two strips that each conduct well along themselves but poorly to each other stay apart
/// (Y. Notay, Aggregation-based algebraic multigrid for convection-diffusion equations, SIAM J. Sci. Comput. 34, 2012,
/// for the measure of a pair; from memory).
Coarsening coarsen(const Matrix& fine);

}  // namespace panel_dossier::thermal::conduction
