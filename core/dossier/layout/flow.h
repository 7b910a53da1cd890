// Running matter: a cursor that moves down the page and on to the next one.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "core/dossier/layout/pdf_document.h"
#include "core/dossier/layout/style.h"

namespace panel_dossier {

/// What head and foot of one page say besides what all pages say.
struct PageFurniture {
  std::string part;          ///< running head
  std::string caution = {};  ///< boxed above the foot, not on the pages that follow by overflow; may be empty
  bool front_matter = false;
};

/// A piece of matter of known height that is not split.
struct Block {
  double height = 0.0;
  bool keep_with_next = false;
  std::function<void(std::size_t page, double left, double top)> draw;
};

/// Fills pages from top to bottom. Owns no page; the document must outlive it. Not thread-safe.
class Flow {
 public:
  explicit Flow(PdfDocument& pdf) : pdf_(pdf) {}

  PdfDocument& pdf() { return pdf_; }
  std::size_t page() const { return furniture_.size() - 1; }
  double y() const { return y_; }
  /// Height left on the page.
  double room() const { return y_ - bottom_; }
  /// Height of an empty page under the present furniture.
  double page_room() const { return grid::kTop - bottom_; }

  /// Starts a page under new furniture.
  void start_page(PageFurniture furniture);
  /// Goes on to the next page under the same furniture, without its caution.
  void next_page();
  /// Goes on to the next page unless `height` is left on this one.
  void need(double height);
  /// Takes an area of full width; the caller draws into it. Higher than a page is refused by std::logic_error.
  Rect take(double height);
  void skip(double height) { y_ -= height; }
  /// Moves the cursor down to `y`.
  void move_to(double y) { y_ = y; }

  /// Wrapped text of full width; breaks over pages between lines.
  void paragraph(std::string_view text, const TextStyle& style = type::kBody, double indent = 0.0);
  /// A paragraph behind a short dash.
  void item(std::string_view text, const TextStyle& style = type::kBody);
  /// Leads links to the line that was set last, a heading.
  void anchor(const std::string& name);
  /// A heading that stays with at least `follow` points of what comes next: the head and a first row of a table.
  void heading(std::string_view text, const TextStyle& style = type::kHeading, double follow = 64.0);

  /// Columns start on a new page when less than this is left; a heading before them should ask for it.
  double least_column_height() const { return page_room() / 8.0; }
  /// Sets blocks in columns of equal width, evened out on the last page. Returns when the cursor is below all of them.
  void columns(const std::vector<Block>& blocks, int count);

  const std::vector<PageFurniture>& furniture() const { return furniture_; }

 private:
  PdfDocument& pdf_;
  std::vector<PageFurniture> furniture_;
  double y_ = grid::kTop;
  double bottom_ = grid::kBottom;

  std::vector<std::string> lines(std::string_view text, const TextStyle& style, double width) const;
  void set_lines(std::string_view text, const TextStyle& style, double indent);
};

/// Left edge and width of column `index` of `count`.
Rect column_span(int index, int count, double gap = grid::kColumnGap);

/// Lines of the caution box above the foot.
std::vector<std::string> caution_lines(const PdfDocument& pdf, const std::string& caution);
/// Height that the caution box takes away from the page; 0 without a caution.
double caution_height(std::size_t lines);

}  // namespace panel_dossier
