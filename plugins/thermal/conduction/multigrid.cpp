#include "plugins/thermal/conduction/multigrid.h"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>
#include <vector>

namespace panel_dossier::thermal::conduction {

namespace {

struct Coarsening {
  std::vector<int> aggregate;  ///< of each fine unknown
  Matrix matrix;               ///< of the aggregates: Pᵀ A P with P constant in each aggregate
};

/// Worst quality of a pair that is merged: the bound on the condition number of the two-grid method (Notay 2012, κ =
/// 8).
constexpr double kWorstQuality = 8.0;

struct Pairing {
  std::vector<int> aggregate;
  int count = 0;
};

/// What each row has beyond its couplings: its conductance to the environments.
Vector row_sums(const Matrix& a) {
  Vector sums(a.diagonal);
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (int k = a.start[i]; k < a.start[i + 1]; ++k) sums[i] += a.value[static_cast<std::size_t>(k)];
    sums[i] = std::max(sums[i], 0.0);
  }
  return sums;
}

/// Two resistors one after the other, by their conductances.
double in_series(double a, double b) {
  return a > 0.0 && b > 0.0 ? a * b / (a + b) : 0.0;
}

/// Pairs up the rows of one matrix.
class PairFinder {
 public:
  /// `smoothed` is the diagonal that the smoother divides by, summed over the fine rows behind each row of `a`.
  PairFinder(const Matrix& a, const Vector& smoothed) : a_(a), smoothed_(smoothed), row_sums_(row_sums(a)) {}

  Pairing pair_up() const {
    Pairing pairing{std::vector<int>(a_.size(), -1), 0};
    for (std::size_t i = 0; i < a_.size(); ++i) {
      if (pairing.aggregate[i] >= 0) continue;
      const int partner = best_free(pairing.aggregate, i);
      pairing.aggregate[i] = pairing.count;
      if (partner >= 0) pairing.aggregate[static_cast<std::size_t>(partner)] = pairing.count;
      ++pairing.count;
    }
    return pairing;
  }

 private:
  const Matrix& a_;
  const Vector& smoothed_;
  Vector row_sums_;

  /// The free neighbour that makes the best pair with `i`, or −1 when none is good enough.
  int best_free(const std::vector<int>& aggregate, std::size_t i) const {
    double best = kWorstQuality;
    int found = -1;
    for (int k = a_.start[i]; k < a_.start[i + 1]; ++k) {
      const auto entry = static_cast<std::size_t>(k);
      const auto j = static_cast<std::size_t>(a_.column[entry]);
      if (aggregate[j] >= 0) continue;
      const double coupling = -a_.value[entry] + in_series(row_sums_[i], row_sums_[j]);
      const double quality = 2.0 * in_series(smoothed_[i], smoothed_[j]) / coupling;
      if (quality >= best) continue;
      best = quality;
      found = a_.column[entry];
    }
    return found;
  }
};

/// The members of each aggregate, one after the other.
struct Members {
  std::vector<int> start;
  std::vector<int> member;

  explicit Members(const Pairing& pairing)
      : start(static_cast<std::size_t>(pairing.count) + 1, 0), member(pairing.aggregate.size()) {
    for (const int aggregate : pairing.aggregate) ++start[static_cast<std::size_t>(aggregate) + 1];
    for (std::size_t i = 1; i < start.size(); ++i) start[i] += start[i - 1];
    std::vector<int> next(start.begin(), start.end() - 1);
    for (std::size_t i = 0; i < member.size(); ++i) {
      member[static_cast<std::size_t>(next[static_cast<std::size_t>(pairing.aggregate[i])]++)] = static_cast<int>(i);
    }
  }
};

/// Sums the rows of an aggregate's members, column by column.
class RowSum {
 public:
  explicit RowSum(std::size_t size) : place_(size, -1) {}

  void add(int column, double value) {
    int& place = place_[static_cast<std::size_t>(column)];
    if (place < 0) {
      place = static_cast<int>(entries_.size());
      entries_.emplace_back(column, value);
    } else {
      entries_[static_cast<std::size_t>(place)].second += value;
    }
  }

  /// Appends the row to `matrix` and clears the sum for the next row.
  void finish(int row, double diagonal, Matrix& matrix) {
    for (const auto& [column, value] : entries_) {
      if (column < row) append(column, value, matrix);
    }
    matrix.middle.push_back(static_cast<int>(matrix.value.size()));
    for (const auto& [column, value] : entries_) {
      if (column > row) append(column, value, matrix);
      place_[static_cast<std::size_t>(column)] = -1;
    }
    matrix.start.push_back(static_cast<int>(matrix.value.size()));
    matrix.diagonal.push_back(diagonal);
    entries_.clear();
  }

