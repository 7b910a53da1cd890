// The linear program over cutting patterns: least stock length that covers every demand, patterns in fractions.
#pragma once

#include <Eigen/Dense>
#include <cstddef>
#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

/// Revised simplex with an explicit inverse of the basis, renewed at intervals. Lengths in m. What it gives is as good
/// as its floating-point numbers: the caller proves a bound from the prices by other means (see stock_bound.h).
/// Gilmore and Gomory, A linear programming approach to the cutting-stock problem, 1961 (from memory).
class CuttingMaster {
 public:
  /// Precondition: every demand is positive, and `start[i]` cuts pieces of demand i alone.
  CuttingMaster(const std::vector<LengthDemand>& demands, const std::vector<CutPattern>& start);

  void add(CutPattern pattern);

  /// Pivots until no known pattern improves the plan; gives up after a number of pivots that grows with the demands.
  void solve();

  /// Stock length of the plan in m.
  double cost_m() const { return cost_of_basis_m().dot(amounts_); }
  /// What one more piece of each demand costs, in m of stock.
  const Eigen::VectorXd& prices_m() const { return prices_; }

  struct Use {
    std::size_t pattern = 0;  ///< index into `patterns()`
    double times = 0.0;       ///< not whole in general
  };
  /// Patterns used more than not at all, in the order of the basis.
  std::vector<Use> uses() const;
  const std::vector<CutPattern>& patterns() const { return patterns_; }

 private:
  /// A column of the program: a pattern, or the surplus of one demand (a piece more than asked for).
  struct Column {
    bool surplus = false;
    std::size_t index = 0;
  };

  std::vector<CutPattern> patterns_;
  std::vector<Column> basis_;
  Eigen::MatrixXd inverse_;
  Eigen::VectorXd demand_;
  Eigen::VectorXd amounts_;
  Eigen::VectorXd prices_;
  int pivots_since_renewal_ = 0;

  static double cost_m(const CutPattern& pattern) { return metres(pattern.stock); }
  Eigen::VectorXd cost_of_basis_m() const;
  Eigen::VectorXd in_basis(const Column& column) const;
  double reduced_cost_m(const Column& column) const;
  bool find_entering(Column& entering) const;
  bool pivot(const Column& entering);
  void renew();
};

}  // namespace panel_dossier::quantities
