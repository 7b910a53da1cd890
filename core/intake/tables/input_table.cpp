#include "core/intake/tables/input_table.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <system_error>
#include <utility>

#include "core/api/support/project_file.h"
#include "core/api/support/words.h"
#include "core/intake/tables/csv_table.h"
#include "core/intake/tables/table_limits.h"
#include "core/intake/tables/workbook.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kCsvEnding = ".csv";
constexpr std::string_view kWorkbookEnding = ".xlsx";

bool is_workbook(const std::string& name) {
  return lower_case(name).ends_with(kWorkbookEnding);
}

/// Moves what was reported to the diagnostics; true when no error is among it.
bool give(Reporter& report, Diagnostics& diagnostics) {
  const bool is_sound = !report.has_errors();
  Diagnostics found = report.take();
  std::move(found.begin(), found.end(), std::back_inserter(diagnostics));
  return is_sound;
}

TableColumn parse_head(const std::string& head, std::uint32_t number) {
  const std::size_t bracket = head.rfind('[');
  if (!head.ends_with(']') || bracket == std::string::npos) return {head, {}, number};
  const std::string_view text = head;
  return {std::string(trimmed(text.substr(0, bracket))),
          std::string(trimmed(text.substr(bracket + 1, text.size() - bracket - 2))), number};
}

/// Takes the first row as the head and the others below it.
class HeadReader {
 public:
  HeadReader(InputTable& table, Reporter& report) : table_(table), report_(report) {}

  void read(std::vector<GridRow> rows) {
    if (rows.empty()) {
      report_.file_error(0, 0, "the table has no head row", "write the titles of the columns first");
      return;
    }
    std::size_t width = 0;
    for (const GridRow& row : rows) width = std::max(width, row.cells.size());
    if (width * rows.size() > kMostTableCells) {
      report_.file_error(rows.front().number, 0,
                         "the table has more than " + std::to_string(kMostTableCells) + " cells",
                         "keep the rows and columns of this table only");
      return;
    }
    for (GridRow& row : rows) row.cells.resize(width);
    table_.head_row = rows.front().number;
    std::vector<bool> is_kept(width);
    std::map<std::string, std::uint32_t> known;
    for (std::size_t i = 0; i < width; ++i) is_kept[i] = read_title(rows, i, known);
    for (std::size_t i = 1; i < rows.size(); ++i) {
      TableRow row{rows[i].number, {}};
      for (std::size_t column = 0; column < width; ++column) {
        if (is_kept[column]) row.cells.push_back(std::move(rows[i].cells[column]));
      }
      table_.rows.push_back(std::move(row));
    }
  }

 private:
  InputTable& table_;
  Reporter& report_;

  /// False for a column without a title, which must be empty.
  bool read_title(const std::vector<GridRow>& rows, std::size_t index, std::map<std::string, std::uint32_t>& known) {
    const auto number = static_cast<std::uint32_t>(index + 1);
    const std::uint32_t head_row = rows.front().number;
    TableColumn column = parse_head(rows.front().cells[index], number);
    if (column.title.empty()) {
      const auto filled =
          std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return !row.cells[index].empty(); });
      if (filled != rows.end()) {
        report_.file_error(filled->number, number, "column " + std::to_string(number) + " has no title above this cell",
                           "write its title into the head row, or empty the column");
      }
      return false;
    }
    const auto [before, is_new] = known.emplace(lower_case(column.title), number);
    if (!is_new) {
      report_.file_error(head_row, number,
                         "the title '" + column.title + "' stands over columns " + std::to_string(before->second) +
                             " and " + std::to_string(number),
                         "keep one of them");
    }
    table_.columns.push_back(std::move(column));
    return true;
  }
};

