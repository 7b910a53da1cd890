// A panel joint of 100 000 cells: the own solver beside Eigen's SimplicialLDLT on the same matrix and FreeFEM on the
// same mesh. Prints how many times the references' processor time the own solver takes.
#include <benchmark/benchmark.h>

#include <Eigen/SparseCholesky>
#include <cstdio>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "plugins/thermal/conduction/multigrid.h"
#include "plugins/thermal/conduction/solve.h"
#include "tests/bench/finite_element_reference.h"
#include "tests/bench/panel_joint_model.h"

namespace {

using namespace panel_dossier;
using namespace panel_dossier::thermal::conduction;

constexpr double kRelativeResidual = 1e-8;

const Network& network() {
  static const Network kNetwork(bench::panel_joint(), make_grid(bench::panel_joint(), {0.0012, 1.02, 0.02}));
  return kNetwork;
}

const Vector& heat_sources() {
  static const Vector kSources = [] {
    Vector b(network().matrix.size(), 0.0);
    for (const Exposure& exposure : network().exposures) {
      const EnvironmentBox& box = network().model.environment_boxes[exposure.environment_box];
      if (box.environment == kInside) b[exposure.unknown] += exposure.conductance_w_per_k;
    }
    return b;
  }();
  return kSources;
}

Eigen::SparseMatrix<double> eigen_matrix(const Matrix& a) {
  std::vector<Eigen::Triplet<double>> entries;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const int row = static_cast<int>(i);
    entries.emplace_back(row, row, a.diagonal[i]);
    for (int k = a.start[i]; k < a.start[i + 1]; ++k) {
      entries.emplace_back(row, a.column[static_cast<std::size_t>(k)], a.value[static_cast<std::size_t>(k)]);
    }
  }
  const auto size = static_cast<Eigen::Index>(a.size());
  Eigen::SparseMatrix<double> result(size, size);
  result.setFromTriplets(entries.begin(), entries.end());
  return result;
}

void own_linear_solver(benchmark::State& state) {
  int iterations = 0;
  for (auto _ : state) {
    Multigrid multigrid(network().matrix);
    Vector x;
    iterations = solve(network().matrix, multigrid, heat_sources(), kRelativeResidual, x).iterations;
    benchmark::DoNotOptimize(x.data());
  }
  state.counters["cells"] = static_cast<double>(network().matrix.size());
  state.counters["iterations"] = iterations;
}
BENCHMARK(own_linear_solver)->Unit(benchmark::kMillisecond)->MinTime(2.0);

void eigen_simplicial_ldlt(benchmark::State& state) {
  const Eigen::SparseMatrix<double> matrix = eigen_matrix(network().matrix);
  const auto b = Eigen::Map<const Eigen::VectorXd>(heat_sources().data(), matrix.rows());
  for (auto _ : state) {
    const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factors(matrix);
    Eigen::VectorXd x = factors.solve(b);
    benchmark::DoNotOptimize(x.data());
  }
}
BENCHMARK(eigen_simplicial_ldlt)->Unit(benchmark::kMillisecond)->MinTime(2.0);

/// Grid to heat flow, as a check of a detail needs it.
void own_detail(benchmark::State& state) {
  for (auto _ : state) {
    const Solution solution = solve_on(bench::panel_joint(), network().grid, kRelativeResidual);
    benchmark::DoNotOptimize(solution.heat_flows_w.data());
  }
}
BENCHMARK(own_detail)->Unit(benchmark::kMillisecond)->MinTime(2.0);

/// Assembly to temperatures, by FreeFEM's own clock: starting it and reading the mesh are left out.
void finite_elements(benchmark::State& state) {
  if (!bench::finite_element_program_is_there()) {
    state.SkipWithError("FreeFem++ is not installed: bash .ci/install --tests");
    return;
  }
  for (auto _ : state) {
    state.SetIterationTime(bench::solve_by_finite_elements(network()).assembly_and_solve_s);
  }
}
BENCHMARK(finite_elements)->Unit(benchmark::kMillisecond)->UseManualTime()->Iterations(5);

/// Prints as usual and keeps the times for the ratios.
class RatioReporter : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      if (run.error_occurred) continue;
      const std::string name = run.run_name.function_name;
      times_[name] = name == "finite_elements" ? run.GetAdjustedRealTime() : run.GetAdjustedCPUTime();
    }
    ConsoleReporter::ReportRuns(runs);
  }

  void print_ratio(const std::string& own, const std::string& reference) const {
    const auto a = times_.find(own);
    const auto b = times_.find(reference);
    if (a == times_.end() || b == times_.end()) return;
    std::printf("%s / %s = %.3f\n", own.c_str(), reference.c_str(), a->second / b->second);
  }

 private:
  std::map<std::string, double> times_;
};

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 64;
  RatioReporter reporter;
  benchmark::RunSpecifiedBenchmarks(&reporter);
  reporter.print_ratio("own_linear_solver", "eigen_simplicial_ldlt");
  reporter.print_ratio("own_detail", "finite_elements");
  benchmark::Shutdown();
  return 0;
}
