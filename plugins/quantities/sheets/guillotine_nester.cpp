#include "plugins/quantities/sheets/guillotine_nester.h"

#include <algorithm>
#include <numeric>

namespace panel_dossier::quantities {

namespace {

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

}  // namespace

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

}  // namespace panel_dossier::quantities
