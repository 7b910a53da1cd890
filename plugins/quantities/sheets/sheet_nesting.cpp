#include "plugins/quantities/sheets/sheet_nesting.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

#include "core/api/support/exact_sum.h"

namespace panel_dossier::quantities {

namespace {

enum class NestingOrder { area, length, width, longer_side, girth };
enum class NestingFit { area, short_side };
enum class NestingDivision { shorter_rest, longer_rest, largest_rest };

struct NestingStrategy {
  NestingOrder order = NestingOrder::area;
  NestingFit fit = NestingFit::area;
  NestingDivision division = NestingDivision::shorter_rest;
  std::size_t opened = 0;  ///< index of the size of sheet to open where the piece fits it
};

/// Every strategy for rules with this many sizes of sheet.
std::vector<NestingStrategy> nesting_strategies(std::size_t sizes);

/// Indices of the pieces, largest first by the order's measure.
std::vector<std::size_t> nesting_order(const std::vector<FlatSize>& pieces, NestingOrder order);

/// Keeps references to pieces and rules, which must outlive it. Used once.
class GuillotineNester {
 public:
  GuillotineNester(const std::vector<FlatSize>& pieces, const SheetRules& rules, const NestingStrategy& strategy);

  /// Places the pieces in this order, opening sheets as needed.
  std::vector<CutSheet> nest(const std::vector<std::size_t>& order);
  /// Opens one sheet for the first piece and places of the others what fits it.
  CutSheet fill_one(const std::vector<std::size_t>& order);

 private:
  struct FreeRectangle {
    std::size_t sheet = 0;
    Micrometres x = 0;
    Micrometres y = 0;
    FlatSize size;
  };
  struct Place {
    std::size_t rectangle = 0;
    FlatSize size;
    Micrometres waste = std::numeric_limits<Micrometres>::max();
  };

  const std::vector<FlatSize>& pieces_;
  const SheetRules& rules_;
  NestingStrategy strategy_;
  Micrometres least_width_ = std::numeric_limits<Micrometres>::max();
  Micrometres least_length_ = std::numeric_limits<Micrometres>::max();
  std::vector<CutSheet> sheets_;
  std::vector<FreeRectangle> free_;

