#include "plugins/quantities/cutting/cutting_master.h"

#include <algorithm>
#include <utility>

namespace panel_dossier::quantities {

namespace {

/// A gain below a hundredth of a micrometre of stock is rounding.
constexpr double kLeastGain_m = 1.0e-8;
/// A pivot below this would divide by rounding.
constexpr double kLeastPivot = 1.0e-9;
/// Amounts closer than this tie in the ratio test; the larger pivot then wins.
constexpr double kRatioTie = 1.0e-10;
/// Rounding of the product form grows slowly; 150 pivots keep seven digits, and the bound does not rest on them.
constexpr int kPivotsPerRenewal = 150;

}  // namespace

CuttingMaster::CuttingMaster(const std::vector<LengthDemand>& demands, const std::vector<CutPattern>& start)
    : patterns_(start) {
  const auto size = static_cast<Eigen::Index>(demands.size());
  demand_.resize(size);
  for (std::size_t i = 0; i < demands.size(); ++i) {
    demand_[static_cast<Eigen::Index>(i)] = demands[i].count;
    basis_.push_back({false, i});
  }
  renew();
}

void CuttingMaster::add(CutPattern pattern) {
  patterns_.push_back(std::move(pattern));
}

Eigen::VectorXd CuttingMaster::cost_of_basis_m() const {
  Eigen::VectorXd cost(demand_.size());
  for (std::size_t i = 0; i < basis_.size(); ++i) {
    cost[static_cast<Eigen::Index>(i)] = basis_[i].surplus ? 0.0 : cost_m(patterns_[basis_[i].index]);
  }
  return cost;
}

/// The column in terms of the basis: how much of each basic column one unit of it displaces.
Eigen::VectorXd CuttingMaster::in_basis(const Column& column) const {
  if (column.surplus) return -inverse_.col(static_cast<Eigen::Index>(column.index));
  Eigen::VectorXd result = Eigen::VectorXd::Zero(demand_.size());
  for (const auto& [item, count] : patterns_[column.index].pieces) {
    result += count * inverse_.col(static_cast<Eigen::Index>(item));
  }
  return result;
}

double CuttingMaster::reduced_cost_m(const Column& column) const {
  if (column.surplus) return prices_[static_cast<Eigen::Index>(column.index)];
  double cost = cost_m(patterns_[column.index]);
  for (const auto& [item, count] : patterns_[column.index].pieces) {
    cost -= count * prices_[static_cast<Eigen::Index>(item)];
  }
  return cost;
}

/// The column that saves most by the piece of stock; false when none saves.
bool CuttingMaster::find_entering(Column& entering) const {
  double least_m = -kLeastGain_m;
  const auto consider = [&](const Column& column) {
    const double cost_m = reduced_cost_m(column);
    if (cost_m >= least_m) return;
    least_m = cost_m;
    entering = column;
  };
  for (std::size_t i = 0; i < patterns_.size(); ++i) consider({false, i});
  for (std::size_t i = 0; i < basis_.size(); ++i) consider({true, i});
  return least_m < -kLeastGain_m;
}

/// Exchanges the entering column for the first basic one that runs out; false when numbers are too poor to pivot on.
bool CuttingMaster::pivot(const Column& entering) {
  const Eigen::VectorXd direction = in_basis(entering);
  Eigen::Index leaving = -1;
  double least = 0.0;
  for (Eigen::Index i = 0; i < direction.size(); ++i) {
    if (direction[i] <= kLeastPivot) continue;
    const double ratio = amounts_[i] / direction[i];
    const bool ties = leaving >= 0 && ratio < least + kRatioTie && direction[i] > direction[leaving];
    if (leaving < 0 || ratio < least - kRatioTie || ties) {
      least = leaving < 0 ? ratio : std::min(least, ratio);
      leaving = i;
    }
  }
  if (leaving < 0) return false;
  const double step = std::max(0.0, amounts_[leaving] / direction[leaving]);
  const double gain_m = reduced_cost_m(entering);
  const Eigen::RowVectorXd row = inverse_.row(leaving) / direction[leaving];
  for (Eigen::Index column = 0; column < row.size(); ++column) {
    if (row[column] != 0.0) inverse_.col(column) -= row[column] * direction;
  }
  inverse_.row(leaving) = row;
  amounts_ = (amounts_ - step * direction).cwiseMax(0.0);
  amounts_[leaving] = step;
  prices_ += gain_m * row.transpose();
  basis_[static_cast<std::size_t>(leaving)] = entering;
  return true;
}

/// Inverts the basis afresh.
void CuttingMaster::renew() {
  Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(demand_.size(), demand_.size());
  for (std::size_t i = 0; i < basis_.size(); ++i) {
    const auto column = static_cast<Eigen::Index>(i);
    if (basis_[i].surplus) {
      matrix(static_cast<Eigen::Index>(basis_[i].index), column) = -1.0;
      continue;
    }
    for (const auto& [item, count] : patterns_[basis_[i].index].pieces) {
      matrix(static_cast<Eigen::Index>(item), column) = count;
    }
  }
  inverse_ = matrix.partialPivLu().inverse();
  amounts_ = (inverse_ * demand_).cwiseMax(0.0);
  prices_ = inverse_.transpose() * cost_of_basis_m();
  pivots_since_renewal_ = 0;
}

void CuttingMaster::solve() {
  const std::size_t most_pivots = 1000 + 20 * basis_.size();
  Column entering;
  for (std::size_t i = 0; i < most_pivots && find_entering(entering); ++i) {
    if (!pivot(entering)) break;
    if (++pivots_since_renewal_ >= kPivotsPerRenewal) renew();
  }
}

std::vector<CuttingMaster::Use> CuttingMaster::uses() const {
  std::vector<Use> result;
  for (std::size_t i = 0; i < basis_.size(); ++i) {
    const double times = amounts_[static_cast<Eigen::Index>(i)];
    if (!basis_[i].surplus && times > kLeastPivot) result.push_back({basis_[i].index, times});
  }
  return result;
}

}  // namespace panel_dossier::quantities
