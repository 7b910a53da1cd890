// A beam solved as a plate in plane stress by FreeFEM, a general finite-element program (F. Hecht, New development in
// FreeFem++, J. Numer. Math. 20, 2012): quadratic triangles, no beam theory in it.
#pragma once

#include <cstddef>
#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/api/testing/temporary_folder.h"

namespace panel_dossier::testing {

/// m, N, Pa. Supports and places must lie on multiples of a quarter of the depth, which is the mesh.
struct FiniteElementBeam {
  double length_m = 0.0;
  double depth_m = 0.0;
  double width_m = 0.0;
  double modulus_pa = 0.0;
  double poisson = 0.0;
  double line_load_n_per_m = 0.0;  ///< spread over the depth
  std::vector<double> supports_m;
};

inline std::string script_list(const std::vector<double>& values) {
  std::string text = "[";
  for (std::size_t i = 0; i < values.size(); ++i) text += (i > 0 ? ", " : "") + std::to_string(values[i]);
  return text + "]";
}

/// Deflections of the middle line at these places. Throws std::runtime_error when the program is not there or fails.
inline std::vector<double> finite_element_deflections_m(const FiniteElementBeam& beam,
                                                        const std::vector<double>& places_m) {
  const TemporaryFolder folder;
  {
    std::ofstream script(folder.path() / "beam.edp");
    script << std::scientific;  // a whole number without a point would be read as an int and overflow
    script.precision(17);
    script << "real L = " << beam.length_m << ", H = " << beam.depth_m << ", B = " << beam.width_m
           << ", E = " << beam.modulus_pa << ", nu = " << beam.poisson << ", w = " << beam.line_load_n_per_m << ";\n"
           << "real[int] supports = " << script_list(beam.supports_m) << ", places = " << script_list(places_m) << ";\n"
           << R"(int n = 4, m = int(L / H * n + 0.5);
mesh Th = square(m, n, [x * L, y * H - H / 2]);
fespace Vh(Th, [P2, P2]);
Vh [u, v], [p, q];
real lam = E * nu / (1 - nu^2), mu = E / (2 * (1 + nu));
varf a([u, v], [p, q]) = int2d(Th)(B * (lam * (dx(u) + dy(v)) * (dx(p) + dy(q))
  + mu * (2 * dx(u) * dx(p) + 2 * dy(v) * dy(q) + (dy(u) + dx(v)) * (dy(p) + dx(q)))));
varf l([u, v], [p, q]) = int2d(Th)(w / H * q);
matrix A = a(Vh, Vh);
real[int] b = l(0, Vh);
// Which unknown is where: a support holds the middle line across the beam, the first one also along it.
Vh [xu, xv] = [x, x], [yu, yv] = [y, y], [ku, kv] = [1, 2];
int held = 0;
for (int i = 0; i < Vh.ndof; ++i) for (int s = 0; s < supports.n; ++s)
  if (abs(yu[][i]) < 1e-9 && abs(xu[][i] - supports[s]) < 1e-6 && (ku[][i] > 1.5 || s == 0)) {
    A(i, i) = 1e30;
    b[i] = 0;
    ++held;
  }
assert(held == supports.n + 1);
set(A, solver = sparsesolver);
u[] = A^-1 * b;
ofstream result("result.txt");
result.precision(17);
for (int i = 0; i < places.n; ++i) result << v(places[i], 0) << endl;
)";
  }
  const std::string command = "cd '" + folder.path().string() + "' && FreeFem++ -nw -v 0 beam.edp >log.txt 2>&1";
  if (std::system(command.c_str()) != 0) throw std::runtime_error("FreeFem++ failed");
  std::ifstream file(folder.path() / "result.txt");
  std::vector<double> deflections(places_m.size());
  for (double& deflection : deflections) file >> deflection;
  if (!file) throw std::runtime_error("FreeFem++ wrote no result");
  return deflections;
}

}  // namespace panel_dossier::testing
