// How large a table may be: far above what an office keeps by hand, far below what would fill the machine.
#pragma once

#include <cstddef>

namespace panel_dossier {

/// As it lies on the disk: 100,000 panels with ten rows each of 60 bytes.
inline constexpr std::size_t kLargestTableFile_bytes = std::size_t{64} << 20U;
/// One part of a workbook, unpacked.
inline constexpr std::size_t kLargestWorkbookPart_bytes = std::size_t{64} << 20U;
/// Tags and attributes of one part, which become nodes of at most 64 bytes each: below half a gigabyte.
inline constexpr std::size_t kMostWorkbookNodes = 8'000'000;
/// Repetitive sheets pack to a thirtieth; deflate itself ends at a thousandth, where only zeros lie.
inline constexpr std::size_t kLargestPackingRatio = 250;
/// Below this size the ratio says nothing.
inline constexpr std::size_t kSmallestPartOfRatio_bytes = std::size_t{1} << 20U;
/// Sheets, drawings and settings of a workbook; a hundred sheets make a few hundred.
inline constexpr std::size_t kMostWorkbookEntries = 2000;
inline constexpr std::size_t kMostTableRows = 250'000;
inline constexpr std::size_t kMostTableColumns = 400;
/// All cells of a table together, the empty ones included: each takes 32 bytes.
inline constexpr std::size_t kMostTableCells = 4'000'000;
/// What a cell of a workbook may hold (ISO/IEC 29500-1 leaves it open; programs of the trade end here).
inline constexpr std::size_t kLongestCell_bytes = 32'767;
/// The texts of all cells together; texts of a workbook may be shared by cells.
inline constexpr std::size_t kMostCellText_bytes = std::size_t{64} << 20U;

}  // namespace panel_dossier
