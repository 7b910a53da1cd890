// The cells of a table as they stand, before its first row is taken as the head.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

struct GridRow {
  std::uint32_t number = 0;  ///< row of the sheet or line of the file, from 1
  std::vector<std::string> cells;
  bool is_quoted = false;  ///< the first cell is, so that its `#` begins no comment where more stands beside it
};

/// Rows with something in them that are no comment, in their order. Adding keeps to the limits of tables and reports
/// the first that is passed.
class TableGrid {
 public:
  explicit TableGrid(Reporter& report) : report_(report) {}

  /// False when the table has grown beyond its limits, which is reported; nothing more needs to be read then.
  bool add(GridRow row);

  /// Tells, once, that the row of this number is passed over as a comment though it looks like one of the table.
  void pass_over(std::uint32_t number);

  const std::vector<GridRow>& rows() const { return rows_; }
  std::vector<GridRow> take_rows() { return std::move(rows_); }

 private:
  Reporter& report_;
  std::vector<GridRow> rows_;
  std::size_t cells_ = 0;
  std::size_t text_bytes_ = 0;
  bool has_told_of_comment_ = false;

  bool refuse(const GridRow& row, std::size_t column, const std::string& what);
};

}  // namespace panel_dossier
