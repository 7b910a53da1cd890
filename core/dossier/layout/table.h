// Tables: column widths from content, figures aligned on the decimal point, heads repeated over pages.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/dossier/layout/flow.h"

namespace panel_dossier {

struct VerdictCount {
  Verdict verdict = Verdict::pass;
  std::size_t count = 0;
};

struct Cell {
  std::string text;
  std::optional<Verdict> mark;  ///< its shape stands before the text
  std::string link;             ///< anchor; may be empty
  bool bold = false;
  std::string page_of;               ///< anchor whose page label stands here instead of text
  std::vector<VerdictCount> counts;  ///< marks with numbers instead of text
  std::optional<double> bar;         ///< a share of 1, drawn as a bar with its figure instead of text

  Cell() = default;
  Cell(std::string words) : text(std::move(words)) {}  // NOLINT(google-explicit-constructor): rows read as lists
  Cell(const char* words) : text(words) {}             // NOLINT(google-explicit-constructor)
};

/// A cell that shows a verdict by mark and word.
Cell verdict_cell(Verdict verdict);
Cell link_cell(std::string text, std::string anchor);

struct ColumnSpec {
  std::string head;
  bool numeric = false;  ///< aligned on the decimal point
};

struct TableSpec {
  std::vector<ColumnSpec> columns;
  std::vector<std::vector<Cell>> rows;  ///< a short row is filled with empty cells
  TextStyle style = type::kTable;
  double row_gap = 3.0;  ///< above and below the lines of a row together, in points
};

/// Widths that use `available` points: natural widths where they fit, the rest of the space going to the columns in
/// proportion to theirs when `fill`; otherwise between minimum and natural width; below the minimum only when even
/// the minima do not fit.
std::vector<double> fit_columns(const std::vector<double>& natural, const std::vector<double>& minimum,
                                double available, bool fill);

/// One table fitted to a width. The document must outlive it.
class TableLayout {
 public:
  TableLayout(PdfDocument& pdf, TableSpec spec, double width, bool fill);

  double head_height() const { return head_height_; }
  double row_height(std::size_t row) const;
  /// The first head of a table is read; the same one again, on a further page or in a further column, is not.
  void draw_head(std::size_t page, double left, double top, bool again = false) const;
  void draw_row(std::size_t row, std::size_t page, double left, double top) const;
  /// Draws lines `first` to `last` of a row that is higher than a page.
  void draw_row_lines(std::size_t row, std::size_t first, std::size_t last, std::size_t page, double left,
                      double top) const;
  std::size_t row_lines(std::size_t row) const;
  double width() const;

 private:
  struct Alignment {
    double before = 0.0;  // widest part before the decimal point
    double whole = 0.0;   // widest number
  };

  PdfDocument& pdf_;
  TableSpec spec_;
  std::vector<double> widths_;
  std::vector<Alignment> alignments_;
  double head_height_ = 0.0;

  double measure(std::string_view text, bool bold) const;
  double measure(const Cell& cell) const;
  double counts_width(const Cell& cell) const;
  void draw_counts(const Cell& cell, std::size_t page, Vec2 at) const;
  void draw_bar(double share, std::size_t page, Vec2 at) const;
  void measure_numbers();
  std::vector<std::string> cell_lines(const Cell& cell, std::size_t column) const;
  std::vector<std::string> head_lines(std::size_t column) const;
  double number_left(std::string_view text, std::size_t column, double column_left) const;
};

/// Height in points of the table as `set_table` sets it on one page, with the gap below it; 0 without rows.
double table_height(PdfDocument& pdf, TableSpec spec);

/// Natural width of the table, in points.
double natural_table_width(PdfDocument& pdf, TableSpec spec);

/// Sets a narrow table in `count` columns, each under its own head, evened out on the last page.
void set_table_in_columns(Flow& flow, TableSpec spec, int count);

/// Sets the table at full width, over as many pages as it takes.
void set_table(Flow& flow, TableSpec spec);

/// The table as blocks for a column of `width` points.
std::vector<Block> table_blocks(PdfDocument& pdf, TableSpec spec, double width);

/// Whether the text is a number, possibly with a relation sign before and a unit behind it.
bool looks_numeric(std::string_view text);

}  // namespace panel_dossier
