#include "core/intake/tables/workbook_sheet.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/tables/table_limits.h"

namespace panel_dossier {

namespace {

struct CellPlace {
  std::uint32_t row = 0;     ///< from 1
  std::uint32_t column = 0;  ///< from 1
};

/// `AB12`; none for what is no reference or lies beyond the largest sheet there is.
std::optional<CellPlace> parse_place(std::string_view text) {
  constexpr std::uint32_t kLastColumn = 16'384;
  constexpr std::uint32_t kLastRow = 1'048'576;
  constexpr std::uint32_t kLetters = 26;
  CellPlace place;
  std::size_t i = 0;
  for (; i < text.size() && text[i] >= 'A' && text[i] <= 'Z'; ++i) {
    place.column = place.column * kLetters + static_cast<std::uint32_t>(text[i] - 'A') + 1;
    if (place.column > kLastColumn) return std::nullopt;
  }
  const auto [end, status] = std::from_chars(text.data() + i, text.data() + text.size(), place.row);
  const bool whole = status == std::errc() && end == text.data() + text.size();
  if (!whole || place.column == 0 || place.row == 0 || place.row > kLastRow) return std::nullopt;
  return place;
}

/// As a person wrote it: 1200000 and not 1.2e+06, 0.13 and not 0.13000000000000001.
std::string number_text(double value) {
  constexpr double kExactWhole = 9.0e15;
  if (value == std::floor(value) && std::abs(value) < kExactWhole) {
    return std::to_string(static_cast<std::int64_t>(value));
  }
  return shortest_text(value);
}

class SheetReader {
 public:
  SheetReader(const WorkbookContent& content, TableGrid& grid, Reporter& report)
      : content_(content), grid_(grid), report_(report) {}

  void read(const Element& worksheet) {
    const Element rows = worksheet.child("sheetData");
    for (Element row = rows.first_child(); row; row = row.next_sibling()) {
      if (row.name() == "row" && !read_row(row)) return;
    }
    if (!grid_.rows().empty()) report_merged(worksheet.child("mergeCells"));
  }

 private:
  const WorkbookContent& content_;
  TableGrid& grid_;
  Reporter& report_;
  std::uint32_t row_ = 0;

  void error(std::uint32_t column, std::string message, std::string advice) {
    report_.file_error(row_, column, std::move(message), std::move(advice));
  }

  bool read_row(const Element& row) {
    GridRow read;
    const std::uint32_t before = row_;
    row_ = before + 1;
    if (const auto number = row.attribute("r")) {
      const auto place = parse_place("A" + std::string(*number));
      if (!place || place->row <= before) {
        error(0, "the rows of the sheet are not in their order", "save the workbook again as .xlsx");
        return false;
      }
      row_ = place->row;
    }
    read.number = row_;
    std::uint32_t column = 0;
    for (Element cell = row.first_child(); cell; cell = cell.next_sibling()) {
      if (cell.name() != "c") continue;
      ++column;
      if (const auto reference = cell.attribute("r")) {
        const auto place = parse_place(*reference);
        if (!place || place->row != row_ || place->column < column) {
          error(column, "the cells of the row are not in their order", "save the workbook again as .xlsx");
          return false;
        }
        column = place->column;
      }
      std::string text = cell_text(cell, column);
      if (text.empty()) continue;
      if (column > kMostTableColumns) {
        error(column, "a cell stands behind column " + std::to_string(kMostTableColumns),
              "keep the columns of this table only");
        return false;
      }
      read.cells.resize(column);
      read.cells.back() = std::move(text);
    }
    return grid_.add(std::move(read));
  }

  std::string cell_text(const Element& cell, std::uint32_t column) {
    const std::string_view type = cell.attribute("t").value_or("n");
    if (type == "inlineStr") return rich_text(cell.child("is"));
    std::string value(trimmed(cell.child("v").text()));
    // A formula that gives an empty text has an empty value; one that was never calculated has none.
    const bool has_value = !value.empty() || (type == "str" && cell.child("v"));
    if (cell.child("f") && !has_value) {
      error(column, "the formula of the cell has no value",
            "open the workbook, let it calculate and save it, or write the value in place of the formula");
      return {};
    }
    if (value.empty()) return {};
    if (type == "e") {
      error(column, "the cell holds the error '" + value.substr(0, 20) + "'", "mend the formula or write the value");
      return {};
    }
    if (type == "s") return shared_text(value, column);
    if (type == "b") return value == "1" || value == "true" ? "true" : "false";
    if (type == "d") return value.ends_with("T00:00:00") ? value.substr(0, value.find('T')) : value;
    if (type == "n") return number_of(cell, value, column);
    return value;
  }

  std::string shared_text(const std::string& value, std::uint32_t column) {
    std::size_t index = 0;
    const auto [end, status] = std::from_chars(value.data(), value.data() + value.size(), index);
    if (status == std::errc() && end == value.data() + value.size() && index < content_.texts.size()) {
      return content_.texts[index];
    }
    error(column, "the cell names a text that the workbook does not hold", "save the workbook again as .xlsx");
    return {};
  }

  NumberFormat format_of(const Element& cell) const {
    const std::string style(cell.attribute("s").value_or(""));
    std::size_t index = 0;
    std::from_chars(style.data(), style.data() + style.size(), index);
    return !style.empty() && index < content_.formats.size() ? content_.formats[index] : NumberFormat::general;
  }

  std::string number_of(const Element& cell, const std::string& value, std::uint32_t column) {
    constexpr double kPercent = 100.0;
    const auto number = parse_decimal(value);
    if (!number) {
      error(column, "the number '" + value.substr(0, 40) + "' of the cell cannot be read", "write it again");
      return {};
    }
    switch (format_of(cell)) {
      case NumberFormat::date:
        if (auto day = day_of_serial(*number, content_.dates)) return *day;
        error(column, "the cell has the format of a date, but " + value.substr(0, 40) + " is the number of no day",
              "write the day");
        return {};
      case NumberFormat::percent: return number_text(*number * kPercent) + "%";
      case NumberFormat::general: break;
    }
    return number_text(*number);
  }

  /// Of merged cells only the first holds the value: whether the others mean the same nobody can tell.
  void report_merged(const Element& list) {
    const std::uint32_t head = grid_.rows().front().number;
    for (Element item = list.first_child(); item; item = item.next_sibling()) {
      const std::string_view range = item.attribute("ref").value_or("");
      const std::size_t colon = range.find(':');
      if (colon == std::string_view::npos) continue;
      const auto first = parse_place(range.substr(0, colon));
      const auto last = parse_place(range.substr(colon + 1));
      if (!first || !last || last->row < head) continue;
      row_ = first->row;
      error(first->column, "the cells " + std::string(range) + " are merged", "write a value into each cell instead");
    }
  }
};

}  // namespace

std::string rich_text(const Element& item) {
  std::string text;
  for (Element child = item.first_child(); child; child = child.next_sibling()) {
    if (child.name() == "t") text += child.text();
    if (child.name() == "r") text += child.child("t").text();
  }
  return text;
}

void read_sheet(const Element& worksheet, const WorkbookContent& content, TableGrid& grid, Reporter& report) {
  SheetReader(content, grid, report).read(worksheet);
}

}  // namespace panel_dossier
