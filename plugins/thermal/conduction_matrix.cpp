#include "plugins/thermal/conduction_matrix.h"

#include <numeric>

namespace panel_dossier::thermal::conduction {

void multiply(const Matrix& a, const Vector& x, Vector& y) {
  y.resize(a.size());
  const int* column = a.column.data();
  const double* value = a.value.data();
  for (std::size_t i = 0; i < a.size(); ++i) {
    double sum = a.diagonal[i] * x[i];
    for (int k = a.start[i]; k < a.start[i + 1]; ++k) sum += value[k] * x[static_cast<std::size_t>(column[k])];
    y[i] = sum;
  }
}

double dot(const Vector& a, const Vector& b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

void add_scaled(double factor, const Vector& x, Vector& y) {
  for (std::size_t i = 0; i < y.size(); ++i) y[i] += factor * x[i];
}

}  // namespace panel_dossier::thermal::conduction
