// One pass of nesting: free rectangles filled piece by piece, divided by cuts from edge to edge.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "plugins/quantities/sheets/sheet_nesting.h"

namespace panel_dossier::quantities {

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

}  // namespace panel_dossier::quantities
