#include "plugins/quantities/sheet_nesting.h"

#include <algorithm>
#include <array>
#include <limits>
#include <numeric>
#include <optional>

#include "core/api/exact_sum.h"

namespace panel_dossier::quantities {

namespace {

enum class Order { area, length, width, longer_side, girth };
enum class Fit { area, short_side };
enum class Division { shorter_rest, longer_rest, largest_rest };

struct Strategy {
  Order order = Order::area;
  Fit fit = Fit::area;
  Division division = Division::shorter_rest;
  std::size_t opened = 0;  ///< size of sheet to open where the piece fits it
};

struct FreeRectangle {
  std::size_t sheet = 0;
  Micrometres x = 0;
  Micrometres y = 0;
  FlatSize size;
};

Micrometres area_of(const FlatSize& size) {
  return size.width * size.length;
}

FlatSize turned(const FlatSize& size) {
  return {size.length, size.width};
}

bool holds(const FlatSize& sheet, const FlatSize& piece) {
  return piece.width <= sheet.width && piece.length <= sheet.length;
}

Micrometres order_key(const FlatSize& piece, Order order) {
  switch (order) {
    case Order::area: return area_of(piece);
    case Order::length: return piece.length;
    case Order::width: return piece.width;
    case Order::longer_side: return std::max(piece.width, piece.length);
    case Order::girth: break;
  }
  return piece.width + piece.length;
}

std::vector<std::size_t> ordered(const std::vector<FlatSize>& pieces, Order order) {
  std::vector<std::size_t> indices(pieces.size());
  std::iota(indices.begin(), indices.end(), std::size_t{0});
  std::stable_sort(indices.begin(), indices.end(), [&](std::size_t a, std::size_t b) {
    const Micrometres key_a = order_key(pieces[a], order);
    const Micrometres key_b = order_key(pieces[b], order);
    return key_a != key_b ? key_a > key_b : area_of(pieces[a]) > area_of(pieces[b]);
  });
  return indices;
}

/// One pass over the pieces with one strategy.
class Nester {
 public:
  Nester(const std::vector<FlatSize>& pieces, const SheetRules& rules, const Strategy& strategy)
      : pieces_(pieces), rules_(rules), strategy_(strategy) {
    for (const FlatSize& piece : pieces) {
      const bool turns = rules.may_turn && piece.length < piece.width;
      least_width_ = std::min(least_width_, turns ? piece.length : piece.width);
      least_length_ = std::min(least_length_, rules.may_turn ? std::min(piece.width, piece.length) : piece.length);
    }
  }

  std::vector<CutSheet> run() {
    for (const std::size_t piece : ordered(pieces_, strategy_.order)) place(piece);
    return std::move(sheets_);
  }

 private:
  const std::vector<FlatSize>& pieces_;
  const SheetRules& rules_;
  Strategy strategy_;
  Micrometres least_width_ = std::numeric_limits<Micrometres>::max();
  Micrometres least_length_ = std::numeric_limits<Micrometres>::max();
  std::vector<CutSheet> sheets_;
  std::vector<FreeRectangle> free_;

  struct Place {
    std::size_t rectangle = 0;
    FlatSize size;
    Micrometres waste = std::numeric_limits<Micrometres>::max();
  };

  void place(std::size_t piece) {
    std::optional<Place> found = best_place(pieces_[piece]);
    if (!found) {
      open_sheet(pieces_[piece]);
      found = Place{free_.size() - 1, oriented(pieces_[piece], free_.back().size), 0};
    }
    const FreeRectangle rectangle = free_[found->rectangle];
    free_[found->rectangle] = free_.back();
    free_.pop_back();
    sheets_[rectangle.sheet].pieces.push_back({piece, rectangle.x, rectangle.y, found->size});
    divide(rectangle, found->size);
  }

  std::optional<Place> best_place(const FlatSize& piece) const {
    Place best;
    for (std::size_t i = 0; i < free_.size(); ++i) {
      consider(i, piece, best);
      if (rules_.may_turn) consider(i, turned(piece), best);
    }
    return best.waste == std::numeric_limits<Micrometres>::max() ? std::nullopt : std::optional(best);
  }

  void consider(std::size_t rectangle, const FlatSize& piece, Place& best) const {
    const FlatSize& room = free_[rectangle].size;
    if (!holds(room, piece)) return;
    const Micrometres waste = strategy_.fit == Fit::area
                                  ? area_of(room) - area_of(piece)
                                  : std::min(room.width - piece.width, room.length - piece.length);
    if (waste < best.waste) best = {rectangle, piece, waste};
  }