/// The sheet to be read; none when the workbook has several and none of that name, which is reported.
std::optional<std::string> chosen_sheet(const Workbook& book, const std::string& wanted, Reporter& report) {
  const std::vector<std::string>& sheets = book.sheets();
  if (sheets.empty()) return std::nullopt;
  for (const std::string& sheet : sheets) {
    if (lower_case(sheet) == lower_case(wanted)) return sheet;
  }
  if (sheets.size() == 1) return sheets.front();
  report.file_error(0, 0, "the workbook has no sheet '" + wanted + "' but " + joined(sheets),
                    "name the sheet of the table '" + wanted + "'");
  return std::nullopt;
}

void read_rows(std::string_view bytes, const std::string& sheet, InputTable& table, Reporter& report) {
  TableGrid grid(report);
  if (is_workbook(table.file)) {
    Workbook book(bytes, report);
    const auto chosen = chosen_sheet(book, sheet, report);
    if (!chosen) return;
    table.sheet = *chosen;
    table.takes_decimal_comma = true;
    book.read(*chosen, grid);
  } else if (lower_case(table.file).ends_with(kCsvEnding)) {
    table.takes_decimal_comma = read_csv_grid(bytes, grid, report) != ',';
  } else {
    report.file_error(0, 0, "this is neither a .csv nor a .xlsx file", "save the table in one of these forms");
    return;
  }
  if (!report.has_errors()) HeadReader(table, report).read(grid.take_rows());
}

}  // namespace

std::optional<std::size_t> InputTable::column(std::string_view title) const {
  const std::string wanted = lower_case(title);
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (lower_case(columns[i].title) == wanted) return i;
  }
  return std::nullopt;
}

std::optional<std::string> load_table_file(const std::filesystem::path& file, const std::string& shown_name,
                                           Diagnostics& diagnostics) {
  Reporter report(shown_name);
  std::error_code failed;
  std::optional<std::string> bytes;
  if (!std::filesystem::exists(file, failed)) {
    report.file_error(0, 0, "there is no such file", "check the path");
  } else if (!std::filesystem::is_regular_file(file, failed)) {
    report.file_error(0, 0, "this is no file but a folder, pipe or device", "name the file of the table");
  } else if (bytes = load_at_most(file, kLargestTableFile_bytes); !bytes) {
    report.file_error(0, 0, "the file cannot be read", "check its permissions");
  } else if (bytes->size() > kLargestTableFile_bytes) {
    report.file_error(0, 0, "the file is larger than 64 MiB", "keep the rows of this table only");
  }
  if (!give(report, diagnostics)) return std::nullopt;
  return bytes;
}

std::vector<std::string> sheets_of(std::string_view bytes, const std::string& shown_name, Diagnostics& diagnostics) {
  if (!is_workbook(shown_name)) return {};
  Reporter report(shown_name);
  std::vector<std::string> sheets = Workbook(bytes, report).sheets();
  give(report, diagnostics);
  return sheets;
}

std::optional<InputTable> read_input_table(std::string_view bytes, const std::string& shown_name,
                                           const std::string& sheet, Diagnostics& diagnostics) {
  Reporter report(shown_name);
  InputTable table;
  table.file = shown_name;
  read_rows(bytes, sheet, table, report);
  if (!give(report, diagnostics)) return std::nullopt;
  return table;
}

std::optional<InputTable> read_input_table(const std::filesystem::path& file, const std::string& shown_name,
                                           Diagnostics& diagnostics) {
  const auto bytes = load_table_file(file, shown_name, diagnostics);
  if (!bytes) return std::nullopt;
  return read_input_table(*bytes, shown_name, file.stem().string(), diagnostics);
}

Origin table_origin(const InputTable& table, const TableRow& row, std::string property, std::string source) {
  Origin origin;
  origin.kind = OriginKind::input_table;
  origin.table = table.file + (table.sheet.empty() ? "" : ", sheet '" + table.sheet + "'");
  origin.row = std::to_string(row.number);
  origin.property = std::move(property);
  origin.source = std::move(source);
  return origin;
}

std::string place_of(const InputTable& table, const TableRow& row) {
  return table.file + (table.sheet.empty() ? "" : " sheet '" + table.sheet + "'") + " row " +
         std::to_string(row.number);
}

}  // namespace panel_dossier
