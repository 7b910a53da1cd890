#include "plugins/thermal/conduction_conjugate_gradients.h"

#include <cmath>
#include <stdexcept>

namespace panel_dossier::thermal::conduction {

namespace {

constexpr int kMostIterations = 500;

void residual(const Matrix& a, const Vector& b, const Vector& x, Vector& r) {
  multiply(a, x, r);
  for (std::size_t i = 0; i < r.size(); ++i) r[i] = b[i] - r[i];
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
  residual(a, b, x, r);
  double direction_energy = 1.0;
  for (int iteration = 0; iteration < kMostIterations; ++iteration) {
    if (std::sqrt(dot(r, r)) <= tolerance * b_norm) {
      residual(a, b, x, r);
      const double relative = std::sqrt(dot(r, r)) / b_norm;
      if (relative <= tolerance) return {iteration, relative};
    }
    multigrid.apply(r, z);
    const double overlap = dot(z, image) / direction_energy;
    for (std::size_t i = 0; i < z.size(); ++i) direction[i] = z[i] - overlap * direction[i];
    multiply(a, direction, image);
    direction_energy = dot(direction, image);
    const double step = dot(direction, r) / direction_energy;
    add_scaled(step, direction, x);
    add_scaled(-step, image, r);
  }
  throw std::runtime_error("the conduction network was not solved within 500 iterations");
}

}  // namespace panel_dossier::thermal::conduction