  /// As given where it fits so, else turned.
  static FlatSize oriented(const FlatSize& piece, const FlatSize& room) {
    return holds(room, piece) ? piece : turned(piece);
  }

  /// The strategy's size where the piece fits it, else the smallest that holds it.
  void open_sheet(const FlatSize& piece) {
    const FlatSize* size = &rules_.sizes[strategy_.opened];
    if (!fits(piece, *size, rules_.may_turn)) {
      size = nullptr;
      for (const FlatSize& candidate : rules_.sizes) {
        if (!fits(piece, candidate, rules_.may_turn)) continue;
        if (size == nullptr || area_of(candidate) < area_of(*size)) size = &candidate;
      }
    }
    sheets_.push_back({*size, {}});
    free_.push_back({sheets_.size() - 1, 0, 0, *size});
  }

  /// What is left beside and behind the piece, parted by one cut from edge to edge.
  void divide(const FreeRectangle& from, const FlatSize& piece) {
    const Micrometres beside = from.size.width - piece.width - rules_.kerf;
    const Micrometres behind = from.size.length - piece.length - rules_.kerf;
    const bool cut_across = cuts_across(from.size, piece, beside, behind);
    keep({from.sheet,
          from.x + piece.width + rules_.kerf,
          from.y,
          {beside, cut_across ? piece.length : from.size.length}});
    keep({from.sheet,
          from.x,
          from.y + piece.length + rules_.kerf,
          {cut_across ? from.size.width : piece.width, behind}});
  }

  /// True when the rest behind keeps the full width.
  bool cuts_across(const FlatSize& room, const FlatSize& piece, Micrometres beside, Micrometres behind) const {
    switch (strategy_.division) {
      case Division::shorter_rest: return beside < behind;
      case Division::longer_rest: return beside >= behind;
      case Division::largest_rest: break;
    }
    const Micrometres across = std::max(room.width * behind, beside * piece.length);
    return across >= std::max(piece.width * behind, beside * room.length);
  }

  /// Rests that no piece fits are offcuts for good.
  void keep(const FreeRectangle& rest) {
    if (rest.size.width >= least_width_ && rest.size.length >= least_length_) free_.push_back(rest);
  }
};

/// Smaller sheets where what was cut fits them.
void shrink(std::vector<CutSheet>& sheets, const SheetRules& rules) {
  for (CutSheet& cut : sheets) {
    FlatSize extent;
    for (const PlacedPiece& piece : cut.pieces) {
      extent.width = std::max(extent.width, piece.x + piece.size.width);
      extent.length = std::max(extent.length, piece.y + piece.size.length);
    }
    for (const FlatSize& size : rules.sizes) {
      if (holds(size, extent) && area_of(size) < area_of(cut.sheet)) cut.sheet = size;
    }
  }
}

/// Whole square micrometres; 63 bits hold nine square kilometres.
Micrometres total_area(const std::vector<CutSheet>& sheets) {
  Micrometres total = 0;
  for (const CutSheet& cut : sheets) total += area_of(cut.sheet);
  return total;
}

}  // namespace

bool fits(const FlatSize& piece, const FlatSize& sheet, bool may_turn) {
  return holds(sheet, piece) || (may_turn && holds(sheet, turned(piece)));
}

std::vector<CutSheet> nest_sheets(const std::vector<FlatSize>& pieces, const SheetRules& rules) {
  std::vector<CutSheet> best;
  for (std::size_t opened = 0; opened < rules.sizes.size(); ++opened) {
    for (const Order order : {Order::area, Order::length, Order::width, Order::longer_side, Order::girth}) {
      for (const Fit fit : {Fit::area, Fit::short_side}) {
        for (const Division division : {Division::shorter_rest, Division::longer_rest, Division::largest_rest}) {
          std::vector<CutSheet> sheets = Nester(pieces, rules, {order, fit, division, opened}).run();
          shrink(sheets, rules);
          if (best.empty() || total_area(sheets) < total_area(best)) best = std::move(sheets);
        }
      }
    }
  }
  return best;
}

double bought_area_m2(const std::vector<CutSheet>& sheets) {
  ExactSum sum;
  for (const CutSheet& cut : sheets) sum.add(metres(cut.sheet.width) * metres(cut.sheet.length));
  return sum.total();
}

}  // namespace panel_dossier::quantities
