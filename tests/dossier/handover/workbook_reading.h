// Workbooks that the program wrote, read back by the reader of the intake, which knows nothing of the writer.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/intake/tables/workbook.h"
#include "tests/dossier/synthetic_project.h"

namespace panel_dossier::test {

/// Rows of a sheet, the head first, each filled up to the width of the head.
using SheetRows = std::vector<std::vector<std::string>>;

struct ReadBook {
  std::vector<std::string> names;  ///< in the order of the workbook
  std::map<std::string, SheetRows> sheets;
};

/// Throws std::runtime_error with the first problem of reading.
inline ReadBook read_book(const std::filesystem::path& file) {
  const std::string bytes = bytes_of(file);
  Reporter report(file.filename().string());
  Workbook workbook(bytes, report);
  ReadBook read;
  read.names = workbook.sheets();
  for (const std::string& name : read.names) {
    TableGrid grid(report);
    workbook.read(name, grid);
    SheetRows rows;
    std::size_t width = 0;
    for (GridRow& row : grid.take_rows()) {
      width = std::max(width, row.cells.size());
      rows.push_back(std::move(row.cells));
    }
    for (auto& row : rows) row.resize(width);
    read.sheets[name] = std::move(rows);
  }
  const Diagnostics problems = report.take();
  if (!problems.empty()) throw std::runtime_error(problems.front().message);
  return read;
}

}  // namespace panel_dossier::test