 private:
  std::vector<int> place_;
  std::vector<std::pair<int, double>> entries_;

  static void append(int column, double value, Matrix& matrix) {
    matrix.column.push_back(column);
    matrix.value.push_back(value);
  }
};

Matrix merge(const Matrix& fine, const Pairing& pairing) {
  const Members members(pairing);
  const auto count = static_cast<std::size_t>(pairing.count);
  Matrix coarse;
  coarse.start.reserve(count + 1);
  coarse.middle.reserve(count);
  coarse.diagonal.reserve(count);
  coarse.column.reserve(fine.column.size());
  coarse.value.reserve(fine.column.size());
  RowSum row(count);
  for (int aggregate = 0; aggregate < pairing.count; ++aggregate) {
    double diagonal = 0.0;
    const auto at = static_cast<std::size_t>(aggregate);
    for (int m = members.start[at]; m < members.start[at + 1]; ++m) {
      const auto i = static_cast<std::size_t>(members.member[static_cast<std::size_t>(m)]);
      diagonal += fine.diagonal[i];
      for (int k = fine.start[i]; k < fine.start[i + 1]; ++k) {
        const auto entry = static_cast<std::size_t>(k);
        const int column = pairing.aggregate[static_cast<std::size_t>(fine.column[entry])];
        if (column == aggregate) {
          diagonal += fine.value[entry];
        } else {
          row.add(column, fine.value[entry]);
        }
      }
    }
    row.finish(aggregate, diagonal, coarse);
  }
  return coarse;
}

/// Double pairwise aggregation: each unknown is paired with the free neighbour that makes the best pair, and the pairs
/// are paired again. A pair is judged by how well a smoothing sweep damps what differs inside of it, measured on the
/// fine unknowns both times: two strips that each conduct well along themselves but poorly to each other stay apart
/// (Y. Notay, Aggregation-based algebraic multigrid for convection-diffusion equations, SIAM J. Sci. Comput. 34, 2012,
/// for the measure of a pair; from memory).
Coarsening coarsen(const Matrix& fine) {
  Pairing first = PairFinder(fine, fine.diagonal).pair_up();
  const Matrix pairs = merge(fine, first);
  Vector smoothed(pairs.size(), 0.0);
  for (std::size_t i = 0; i < fine.size(); ++i) {
    smoothed[static_cast<std::size_t>(first.aggregate[i])] += fine.diagonal[i];
  }
  const Pairing second = PairFinder(pairs, smoothed).pair_up();
  for (int& aggregate : first.aggregate) aggregate = second.aggregate[static_cast<std::size_t>(aggregate)];
  return {std::move(first.aggregate), merge(pairs, second)};
}

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

namespace {

constexpr int kMostIterations = 500;

/// r = b − A x; gives r · r.
double residual(const Matrix& a, const Vector& b, const Vector& x, Vector& r) {
  multiply(a, x, r);
  for (std::size_t i = 0; i < r.size(); ++i) r[i] = b[i] - r[i];
  return dot(r, r);
}

/// x = x + s d, r = r − s A d, all in one pass; gives r · r.
double advance(double s, const Vector& direction, const Vector& image, Vector& x, Vector& r) {
  double sum = 0.0;
  for (std::size_t i = 0; i < r.size(); ++i) {
    x[i] += s * direction[i];
    r[i] -= s * image[i];
    sum += r[i] * r[i];
  }
  return sum;
}

}  // namespace

Convergence solve(const Matrix& a, Multigrid& multigrid, const Vector& b, double tolerance, Vector& x) {
  x.resize(b.size());
  const double b_norm = std::sqrt(dot(b, b));
  if (b_norm == 0.0) {
    x.assign(x.size(), 0.0);
    return {};
  }
  Vector r, z, direction(b.size(), 0.0), image(b.size(), 0.0);
  double r_squared = residual(a, b, x, r);
  double direction_energy = 1.0;
  for (int iteration = 0; iteration < kMostIterations; ++iteration) {
    if (std::sqrt(r_squared) <= tolerance * b_norm) {
      r_squared = residual(a, b, x, r);
      const double relative = std::sqrt(r_squared) / b_norm;
      if (relative <= tolerance) return {iteration, relative};
    }
    multigrid.apply(r, z);
    const double overlap = dot(z, image) / direction_energy;
    for (std::size_t i = 0; i < z.size(); ++i) direction[i] = z[i] - overlap * direction[i];
    direction_energy = multiply(a, direction, image);
    r_squared = advance(dot(direction, r) / direction_energy, direction, image, x, r);
  }
  throw std::runtime_error("the conduction network was not solved within 500 iterations");
}

}  // namespace panel_dossier::thermal::conduction
