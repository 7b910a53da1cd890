// Solves a two-dimensional network's model by FreeFEM on the same mesh, each cell cut into two linear triangles.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "plugins/thermal/conduction/network.h"

namespace panel_dossier::bench {

struct FiniteElementResult {
  double heat_flow_w = 0.0;           ///< from environment 0, with it at 1 °C and all others at 0 °C
  double lowest_inside_c = 0.0;       ///< at the vertices that environment 0 touches
  double assembly_and_solve_s = 0.0;  ///< processor time, without starting the program and reading the mesh
  double solve_s = 0.0;               ///< of that, the linear solver
};

/// `FreeFem++` of the package freefem++.
inline bool finite_element_program_is_there() {
  return std::system("command -v FreeFem++ >/dev/null 2>&1") == 0;
}

/// Writes mesh and script, runs them and reads the answer back.
class FiniteElementRun {
 public:
  explicit FiniteElementRun(const thermal::conduction::Network& network) : network_(network) {
    for (const auto& cell : network.cell_of_unknown) {
      for (const std::size_t y : {cell[1], cell[1] + 1}) {
        for (const std::size_t x : {cell[0], cell[0] + 1}) vertices_.emplace(vertex_key(x, y), vertices_.size());
      }
    }
  }

  FiniteElementResult run() const {
    write_mesh();
    write_script();
    const std::string command = "cd '" + folder_.path().string() + "' && FreeFem++ -nw -v 0 detail.edp >log.txt 2>&1";
    if (std::system(command.c_str()) != 0) throw std::runtime_error("FreeFem++ failed");
    return read_result();
  }

 private:
  const thermal::conduction::Network& network_;
  testing::TemporaryFolder folder_;
  std::map<std::size_t, std::size_t> vertices_;  ///< number of a crossing of grid lines, from 0

  std::size_t vertex_key(std::size_t x, std::size_t y) const { return y * network_.grid.lines_m[0].size() + x; }
  std::size_t vertex(std::size_t x, std::size_t y) const { return vertices_.at(vertex_key(x, y)) + 1; }

  /// The two ends of an exposed face.
  std::array<std::size_t, 2> ends(const thermal::conduction::Exposure& face) const {
    const std::size_t upper = face.upper ? 1 : 0;
    const std::size_t x = face.cell[0];
    const std::size_t y = face.cell[1];
    if (face.axis == 0) return {vertex(x + upper, y), vertex(x + upper, y + 1)};
    return {vertex(x, y + upper), vertex(x + 1, y + upper)};
  }

  void write_mesh() const {
    std::ofstream mesh(folder_.path() / "detail.msh");
    mesh.precision(17);
    mesh << vertices_.size() << ' ' << 2 * network_.cell_of_unknown.size() << ' ' << network_.exposures.size() << '\n';
    std::vector<std::size_t> key_of(vertices_.size());
    for (const auto& [key, number] : vertices_) key_of[number] = key;
    const std::size_t columns = network_.grid.lines_m[0].size();
    for (const std::size_t key : key_of) {
      mesh << network_.grid.lines_m[0][key % columns] << ' ' << network_.grid.lines_m[1][key / columns] << " 0\n";
    }
    for (const auto& cell : network_.cell_of_unknown) {
      const std::size_t x = cell[0];
      const std::size_t y = cell[1];
      const std::ptrdiff_t solid = &network_.solid_at(cell) - network_.model.solids.data();
      mesh << vertex(x, y) << ' ' << vertex(x + 1, y) << ' ' << vertex(x + 1, y + 1) << ' ' << solid << '\n';
      mesh << vertex(x, y) << ' ' << vertex(x + 1, y + 1) << ' ' << vertex(x, y + 1) << ' ' << solid << '\n';
    }
    for (const auto& face : network_.exposures) {
      const auto [a, b] = ends(face);
      mesh << a << ' ' << b << ' ' << face.environment_box + 1 << '\n';
    }
  }

  void write_script() const {
    std::ofstream script(folder_.path() / "detail.edp");
    script.precision(17);
    script << "mesh Th = readmesh(\"detail.msh\");\nreal t0 = clock();\nfespace Vh(Th, P1);\nfespace Ph(Th, P0);\n"
           << "real[int] conductivity(" << network_.model.solids.size() << ");\n";
    for (std::size_t i = 0; i < network_.model.solids.size(); ++i) {
      script << "conductivity[" << i << "] = " << network_.model.solids[i].conductivity_w_per_mk << ";\n";
    }
    std::string surfaces;  // each term after " + "
    std::string sources;
    std::string flow;
    for (std::size_t i = 0; i < network_.model.environment_boxes.size(); ++i) {
      const auto& box = network_.model.environment_boxes[i];
      const std::string label = std::to_string(i + 1);
      const std::string film = "(1./" + std::to_string(box.surface_resistance_m2k_per_w) + ")";
      surfaces += " + int1d(Th, " + label + ")(" + film + "*u*v)";
      if (box.environment != 0) continue;
      sources += " + int1d(Th, " + label + ")(" + film + "*v)";
      flow += " + int1d(Th, " + label + ")(" + film + "*(1. - u))";
    }
    script << "Ph k = conductivity[region];\n"
           << "varf a(u, v) = int2d(Th)(k*(dx(u)*dx(v) + dy(u)*dy(v)))" << surfaces << ";\n"
           << "varf l(u, v) = " << sources.substr(3) << ";\n"
           << "matrix A = a(Vh, Vh, solver = sparsesolver);\nreal[int] b = l(0, Vh);\nreal t1 = clock();\n"
           << "Vh u;\nu[] = A^-1 * b;\nreal t2 = clock();\nreal flow = " << flow.substr(3) << ";\n"
           << "ofstream result(\"result.txt\");\nresult.precision(17);\n"
           << "result << flow << \" \" << t2 - t0 << \" \" << t2 - t1 << endl;\n"
           << "for (int i = 0; i < u[].n; ++i) result << u[][i] << endl;\n";
  }

  FiniteElementResult read_result() const {
    std::ifstream file(folder_.path() / "result.txt");
    FiniteElementResult result;
    file >> result.heat_flow_w >> result.assembly_and_solve_s >> result.solve_s;
    std::vector<double> temperatures(vertices_.size());
    for (double& temperature : temperatures) file >> temperature;
    if (!file) throw std::runtime_error("FreeFem++ wrote no result");
    result.lowest_inside_c = std::numeric_limits<double>::infinity();
    for (const auto& face : network_.exposures) {
      if (network_.model.environment_boxes[face.environment_box].environment != 0) continue;
      for (const std::size_t number : ends(face)) {
        result.lowest_inside_c = std::min(result.lowest_inside_c, temperatures[number - 1]);
      }
    }
    return result;
  }
};

/// `network` must outlive the call. Throws std::runtime_error when the program is not there or fails.
inline FiniteElementResult solve_by_finite_elements(const thermal::conduction::Network& network) {
  return FiniteElementRun(network).run();
}

}  // namespace panel_dossier::bench
