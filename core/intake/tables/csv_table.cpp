#include "core/intake/tables/csv_table.h"

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

}  // namespace

char read_csv_grid(std::string_view text, TableGrid& grid, Reporter& report) {
  report.set_lines(LineTable(text));
  if (!is_text(text, report)) return ',';
  const char separator = separator_of(head_line(text));
  CsvReader reader(text, separator);
  try {
    for (CsvRecord record; reader.next(record);) {
      GridRow row{static_cast<std::uint32_t>(record.line), std::move(record.fields)};
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
  return separator;
}

}  // namespace panel_dossier
