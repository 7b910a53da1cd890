#include "plugins/thermal/conduction/multigrid.h"

#include <Eigen/SparseCholesky>
#include <stdexcept>
#include <utility>

#include "plugins/thermal/conduction/aggregation.h"

namespace panel_dossier::thermal::conduction {

namespace {

/// Below this many unknowns a direct solution costs less than further levels.
constexpr std::size_t kDirectSize = 400;
/// A second step on a coarse level is spared when the first has brought the residual down to this share (Notay 2010).
constexpr double kGoodReduction = 0.25;

/// Σ a_ik x_k over a range of entries.
double product(const Matrix& a, int from, int to, const Vector& x) {
  const int* column = a.column.data();
  const double* value = a.value.data();
  double sum = 0.0;
  for (int k = from; k < to; ++k) sum += value[k] * x[static_cast<std::size_t>(column[k])];
  return sum;
}

/// (D + L) x = b.
void forward_from_zero(const Matrix& a, const Vector& inverse_diagonal, const Vector& b, Vector& x) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    x[i] = (b[i] - product(a, a.start[i], a.middle[i], x)) * inverse_diagonal[i];
  }
}

/// The residual b − A x after `forward_from_zero`, summed over each aggregate. The sweep leaves only the part right of
/// the diagonal.
void restrict_residual(const Matrix& a, const Vector& x, const std::vector<int>& aggregate, Vector& coarse) {
  coarse.assign(coarse.size(), 0.0);
  for (std::size_t i = 0; i < a.size(); ++i) {
    coarse[static_cast<std::size_t>(aggregate[i])] -= product(a, a.middle[i], a.start[i + 1], x);
  }
}

void backward(const Matrix& a, const Vector& inverse_diagonal, const Vector& b, Vector& x) {
  for (std::size_t i = a.size(); i-- > 0;) {
    x[i] = (b[i] - product(a, a.start[i], a.start[i + 1], x)) * inverse_diagonal[i];
  }
}

Eigen::SparseMatrix<double> lower_triangle(const Matrix& a) {
  const auto size = static_cast<Eigen::Index>(a.size());
  std::vector<Eigen::Triplet<double>> entries;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const int row = static_cast<int>(i);
    entries.emplace_back(row, row, a.diagonal[i]);
    for (int k = a.start[i]; k < a.middle[i]; ++k) {
      const auto at = static_cast<std::size_t>(k);
      entries.emplace_back(row, a.column[at], a.value[at]);
    }
  }
  Eigen::SparseMatrix<double> result(size, size);
  result.setFromTriplets(entries.begin(), entries.end());
  return result;
}

}  // namespace

/// One level, with the vectors of the next coarser one that a cycle needs.
struct Multigrid::Level {
  const Matrix* matrix = nullptr;
  Matrix own;  ///< empty on the finest level
  std::vector<int> aggregate;
  Vector inverse_diagonal;
  Vector coarse_b, coarse_x, step, step_image, second, second_image;

  void prepare(std::size_t coarse_size) {
    for (const double entry : matrix->diagonal) inverse_diagonal.push_back(1.0 / entry);
    for (Vector* v : {&coarse_b, &coarse_x, &step, &step_image, &second, &second_image}) v->resize(coarse_size);
  }
  void add_correction(Vector& x) const {
    for (std::size_t i = 0; i < x.size(); ++i) x[i] += coarse_x[static_cast<std::size_t>(aggregate[i])];
  }
};

struct Multigrid::Coarsest {
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factors;

  explicit Coarsest(const Matrix& a) : factors(lower_triangle(a)) {
    if (factors.info() != Eigen::Success || (factors.vectorD().array() <= 0.0).any()) {
      throw std::runtime_error("the conduction network is not positive definite");
    }
  }
  void solve(const Vector& b, Vector& x) const {
    const auto size = static_cast<Eigen::Index>(b.size());
    Eigen::Map<Eigen::VectorXd>(x.data(), size) = factors.solve(Eigen::Map<const Eigen::VectorXd>(b.data(), size));
  }
};

Multigrid::Multigrid(const Matrix& finest) {
  const Matrix* matrix = &finest;
  while (matrix->size() > kDirectSize) {
    Coarsening coarse = coarsen(*matrix);
    if (coarse.matrix.size() > matrix->size() * 9 / 10) break;
    auto level = std::make_unique<Level>();
    level->matrix = matrix;
    level->aggregate = std::move(coarse.aggregate);
    level->prepare(coarse.matrix.size());
    level->own = std::move(coarse.matrix);
    matrix = &level->own;
    levels_.push_back(std::move(level));
  }
  coarsest_ = std::make_unique<Coarsest>(*matrix);
}

Multigrid::~Multigrid() = default;

void Multigrid::apply(const Vector& b, Vector& x) {
  x.resize(b.size());
  cycle(0, b, x);
}

void Multigrid::cycle(std::size_t level, const Vector& b, Vector& x) {
  if (level == levels_.size()) return coarsest_->solve(b, x);
  Level& at = *levels_[level];
  forward_from_zero(*at.matrix, at.inverse_diagonal, b, x);
  restrict_residual(*at.matrix, x, at.aggregate, at.coarse_b);
  correct(level);
  at.add_correction(x);
  backward(*at.matrix, at.inverse_diagonal, b, x);
}

/// Solves the coarse problem of `level` by at most two steps of flexible conjugate gradients.
void Multigrid::correct(std::size_t level) {
  Level& at = *levels_[level];
  if (level + 1 == levels_.size()) return coarsest_->solve(at.coarse_b, at.coarse_x);
  const Matrix& coarse = at.own;
  Vector& r = at.coarse_b;
  cycle(level + 1, r, at.step);
  const double rho = multiply(coarse, at.step, at.step_image);
  const double alpha = dot(at.step, r);
  const double norm_squared = dot(r, r);
  at.coarse_x.assign(at.coarse_x.size(), 0.0);
  if (norm_squared == 0.0) return;
  add_scaled(alpha / rho, at.step, at.coarse_x);
  add_scaled(-alpha / rho, at.step_image, r);
  if (dot(r, r) <= kGoodReduction * kGoodReduction * norm_squared) return;
  cycle(level + 1, r, at.second);
  const double beta = multiply(coarse, at.second, at.second_image);
  const double gamma = dot(at.second, at.step_image);
  const double alpha_2 = dot(at.second, r);
  const double rho_2 = beta - gamma * gamma / rho;
  add_scaled(-gamma * alpha_2 / (rho * rho_2), at.step, at.coarse_x);
  add_scaled(alpha_2 / rho_2, at.second, at.coarse_x);
}

}  // namespace panel_dossier::thermal::conduction
