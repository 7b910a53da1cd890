// The symmetric positive definite matrix of a conduction network.
#pragma once

#include <cstddef>
#include <vector>

namespace panel_dossier::thermal::conduction {

using Vector = std::vector<double>;

/// Compressed rows. Those entries of row i left of the diagonal stand in [start[i], middle[i]), those right of it in
/// [middle[i], start[i + 1]). All entries off the diagonal are below 0: minus the conductance between two cells.
struct Matrix {
  std::vector<int> start{0};
  std::vector<int> middle;
  std::vector<int> column;
  Vector value;
  Vector diagonal;

  std::size_t size() const { return diagonal.size(); }
};

/// y = A x; y takes A's size. Gives x · y.
double multiply(const Matrix& a, const Vector& x, Vector& y);
double dot(const Vector& a, const Vector& b);
/// y = y + factor x.
void add_scaled(double factor, const Vector& x, Vector& y);

}  // namespace panel_dossier::thermal::conduction
