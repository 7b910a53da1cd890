// The cells of a table as numbers, days, logical values and texts.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "core/intake/tables/input_table.h"

namespace panel_dossier {

/// What cannot be read is an error that names row, column and cell, and gives none; so does an empty cell, without an
/// error. The table and the reporter, which is of the table's file, must outlive it. Belongs to one thread.
class CellReader {
 public:
  CellReader(const InputTable& table, Reporter& report);

  /// A number with a decimal point. A decimal comma is taken where the table allows it, which is warned of once;
  /// `1,250` only where another cell shows that commas are decimal ones. Separators of thousands, units behind the
  /// number, percent signs and, in a CSV file, points beside decimal commas are refused.
  std::optional<double> number(const TableRow& row, std::size_t column);

  /// A day as `YYYY-MM-DD`; a time behind it is left out.
  std::optional<std::string> day(const TableRow& row, std::size_t column);

  /// `true`, `yes` or `1`; `false`, `no` or `0`; in either case.
  std::optional<bool> logical(const TableRow& row, std::size_t column);

  /// Empty for an empty cell.
  const std::string& text(const TableRow& row, std::size_t column) const { return row.cells[column]; }

  /// An error about a cell: `Density [kg/m³] '4O0' is no number`.
  void error(const TableRow& row, std::size_t column, const std::string& what, const std::string& advice);
  /// The same as a warning, for a cell that is read nevertheless or passed over.
  void warning(const TableRow& row, std::size_t column, const std::string& what, const std::string& advice);

 private:
  const InputTable& table_;
  Reporter& report_;
  bool has_decimal_commas_ = false;  ///< some cell of the table is a number that can be read with a decimal comma only
  bool has_told_of_comma_ = false;

  std::optional<double> number_with_comma(const TableRow& row, std::size_t column, double value);
  void add(Severity severity, const TableRow& row, std::size_t column, const std::string& what,
           const std::string& advice);
};

}  // namespace panel_dossier
