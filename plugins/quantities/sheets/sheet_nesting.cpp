#include "plugins/quantities/sheets/sheet_nesting.h"

#include <algorithm>
#include <cstddef>
#include <map>

#include "core/api/support/exact_sum.h"
#include "plugins/quantities/sheets/guillotine_nester.h"

namespace panel_dossier::quantities {

namespace {

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

}  // namespace panel_dossier::quantities
