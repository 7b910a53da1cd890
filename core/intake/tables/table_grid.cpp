#include "core/intake/tables/table_grid.h"

#include <algorithm>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/tables/table_limits.h"

namespace panel_dossier {

bool TableGrid::refuse(const GridRow& row, std::size_t column, const std::string& what) {
  report_.file_error(row.number, static_cast<std::uint32_t>(column), what,
                     "keep the rows and columns of this table only, and split what is larger into several files");
  return false;
}

void TableGrid::pass_over(std::uint32_t number) {
  if (std::exchange(has_told_of_comment_, true)) return;
  report_.add({Severity::warning,
               {},
               number,
               0,
               {},
               {},
               "the row begins with '#' and is passed over as a comment; others like it are too",
               "quote the cell in a CSV file, or put another column first, if it is a row of the table"});
}

bool TableGrid::add(GridRow row) {
  if (!row.cells.empty() && trimmed(row.cells.front()).starts_with('#')) {
    const bool is_alone = std::all_of(row.cells.begin() + 1, row.cells.end(),
                                      [](const std::string& cell) { return trimmed(cell).empty(); });
    if (is_alone || !row.is_quoted) {
      if (!is_alone && !rows_.empty()) pass_over(row.number);
      return true;
    }
  }
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    std::string& cell = row.cells[i];
    if (cell.size() > kLongestCell_bytes) {
      return refuse(row, i + 1, "a cell is longer than " + std::to_string(kLongestCell_bytes) + " bytes");
    }
    cell = std::string(trimmed(cell));
    text_bytes_ += cell.size();
  }
  const bool is_empty = std::all_of(row.cells.begin(), row.cells.end(), [](const auto& cell) { return cell.empty(); });
  if (is_empty) return true;
  cells_ += row.cells.size();
  if (row.cells.size() > kMostTableColumns) {
    return refuse(row, 0, "the table has more than " + std::to_string(kMostTableColumns) + " columns");
  }
  if (rows_.size() > kMostTableRows) {
    return refuse(row, 0, "the table has more than " + std::to_string(kMostTableRows) + " rows");
  }
  if (cells_ > kMostTableCells) {
    return refuse(row, 0, "the table has more than " + std::to_string(kMostTableCells) + " cells");
  }
  if (text_bytes_ > kMostCellText_bytes) {
    return refuse(row, 0, "the texts of the table are longer than " + std::to_string(kMostCellText_bytes) + " bytes");
  }
  rows_.push_back(std::move(row));
  return true;
}

}  // namespace panel_dossier
