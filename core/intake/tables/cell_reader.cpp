#include "core/intake/tables/cell_reader.h"

#include <algorithm>
#include <string_view>

#include "core/api/support/iso_date.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kDigits = "0123456789";

/// The number of a text with one comma and no point, the comma read as a decimal one.
std::optional<double> with_decimal_comma(const std::string& text) {
  if (std::count(text.begin(), text.end(), ',') != 1 || text.find('.') != std::string::npos) return std::nullopt;
  std::string pointed = text;
  std::replace(pointed.begin(), pointed.end(), ',', '.');
  return parse_decimal(pointed);
}

/// `T16:30`, `T16:30:05.250` and these with `Z` or a zone `+02:00` behind: ISO 8601-1.
bool is_time_of_day(std::string_view text) {
  const auto take = [&text](std::string_view pattern) {
    if (text.size() < pattern.size()) return false;
    for (std::size_t i = 0; i < pattern.size(); ++i) {
      const bool is_digit = text[i] >= '0' && text[i] <= '9';
      if (pattern[i] == '0' ? !is_digit : text[i] != pattern[i]) return false;
    }
    text.remove_prefix(pattern.size());
    return true;
  };
  if (!take("T00:00")) return false;
  if (take(":00") && take(".0")) text.remove_prefix(std::min(text.find_first_not_of(kDigits), text.size()));
  return text.empty() || text == "Z" || ((take("+00:00") || take("-00:00")) && text.empty());
}

/// `1,234` may be a number of thousands as well as one with three decimals.
bool looks_like_thousands(std::string_view text) {
  constexpr std::size_t kCommaAndGroup = 4;
  const std::size_t comma = text.find(',');
  const std::size_t sign = text.starts_with('-') || text.starts_with('+') ? 1 : 0;
  const std::string_view whole = text.substr(sign, comma - sign);
  return text.size() - comma == kCommaAndGroup && !whole.empty() && whole != "0" && whole.size() < kCommaAndGroup;
}

}  // namespace

void CellReader::add(Severity severity, const TableRow& row, std::size_t column, const std::string& what,
                     const std::string& advice) {
  constexpr std::size_t kLongestQuoted = 60;
  const TableColumn& head = table_.columns[column];
  const std::string& cell = row.cells[column];
  std::string message = "column '" + head.title + "': ";
  if (!cell.empty()) {
    // Cut between two characters of UTF-8.
    std::size_t end = std::min(cell.size(), kLongestQuoted);
    while (end < cell.size() && end > 0 && (static_cast<unsigned char>(cell[end]) & 0xC0U) == 0x80U) --end;
    message += "'" + cell.substr(0, end) + (end < cell.size() ? "…' " : "' ");
  }
  report_.add({severity, {}, row.number, head.number, {}, {}, message + what, advice});
}

void CellReader::error(const TableRow& row, std::size_t column, const std::string& what, const std::string& advice) {
  add(Severity::error, row, column, what, advice);
}

void CellReader::warning(const TableRow& row, std::size_t column, const std::string& what, const std::string& advice) {
  add(Severity::warning, row, column, what, advice);
}

CellReader::CellReader(const InputTable& table, Reporter& report) : table_(table), report_(report) {
  if (!table.takes_decimal_comma) return;
  has_decimal_commas_ = std::any_of(table.rows.begin(), table.rows.end(), [](const TableRow& row) {
    return std::any_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) {
      return with_decimal_comma(cell).has_value() && !looks_like_thousands(cell);
    });
  });
}

std::optional<double> CellReader::number(const TableRow& row, std::size_t column) {
  const std::string& cell = row.cells[column];
  if (cell.empty()) return std::nullopt;
  const auto refuse = [&](const char* what, const char* advice) {
    error(row, column, what, advice);
    return std::nullopt;
  };
  if (const auto value = parse_decimal(cell)) {
    // A workbook keeps its numbers with a point whatever a person sees.
    const bool is_mixed = has_decimal_commas_ && table_.sheet.empty() && cell.find('.') != std::string::npos;
    if (!is_mixed) return value;
    return refuse("has a point where other cells of the file have a decimal comma",
                  "write all numbers of the file in one way, without separators of thousands");
  }
  if (const auto value = with_decimal_comma(cell)) return number_with_comma(row, column, *value);
  if (cell.ends_with('%')) return refuse("has a percent sign", "write the number in the unit of the column's head");
  return refuse("is no number", "write digits with a decimal point, without unit and without separators of thousands");
}

std::optional<double> CellReader::number_with_comma(const TableRow& row, std::size_t column, double value) {
  if (!table_.takes_decimal_comma) {
    error(row, column, "has a comma where commas separate the fields", "write a decimal point");
    return std::nullopt;
  }
  if (!has_decimal_commas_ && looks_like_thousands(row.cells[column])) {
    error(row, column, "may be a number of thousands or one with three decimals",
          "write a decimal point, and no separator of thousands");
    return std::nullopt;
  }
  if (!has_told_of_comma_) {
    has_told_of_comma_ = true;
    warning(row, column, "has a decimal comma; read as " + shortest_text(value) + ", and all others of the file so",
            "a decimal point leaves no doubt");
  }
  return value;
}

std::optional<std::string> CellReader::day(const TableRow& row, std::size_t column) {
  constexpr std::size_t kLengthOfDay = 10;
  const std::string& cell = row.cells[column];
  if (cell.empty()) return std::nullopt;
  const std::string day = cell.substr(0, kLengthOfDay);
  const std::string behind = cell.substr(day.size());
  if ((behind.empty() || is_time_of_day(behind)) && is_iso_date(day)) return day;
  const bool is_number = cell.find_first_not_of(kDigits) == std::string::npos;
  error(row, column, is_number ? "is a number and no day" : "is no day YYYY-MM-DD",
        is_number ? "give the cell the format of a date, or write YYYY-MM-DD"
                  : "write the day as 2026-03-01, or as a date of the workbook");
  return std::nullopt;
}

std::optional<bool> CellReader::logical(const TableRow& row, std::size_t column) {
  const std::string word = lower_case(row.cells[column]);
  if (word.empty()) return std::nullopt;
  if (word == "true" || word == "yes" || word == "1") return true;
  if (word == "false" || word == "no" || word == "0") return false;
  error(row, column, "is neither yes nor no", "write yes or no");
  return std::nullopt;
}

}  // namespace panel_dossier