  void note_least_sides(const std::vector<std::size_t>& order);
  bool place(std::size_t piece);
  std::optional<Place> best_place(const FlatSize& piece) const;
  void consider(std::size_t rectangle, const FlatSize& piece, Place& best) const;
  void open_sheet(const FlatSize& piece);
  void divide(const FreeRectangle& from, const FlatSize& piece);
  bool cuts_across(const FlatSize& room, const FlatSize& piece, Micrometres beside, Micrometres behind) const;
  void keep(const FreeRectangle& rest);
};

Micrometres order_key(const FlatSize& piece, NestingOrder order) {
  switch (order) {
    case NestingOrder::area: return area_of(piece);
    case NestingOrder::length: return piece.length;
    case NestingOrder::width: return piece.width;
    case NestingOrder::longer_side: return std::max(piece.width, piece.length);
    case NestingOrder::girth: break;
  }
  return piece.width + piece.length;
}

std::vector<NestingStrategy> nesting_strategies(std::size_t sizes) {
  std::vector<NestingStrategy> all;
  for (std::size_t opened = 0; opened < sizes; ++opened) {
    for (const NestingOrder order : {NestingOrder::area, NestingOrder::length, NestingOrder::width,
                                     NestingOrder::longer_side, NestingOrder::girth}) {
      for (const NestingFit fit : {NestingFit::area, NestingFit::short_side}) {
        for (const NestingDivision division :
             {NestingDivision::shorter_rest, NestingDivision::longer_rest, NestingDivision::largest_rest}) {
          all.push_back({order, fit, division, opened});
        }
      }
    }
  }
  return all;
}

std::vector<std::size_t> nesting_order(const std::vector<FlatSize>& pieces, NestingOrder order) {
  std::vector<std::size_t> indices(pieces.size());
  std::iota(indices.begin(), indices.end(), std::size_t{0});
  std::stable_sort(indices.begin(), indices.end(), [&](std::size_t a, std::size_t b) {
    const Micrometres key_a = order_key(pieces[a], order);
    const Micrometres key_b = order_key(pieces[b], order);
    return key_a != key_b ? key_a > key_b : area_of(pieces[a]) > area_of(pieces[b]);
  });
  return indices;
}

GuillotineNester::GuillotineNester(const std::vector<FlatSize>& pieces, const SheetRules& rules,
                                   const NestingStrategy& strategy)
    : pieces_(pieces), rules_(rules), strategy_(strategy) {}

std::vector<CutSheet> GuillotineNester::nest(const std::vector<std::size_t>& order) {
  note_least_sides(order);
  for (const std::size_t piece : order) {
    if (place(piece)) continue;
    open_sheet(pieces_[piece]);
    place(piece);
  }
  return std::move(sheets_);
}

CutSheet GuillotineNester::fill_one(const std::vector<std::size_t>& order) {
  note_least_sides(order);
  open_sheet(pieces_[order.front()]);
  for (auto piece = order.begin(); piece != order.end() && !free_.empty(); ++piece) place(*piece);
  return std::move(sheets_.front());
}

void GuillotineNester::note_least_sides(const std::vector<std::size_t>& order) {
  for (const std::size_t index : order) {
    const FlatSize& piece = pieces_[index];
    const Micrometres shorter = std::min(piece.width, piece.length);
    least_width_ = std::min(least_width_, rules_.may_turn ? shorter : piece.width);
    least_length_ = std::min(least_length_, rules_.may_turn ? shorter : piece.length);
  }
}

/// False when no free rectangle holds the piece.
bool GuillotineNester::place(std::size_t piece) {
  const std::optional<Place> found = best_place(pieces_[piece]);
  if (!found) return false;
  const FreeRectangle rectangle = free_[found->rectangle];
  free_[found->rectangle] = free_.back();
  free_.pop_back();
  sheets_[rectangle.sheet].pieces.push_back({piece, rectangle.x, rectangle.y, found->size});
  divide(rectangle, found->size);
  return true;
}

std::optional<GuillotineNester::Place> GuillotineNester::best_place(const FlatSize& piece) const {
  Place best;
  for (std::size_t i = 0; i < free_.size(); ++i) {
    consider(i, piece, best);
    if (rules_.may_turn) consider(i, turned(piece), best);
  }
  return best.waste == std::numeric_limits<Micrometres>::max() ? std::nullopt : std::optional(best);
}

void GuillotineNester::consider(std::size_t rectangle, const FlatSize& piece, Place& best) const {
  const FlatSize& room = free_[rectangle].size;
  if (!holds(room, piece)) return;
  const Micrometres waste = strategy_.fit == NestingFit::area
                                ? area_of(room) - area_of(piece)
                                : std::min(room.width - piece.width, room.length - piece.length);
  if (waste < best.waste) best = {rectangle, piece, waste};
}

/// The strategy's size where the piece fits it, else the smallest that holds it.
void GuillotineNester::open_sheet(const FlatSize& piece) {
  const auto takes = [&](const FlatSize& sheet) { return fits(piece, sheet, rules_.may_turn); };
  const FlatSize* size = &rules_.sizes[strategy_.opened];
  if (!takes(*size)) {
    for (const FlatSize& candidate : rules_.sizes) {
      if (takes(candidate) && (!takes(*size) || area_of(candidate) < area_of(*size))) size = &candidate;
    }
  }
  sheets_.push_back({*size, {}});
  free_.push_back({sheets_.size() - 1, 0, 0, *size});
}

/// What is left beside and behind the piece, parted by one cut from edge to edge.
void GuillotineNester::divide(const FreeRectangle& from, const FlatSize& piece) {
  const Micrometres beside = from.size.width - piece.width - rules_.kerf;
  const Micrometres behind = from.size.length - piece.length - rules_.kerf;
  const bool across = cuts_across(from.size, piece, beside, behind);
  keep({from.sheet, from.x + piece.width + rules_.kerf, from.y, {beside, across ? piece.length : from.size.length}});
  keep({from.sheet, from.x, from.y + piece.length + rules_.kerf, {across ? from.size.width : piece.width, behind}});
}

/// True when the rest behind keeps the full width.
bool GuillotineNester::cuts_across(const FlatSize& room, const FlatSize& piece, Micrometres beside,
                                   Micrometres behind) const {
  switch (strategy_.division) {
    case NestingDivision::shorter_rest: return beside < behind;
    case NestingDivision::longer_rest: return beside >= behind;
    case NestingDivision::largest_rest: break;
  }
  const Micrometres across = std::max(room.width * behind, beside * piece.length);
  return across >= std::max(piece.width * behind, beside * room.length);
}

/// Rests that no piece fits are offcuts for good.
void GuillotineNester::keep(const FreeRectangle& rest) {
  if (rest.size.width >= least_width_ && rest.size.length >= least_length_) free_.push_back(rest);
}

/// Time grows with the square of the pieces nested together.
constexpr std::size_t kMostTogether = 5000;

/// Smaller sheets where what was cut fits them.
void shrink(CutSheet& cut, const SheetRules& rules) {
  FlatSize extent;
  for (const PlacedPiece& piece : cut.pieces) {
    extent.width = std::max(extent.width, piece.x + piece.size.width);
    extent.length = std::max(extent.length, piece.y + piece.size.length);
  }
  for (const FlatSize& size : rules.sizes) {
    if (holds(size, extent) && area_of(size) < area_of(cut.sheet)) cut.sheet = size;
  }
}

Micrometres total_area(const std::vector<CutSheet>& sheets) {
  Micrometres total = 0;
  for (const CutSheet& cut : sheets) total += area_of(cut.sheet);
  return total;
}

/// Share of the sheet that its pieces cover.
double covered_share(const CutSheet& cut) {
  Micrometres covered = 0;
  for (const PlacedPiece& piece : cut.pieces) covered += area_of(piece.size);
  return static_cast<double>(covered) / static_cast<double>(area_of(cut.sheet));
}

/// One strategy for all sheets.
std::vector<CutSheet> nest_all(const std::vector<FlatSize>& pieces, const SheetRules& rules,
                               const NestingStrategy& strategy) {
  std::vector<CutSheet> sheets = GuillotineNester(pieces, rules, strategy).nest(nesting_order(pieces, strategy.order));
  for (CutSheet& cut : sheets) shrink(cut, rules);
  return sheets;
}

/// Sheet by sheet, each by the strategy that covers it best with the pieces left.
std::vector<CutSheet> fill_sheets(const std::vector<FlatSize>& pieces, const SheetRules& rules,
                                  const std::vector<NestingStrategy>& strategies) {
  std::map<NestingOrder, std::vector<std::size_t>> left;
  for (const NestingStrategy& strategy : strategies) {
    left.try_emplace(strategy.order, nesting_order(pieces, strategy.order));
  }
  std::vector<CutSheet> sheets;
  std::vector<bool> is_cut(pieces.size(), false);
  while (!left.begin()->second.empty()) {
    CutSheet best;
    double best_share = -1.0;
    for (const NestingStrategy& strategy : strategies) {
      CutSheet sheet = GuillotineNester(pieces, rules, strategy).fill_one(left[strategy.order]);
      shrink(sheet, rules);
      const double share = covered_share(sheet);
      if (share <= best_share) continue;
      best_share = share;
      best = std::move(sheet);
    }
    for (const PlacedPiece& piece : best.pieces) is_cut[piece.piece] = true;
    for (auto& [order, indices] : left) std::erase_if(indices, [&](std::size_t i) { return is_cut[i]; });
    sheets.push_back(std::move(best));
  }
  return sheets;
}

/// All pieces together, by the best of all strategies.
std::vector<CutSheet> nest_together(const std::vector<FlatSize>& pieces, const SheetRules& rules) {
  const std::vector<NestingStrategy> strategies = nesting_strategies(rules.sizes.size());
  std::vector<CutSheet> best = fill_sheets(pieces, rules, strategies);
  for (const NestingStrategy& strategy : strategies) {
    std::vector<CutSheet> sheets = nest_all(pieces, rules, strategy);
    if (total_area(sheets) < total_area(best)) best = std::move(sheets);
  }
  return best;
}

}  // namespace

bool fits(const FlatSize& piece, const FlatSize& sheet, bool may_turn) {
  return holds(sheet, piece) || (may_turn && holds(sheet, turned(piece)));
}

std::vector<CutSheet> nest_sheets(const std::vector<FlatSize>& pieces, const SheetRules& rules) {
  std::vector<CutSheet> all;
  for (std::size_t first = 0; first < pieces.size(); first += kMostTogether) {
    const std::size_t count = std::min(kMostTogether, pieces.size() - first);
    const auto begin = pieces.begin() + static_cast<std::ptrdiff_t>(first);
    for (CutSheet& cut : nest_together({begin, begin + static_cast<std::ptrdiff_t>(count)}, rules)) {
      for (PlacedPiece& piece : cut.pieces) piece.piece += first;
      all.push_back(std::move(cut));
    }
  }
  return all;
}

double bought_area_m2(const std::vector<CutSheet>& sheets) {
  ExactSum sum;
  for (const CutSheet& cut : sheets) sum.add(metres(cut.sheet.width) * metres(cut.sheet.length));
  return sum.total();
}

namespace {

constexpr double kRoundingOfShare = 1.0e-9;
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
  const double sheets = std::ceil(Bound(pieces, rules).best() / whole * (1.0 - kRoundingOfShare));
  return sheets * whole / kSquareMicrometresPerSquareMetre;
}

}  // namespace panel_dossier::quantities
