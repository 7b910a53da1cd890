#include "plugins/thermal/conduction/conjugate_gradients.h"

#include <cmath>
#include <stdexcept>

namespace panel_dossier::thermal::conduction {

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
