#include "plugins/thermal/conduction/matrix.h"

#include <Eigen/Core>

namespace panel_dossier::thermal::conduction {

namespace {

Eigen::Map<const Eigen::VectorXd> mapped(const Vector& v) {
  return {v.data(), static_cast<Eigen::Index>(v.size())};
}

}  // namespace

double multiply(const Matrix& a, const Vector& x, Vector& y) {
  y.resize(a.size());
  const int* column = a.column.data();
  const double* value = a.value.data();
  double overlap = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    double sum = a.diagonal[i] * x[i];
    for (int k = a.start[i]; k < a.start[i + 1]; ++k) sum += value[k] * x[static_cast<std::size_t>(column[k])];
    y[i] = sum;
    overlap += x[i] * sum;
  }
  return overlap;
}

double dot(const Vector& a, const Vector& b) {
  return mapped(a).dot(mapped(b));
}

void add_scaled(double factor, const Vector& x, Vector& y) {
  Eigen::Map<Eigen::VectorXd>(y.data(), static_cast<Eigen::Index>(y.size())) += factor * mapped(x);
}

}  // namespace panel_dossier::thermal::conduction
