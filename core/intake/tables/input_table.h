// A table that people keep beside the project, as CSV or as a sheet of a workbook: its head and its rows.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/origin.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// The head `Thermal conductivity [W/(m·K)]` is a title and a unit.
struct TableColumn {
  std::string title;
  std::string unit;          ///< as written; empty where the head gives none
  std::uint32_t number = 0;  ///< in the sheet or file, from 1
};

struct TableRow {
  std::uint32_t number = 0;        ///< row of the sheet or line of the file, from 1
  std::vector<std::string> cells;  ///< one for each column, without white space around; empty where nothing stands
};

/// Immutable once read.
struct InputTable {
  std::string file;            ///< as shown to people
  std::string sheet;           ///< empty for a CSV file
  std::uint32_t head_row = 0;  ///< row or line of the titles
  std::vector<TableColumn> columns;
  std::vector<TableRow> rows;
  /// Where no comma separates the fields, one may stand in a number: in a file with semicolons or tabs, in a workbook.
  bool takes_decimal_comma = false;

  /// Of the column with this title, in either case; none where there is none.
  std::optional<std::size_t> column(std::string_view title) const;
};

/// The bytes of a table's file; none when it is not there, is no file or is too large, which is reported.
std::optional<std::string> load_table_file(const std::filesystem::path& file, const std::string& shown_name,
                                           Diagnostics& diagnostics);

/// The sheets with cells of a workbook, in its order; none for bytes of a CSV file, which has none. Reports a workbook
/// that cannot be read.
std::vector<std::string> sheets_of(std::string_view bytes, const std::string& shown_name, Diagnostics& diagnostics);

/// Reads a table from bytes; `shown_name` tells by its ending what they are (`.csv` or `.xlsx`). Of a workbook the
/// sheet `sheet` is read, in either case, else its only one. Empty rows and those that begin with `#` are passed over;
/// the first other row is the head. None when anything is wrong with the form of the table, which is reported with row
/// and column, all of it in one run: no text in UTF-8, rows longer or shorter than the head, a title that stands twice
/// or is missing above cells, merged cells, a formula without a value, a table beyond the limits.
std::optional<InputTable> read_input_table(std::string_view bytes, const std::string& shown_name,
                                           const std::string& sheet, Diagnostics& diagnostics);

/// The same for a file; the sheet is the one named like the file without its ending.
std::optional<InputTable> read_input_table(const std::filesystem::path& file, const std::string& shown_name,
                                           Diagnostics& diagnostics);

/// The place of a value: file with its sheet, row, and `property`, the column or what it stands for; `source` as the
/// row names it.
Origin table_origin(const InputTable& table, const TableRow& row, std::string property, std::string source = {});

/// `materials.csv row 12`: for messages that name a row of another table.
std::string place_of(const InputTable& table, const TableRow& row);

}  // namespace panel_dossier
