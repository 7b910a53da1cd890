#include "plugins/quantities/sheets/sheet_bound.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <utility>

namespace panel_dossier::quantities {

namespace {

constexpr double kRounding = 1.0e-9;
constexpr double kSquareMicrometresPerSquareMetre = 1.0e12;
/// Thresholds tried on each side; more improve the bound little and their pairs cost time.
constexpr std::size_t kMostThresholds = 16;
constexpr Micrometres kMostSteps = 3;

/// A dual feasible function of the share that a side takes of the sheet: shares that add up to at most 1 keep doing so.
struct Stretch {
  Micrometres steps = 0;      ///< k > 0: k + 1 shares are rounded down to k-ths
  Micrometres threshold = 0;  ///< sides below count nothing, sides within it of the sheet count whole

  double operator()(Micrometres side, Micrometres sheet) const {
    const double share = static_cast<double>(side) / static_cast<double>(sheet);
    if (steps > 0) {
      const Micrometres multiple = (steps + 1) * side;
      const Micrometres whole = multiple / sheet;
      return multiple % sheet == 0 ? share : static_cast<double>(whole) / static_cast<double>(steps);
    }
    if (side < threshold) return 0.0;
    return side > sheet - threshold ? 1.0 : share;
  }
};

/// Equal pieces counted, each with its kerf.
using Counted = std::map<std::pair<Micrometres, Micrometres>, double>;

std::vector<Stretch> stretches(const Counted& pieces, bool of_width, Micrometres longest) {
  std::vector<Stretch> result{{0, 0}};
  for (Micrometres steps = 1; steps <= kMostSteps; ++steps) result.push_back({steps, 0});
  std::vector<Micrometres> thresholds;
  for (const auto& [size, count] : pieces) {
    const Micrometres side = of_width ? size.first : size.second;
    if (2 * side <= longest) thresholds.push_back(side);
  }
  std::sort(thresholds.begin(), thresholds.end());
  thresholds.erase(std::unique(thresholds.begin(), thresholds.end()), thresholds.end());
  const std::size_t stride = thresholds.size() / kMostThresholds + 1;
  for (std::size_t i = 0; i < thresholds.size(); i += stride) result.push_back({0, thresholds[i]});
  return result;
}

/// A threshold over half a sheet is none: the function would not be dual feasible there.
bool is_allowed(const Stretch& stretch, Micrometres sheet) {
  return 2 * stretch.threshold <= sheet;
}

class Bound {
 public:
  Bound(const std::vector<FlatSize>& pieces, const SheetRules& rules) : rules_(rules) {
    for (const FlatSize& piece : pieces) ++pieces_[{piece.width + rules.kerf, piece.length + rules.kerf}];
  }

  double best() const {
    Micrometres widest = 0;
    Micrometres longest = 0;
    for (const FlatSize& size : rules_.sizes) {
      widest = std::max(widest, size.width + rules_.kerf);
      longest = std::max(longest, size.length + rules_.kerf);
    }
    double most = 0.0;
    for (const Stretch& width : stretches(pieces_, true, widest)) {
      for (const Stretch& length : stretches(pieces_, false, longest)) most = std::max(most, worth(width, length));
    }
    return most;
  }

 private:
  const SheetRules& rules_;
  Counted pieces_;

  double worth(const Stretch& width, const Stretch& length) const {
    for (const FlatSize& size : rules_.sizes) {
      if (!is_allowed(width, size.width + rules_.kerf) || !is_allowed(length, size.length + rules_.kerf)) return 0.0;
    }
    double total = 0.0;
    for (const auto& [piece, count] : pieces_) total += count * price(piece, width, length);
    return total;
  }

  /// The cheapest way in which the piece may lie in a sheet that holds it, in square micrometres.
  double price(const std::pair<Micrometres, Micrometres>& piece, const Stretch& width, const Stretch& length) const {
    double least = std::numeric_limits<double>::max();
    for (const FlatSize& size : rules_.sizes) {
      const FlatSize room{size.width + rules_.kerf, size.length + rules_.kerf};
      const double area = static_cast<double>(size.width) * static_cast<double>(size.length);
      const auto consider = [&](Micrometres across, Micrometres along) {
        if (across > room.width || along > room.length) return;
        least = std::min(least, area * width(across, room.width) * length(along, room.length));
      };
      consider(piece.first, piece.second);
      if (rules_.may_turn) consider(piece.second, piece.first);
    }
    return least;
  }
};

}  // namespace

double sheet_area_bound_m2(const std::vector<FlatSize>& pieces, const SheetRules& rules) {
  Micrometres measure = 0;
  for (const FlatSize& size : rules.sizes) measure = std::gcd(measure, size.width * size.length);
  const auto whole = static_cast<double>(measure);
  const double sheets = std::ceil(Bound(pieces, rules).best() / whole * (1.0 - kRounding));
  return sheets * whole / kSquareMicrometresPerSquareMetre;
}

}  // namespace panel_dossier::quantities
