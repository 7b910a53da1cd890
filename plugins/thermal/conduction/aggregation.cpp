#include "plugins/thermal/conduction/aggregation.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace panel_dossier::thermal::conduction {

namespace {

/// Worst quality of a pair that is merged: the bound on the condition number of the two-grid method (Notay 2012, κ =
/// 8).
constexpr double kWorstQuality = 8.0;

struct Pairing {
  std::vector<int> aggregate;
  int count = 0;
};

/// What each row has beyond its couplings: its conductance to the environments.
Vector row_sums(const Matrix& a) {
  Vector sums(a.diagonal);
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (int k = a.start[i]; k < a.start[i + 1]; ++k) sums[i] += a.value[static_cast<std::size_t>(k)];
    sums[i] = std::max(sums[i], 0.0);
  }
  return sums;
}

/// Two resistors one after the other, by their conductances.
double in_series(double a, double b) {
  return a > 0.0 && b > 0.0 ? a * b / (a + b) : 0.0;
}

/// Pairs up the rows of one matrix.
class PairFinder {
 public:
  /// `smoothed` is the diagonal that the smoother divides by, summed over the fine rows behind each row of `a`.
  PairFinder(const Matrix& a, const Vector& smoothed) : a_(a), smoothed_(smoothed), row_sums_(row_sums(a)) {}

  Pairing pair_up() const {
    Pairing pairing{std::vector<int>(a_.size(), -1), 0};
    for (std::size_t i = 0; i < a_.size(); ++i) {
      if (pairing.aggregate[i] >= 0) continue;
      const int partner = best_free(pairing.aggregate, i);
      pairing.aggregate[i] = pairing.count;
      if (partner >= 0) pairing.aggregate[static_cast<std::size_t>(partner)] = pairing.count;
      ++pairing.count;
    }
    return pairing;
  }

 private:
  const Matrix& a_;
  const Vector& smoothed_;
  Vector row_sums_;

  /// The free neighbour that makes the best pair with `i`, or −1 when none is good enough.
  int best_free(const std::vector<int>& aggregate, std::size_t i) const {
    double best = kWorstQuality;
    int found = -1;
    for (int k = a_.start[i]; k < a_.start[i + 1]; ++k) {
      const auto entry = static_cast<std::size_t>(k);
      const auto j = static_cast<std::size_t>(a_.column[entry]);
      if (aggregate[j] >= 0) continue;
      const double coupling = -a_.value[entry] + in_series(row_sums_[i], row_sums_[j]);
      const double quality = 2.0 * in_series(smoothed_[i], smoothed_[j]) / coupling;
      if (quality >= best) continue;
      best = quality;
      found = a_.column[entry];
    }
    return found;
  }
};

/// The members of each aggregate, one after the other.
struct Members {
  std::vector<int> start;
  std::vector<int> member;

  explicit Members(const Pairing& pairing)
      : start(static_cast<std::size_t>(pairing.count) + 1, 0), member(pairing.aggregate.size()) {
    for (const int aggregate : pairing.aggregate) ++start[static_cast<std::size_t>(aggregate) + 1];
    for (std::size_t i = 1; i < start.size(); ++i) start[i] += start[i - 1];
    std::vector<int> next(start.begin(), start.end() - 1);
    for (std::size_t i = 0; i < member.size(); ++i) {
      member[static_cast<std::size_t>(next[static_cast<std::size_t>(pairing.aggregate[i])]++)] = static_cast<int>(i);
    }
  }
};

/// Sums the rows of an aggregate's members, column by column.
class RowSum {
 public:
  explicit RowSum(std::size_t size) : place_(size, -1) {}

  void add(int column, double value) {
    int& place = place_[static_cast<std::size_t>(column)];
    if (place < 0) {
      place = static_cast<int>(entries_.size());
      entries_.emplace_back(column, value);
    } else {
      entries_[static_cast<std::size_t>(place)].second += value;
    }
  }

  /// Appends the row to `matrix` and clears the sum for the next row.
  void finish(int row, double diagonal, Matrix& matrix) {
    for (const auto& [column, value] : entries_) {
      if (column < row) append(column, value, matrix);
    }
    matrix.middle.push_back(static_cast<int>(matrix.value.size()));
    for (const auto& [column, value] : entries_) {
      if (column > row) append(column, value, matrix);
      place_[static_cast<std::size_t>(column)] = -1;
    }
    matrix.start.push_back(static_cast<int>(matrix.value.size()));
    matrix.diagonal.push_back(diagonal);
    entries_.clear();
  }

 private:
  std::vector<int> place_;
  std::vector<std::pair<int, double>> entries_;

  static void append(int column, double value, Matrix& matrix) {
    matrix.column.push_back(column);
    matrix.value.push_back(value);
  }
};

Matrix merge(const Matrix& fine, const Pairing& pairing) {
  const Members members(pairing);
  const auto count = static_cast<std::size_t>(pairing.count);
  Matrix coarse;
  coarse.start.reserve(count + 1);
  coarse.middle.reserve(count);
  coarse.diagonal.reserve(count);
  coarse.column.reserve(fine.column.size());
  coarse.value.reserve(fine.column.size());
  RowSum row(count);
  for (int aggregate = 0; aggregate < pairing.count; ++aggregate) {
    double diagonal = 0.0;
    const auto at = static_cast<std::size_t>(aggregate);
    for (int m = members.start[at]; m < members.start[at + 1]; ++m) {
      const auto i = static_cast<std::size_t>(members.member[static_cast<std::size_t>(m)]);
      diagonal += fine.diagonal[i];
      for (int k = fine.start[i]; k < fine.start[i + 1]; ++k) {
        const auto entry = static_cast<std::size_t>(k);
        const int column = pairing.aggregate[static_cast<std::size_t>(fine.column[entry])];
        if (column == aggregate) {
          diagonal += fine.value[entry];
        } else {
          row.add(column, fine.value[entry]);
        }
      }
    }
    row.finish(aggregate, diagonal, coarse);
  }
  return coarse;
}

}  // namespace

Coarsening coarsen(const Matrix& fine) {
  Pairing first = PairFinder(fine, fine.diagonal).pair_up();
  const Matrix pairs = merge(fine, first);
  Vector smoothed(pairs.size(), 0.0);
  for (std::size_t i = 0; i < fine.size(); ++i) {
    smoothed[static_cast<std::size_t>(first.aggregate[i])] += fine.diagonal[i];
  }
  const Pairing second = PairFinder(pairs, smoothed).pair_up();
  for (int& aggregate : first.aggregate) aggregate = second.aggregate[static_cast<std::size_t>(aggregate)];
  return {std::move(first.aggregate), merge(pairs, second)};
}

}  // namespace panel_dossier::thermal::conduction
