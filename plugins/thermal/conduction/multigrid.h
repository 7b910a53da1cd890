// Conjugate gradients for conduction networks, and their preconditioner: algebraic multigrid with K-cycles.
#pragma once

#include <cstddef>
#include <memory>

#include "plugins/thermal/conduction/matrix.h"

namespace panel_dossier::thermal::conduction {

/// Solves A x = b roughly, at a cost that grows with the number of unknowns alone, however strong the contrasts of λ
/// and however flat the cells: coarsening follows the strongest couplings. One sweep of Gauss-Seidel forwards before
/// and one backwards after each coarse correction; the coarse problem gets up to two steps of conjugate gradients on
/// its own level (the K-cycle: Y. Notay, ETNA 37, 2010, algorithm 3.2).
/// Not thread-safe: it keeps its work vectors.
class Multigrid {
 public:
  /// `finest` must outlive this object and be symmetric positive definite; throws std::runtime_error when it proves
  /// not to be.
  explicit Multigrid(const Matrix& finest);
  ~Multigrid();
  Multigrid(const Multigrid&) = delete;
  Multigrid& operator=(const Multigrid&) = delete;

  /// x becomes roughly A⁻¹ b.
  void apply(const Vector& b, Vector& x);

 private:
  struct Level;
  struct Coarsest;
  std::vector<std::unique_ptr<Level>> levels_;
  std::unique_ptr<Coarsest> coarsest_;

  void cycle(std::size_t level, const Vector& b, Vector& x);
  void correct(std::size_t level);
};

struct Convergence {
  int iterations = 0;
  double relative_residual = 0.0;  ///< |b − A x| / |b|, computed afresh from x at the end
};

/// Solves A x = b from the start value x until the relative residual is at most `tolerance`, by conjugate gradients in
/// the flexible form that a K-cycle needs. Throws std::runtime_error when that takes more than 500 iterations.
Convergence solve(const Matrix& a, Multigrid& multigrid, const Vector& b, double tolerance, Vector& x);

}  // namespace panel_dossier::thermal::conduction
