#include "core/intake/tables/csv_table.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>

#include "core/api/support/csv_reader.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr const char* kSaveAsCsv = "save the table as CSV in UTF-8, or as .xlsx";

/// Whether the bytes are text at all; reports what they are else.
bool is_text(std::string_view bytes, Reporter& report) {
  constexpr std::string_view kZip = "PK\x03\x04";
  if (bytes.starts_with(kZip)) {
    report.file_error(0, 0, "this is an archive and no text: a workbook under another name", "name it .xlsx");
    return false;
  }
  if (auto fault = encoding_fault(bytes)) {
    if (fault->offset) {
      report.error_at_offset(*fault->offset, std::move(fault->message), kSaveAsCsv);
    } else {
      report.file_error(0, 0, std::move(fault->message), kSaveAsCsv);
    }
    return false;
  }
  if (const std::size_t zero = bytes.find('\0'); zero != std::string_view::npos) {
    report.error_at_offset(zero, "the file holds a zero byte, as no text does", kSaveAsCsv);
    return false;
  }
  return true;
}

/// The first line that is neither empty nor a comment, as far as its quotes reach.
std::string_view head_line(std::string_view text) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  while (!text.empty() && (text.front() == '#' || text.front() == '\n' || text.front() == '\r')) {
    const std::size_t end = text.find_first_of("\r\n");
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  bool is_quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"') is_quoted = !is_quoted;
    if (!is_quoted && (text[i] == '\n' || text[i] == '\r')) return text.substr(0, i);
  }
  return text;
}

/// A comma may stand inside a title; a semicolon or a tab hardly ever does.
char separator_of(std::string_view head) {
  std::array<std::size_t, 3> counts{};
  constexpr std::array<char, 3> kSeparators{';', '\t', ','};
  bool is_quoted = false;
  for (const char c : head) {
    if (c == '"') is_quoted = !is_quoted;
    for (std::size_t i = 0; i < kSeparators.size(); ++i) counts[i] += !is_quoted && c == kSeparators[i] ? 1 : 0;
  }
  for (std::size_t i = 0; i < kSeparators.size(); ++i) {
    if (counts[i] != 0) return kSeparators[i];
  }
  return ',';
}

std::string fields_fault(std::size_t fields, std::size_t head_fields) {
  return "the row has " + std::to_string(fields) + (fields == 1 ? " field" : " fields") + " and the head row " +
         std::to_string(head_fields);
}

/// Reports rows of another length than the head: each, or the separator once where no row has its length.
void report_ragged(const std::vector<GridRow>& rows, char separator, Reporter& report) {
  const std::size_t wanted = rows.front().cells.size();
  std::size_t ragged = 0;
  for (const GridRow& row : rows) ragged += row.cells.size() != wanted ? 1 : 0;
  const std::string name = separator == '\t' ? "tabs" : std::string("'") + separator + "'";
  if (ragged != 0 && ragged + 1 == rows.size()) {
    report.file_error(rows[1].number, 0,
                      "the head row is separated by " + name +
                          ", but no row below has as many fields: " + fields_fault(rows[1].cells.size(), wanted),
                      "separate all rows by the same sign, and quote a field that holds it");
    return;
  }
  for (const GridRow& row : rows) {
    if (row.cells.size() == wanted) continue;
    report.file_error(row.number, 0, fields_fault(row.cells.size(), wanted),
                      separator == ',' ? "quote a field with a comma in it; with decimal commas, separate by semicolons"
                                       : "write a field for each column, and quote one that holds the separator");
  }
}

/// The reader of CSV leaves out whole lines that begin with `#`: of one below the head with a field for each column it
/// is told, for a mark may begin so.
void report_comment_rows(std::string_view text, char separator, TableGrid& grid) {
  const std::uint32_t head = grid.rows().front().number;
  std::uint32_t number = 1;
  for (std::size_t at = 0; at < text.size(); ++number) {
    const std::string_view line = text.substr(at, text.find_first_of("\r\n", at) - at);
    at += line.size();
    at += text.substr(at, 2) == "\r\n" ? 2 : 1;
    if (number <= head || !line.starts_with('#')) continue;
    const auto fields = static_cast<std::size_t>(std::count(line.begin(), line.end(), separator)) + 1;
    if (fields == grid.rows().front().cells.size()) return grid.pass_over(number);
  }
}

/// A quote that is not closed takes in the rows below it, up to the next quote.
void report_swallowed_rows(const std::vector<GridRow>& rows, char separator, Reporter& report) {
  constexpr std::size_t kFewestColumns = 3;  // one comma in a line of a note says nothing
  const std::size_t columns = rows.front().cells.size();
  if (columns < kFewestColumns) return;
  const auto holds_row = [&](const std::string& cell) {
    const std::vector<std::string> lines = split(cell, '\n');
    return lines.size() > 1 && std::any_of(lines.begin() + 1, lines.end(), [&](const std::string& line) {
             return static_cast<std::size_t>(std::count(line.begin(), line.end(), separator)) + 1 == columns;
           });
  };
  for (const GridRow& row : rows) {
    const auto found = std::find_if(row.cells.begin(), row.cells.end(), holds_row);
    if (found == row.cells.end()) continue;
    report.add({Severity::warning,
                {},
                row.number,
                static_cast<std::uint32_t>(found - row.cells.begin()) + 1,
                {},
                {},
                "the quoted cell holds a line that looks like a row of the table, which is not read as one",
                "close the quote where the cell ends, if it is a row"});
  }
}

}  // namespace

char read_csv_grid(std::string_view text, TableGrid& grid, Reporter& report) {
  report.set_lines(LineTable(text));
  if (!is_text(text, report)) return ',';
  const char separator = separator_of(head_line(text));
  CsvReader reader(text, separator);
  try {
    for (CsvRecord record; reader.next(record);) {
      // A line that begins with `#` does not come here, so the field is quoted.
      const bool is_quoted = record.fields.front().starts_with('#');
      GridRow row{static_cast<std::uint32_t>(record.line), std::move(record.fields), is_quoted};
      if (!grid.add(std::move(row))) return separator;
    }
  } catch (const CsvFault& fault) {
    report.file_error(static_cast<std::uint32_t>(fault.line()), 0, fault.what(), "write the field as RFC 4180 does");
    return separator;
  }
  if (grid.rows().empty()) return separator;
  if (grid.rows().front().cells.size() == 1) {
    report.file_error(grid.rows().front().number, 0, "the head row has one column only",
                      "separate the columns by commas, semicolons or tabs");
    return separator;
  }
  report_ragged(grid.rows(), separator, report);
  report_comment_rows(text, separator, grid);
  report_swallowed_rows(grid.rows(), separator, report);
  return separator;
}

}  // namespace panel_dossier
