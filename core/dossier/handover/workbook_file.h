// A workbook (.xlsx) being written, row after row. The only file that knows libxlsxwriter is its source.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"

namespace panel_dossier {

/// A cell of the head row.
struct HeadCell {
  std::string text;
  double width = 0.0;      ///< of the column, in characters; 0: as the text needs
  std::uint32_t fill = 0;  ///< colour 0xRRGGBB behind the text; 0: the sheets' own
};

/// The whole file, with the build's time as that of its making, so that the same content gives the same bytes. Texts
/// are always cells of text: what begins with `=` is shown and never computed. Characters that would hide text or turn
/// it round are shown as `<U+202E>`; what is longer than a cell may be ends in a word that says so. One thread.
class WorkbookFile {
 public:
  /// Columns and rows that one sheet can hold (ISO/IEC 29500-1, 18.3.1.73, and the programs of the trade).
  static constexpr std::size_t kMostRows = 1'048'576;
  /// Characters of a cell.
  static constexpr std::size_t kLongestText = 32'767;

  /// `time_utc` is ISO 8601 as in BuildSummary. Throws std::runtime_error naming the file when it cannot be begun.
  WorkbookFile(std::filesystem::path file, const std::string& title, std::string_view time_utc);
  ~WorkbookFile();
  WorkbookFile(const WorkbookFile&) = delete;
  WorkbookFile& operator=(const WorkbookFile&) = delete;

  /// Begins the next sheet. The name becomes one that a workbook can hold and that stands once in this one, and is
  /// returned.
  std::string begin_sheet(const std::string& name);
  /// The first row of a table: it stays in sight when one scrolls, and rows can be filtered by its columns.
  void head(const std::vector<HeadCell>& cells);
  /// The next row. Nothing leaves a cell empty.
  void row(const std::vector<Value>& cells, bool is_title = false);
  /// Widths of the columns from the first on, before any row.
  void widths(const std::vector<double>& characters);
  /// Rows of the sheet so far.
  std::size_t rows() const;

  /// Writes the file and reads it back. Throws std::runtime_error naming it when it cannot be written, or not whole.
  void close();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// The text where a cell can hold it; else its beginning in whole characters, and a word that there was more.
std::string cut_to_cell(std::string text);

}  // namespace panel_dossier
