// Whether a workbook that was written holds everything that was put into it.
#pragma once

#include <cstddef>
#include <filesystem>
#include <vector>

namespace panel_dossier {

struct SheetCounts {
  std::size_t rows = 0;   ///< with a cell in them
  std::size_t cells = 0;  ///< with something in them
};

/// The library that writes workbooks keeps rows in temporary files and does not notice when a full disk swallows some
/// of them. Reads the sheets back, in the workbook's order, and throws std::runtime_error naming the file when one of
/// them has fewer or more rows or cells than were written.
void require_written(const std::filesystem::path& file, const std::vector<SheetCounts>& written);

}  // namespace panel_dossier
