#include "core/dossier/handover/workbook_file.h"

#include <xlsxwriter.h>

#include <algorithm>
#include <cctype>
#include <ctime>
#include <set>
#include <stdexcept>
#include <utility>
#include <variant>

#include "core/api/support/iso_date.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "core/dossier/handover/written_sheets.h"

namespace panel_dossier {

namespace {

constexpr std::uint32_t kHeadFill = 0xDDE5EA;
constexpr double kNarrowest = 9.0;
constexpr double kWidest = 60.0;

/// Seconds since 1970 of `2026-11-25T02:00:00Z`; 0 of another text.
std::time_t seconds_of(std::string_view time_utc) {
  if (time_utc.size() < 19) return 0;
  const auto days = days_between("1970-01-01", time_utc.substr(0, 10));
  const auto hours = parse_decimal(time_utc.substr(11, 2));
  const auto minutes = parse_decimal(time_utc.substr(14, 2));
  const auto seconds = parse_decimal(time_utc.substr(17, 2));
  if (!days || !hours || !minutes || !seconds) return 0;
  constexpr std::time_t kDay_s = 86'400;
  return *days * kDay_s + static_cast<std::time_t>(*hours * 3600.0 + *minutes * 60.0 + *seconds);
}

bool is_hexadecimal(char c) {
  return std::isxdigit(static_cast<unsigned char>(c)) != 0;
}

/// A workbook reads `_x0041_` in a text as the character of that number (ISO/IEC 29500-1, 22.9.2.19): the underscore
/// in front becomes such a number itself.
std::string with_escapes_escaped(const std::string& text) {
  std::string escaped;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool is_escape = text[i] == '_' && i + 6 < text.size() && text[i + 1] == 'x' && text[i + 6] == '_' &&
                           std::all_of(text.begin() + static_cast<std::ptrdiff_t>(i) + 2,
                                       text.begin() + static_cast<std::ptrdiff_t>(i) + 6, is_hexadecimal);
    escaped += is_escape ? "_x005F_" : std::string(1, text[i]);
  }
  return escaped;
}

std::string cell_text(const std::string& text) {
  return cut_to_cell(with_escapes_escaped(visible_lines(text)));
}

std::string sheet_text(const std::string& wanted, const std::set<std::string>& taken) {
  constexpr std::size_t kLongestSheetName = 31;
  constexpr std::string_view kForbidden = "[]:*?/\\'";
  std::string name;
  for (const char c : wanted) {
    const bool is_plain = static_cast<unsigned char>(c) >= 0x20U && static_cast<unsigned char>(c) < 0x7FU;
    name += is_plain && kForbidden.find(c) == std::string_view::npos ? c : '_';
  }
  if (name.empty()) name = "Sheet";
  name.resize(std::min(name.size(), kLongestSheetName));
  std::string unique = name;
  for (int number = 2; taken.count(lower_case(unique)) != 0; ++number) {
    const std::string suffix = " " + std::to_string(number);
    unique = name.substr(0, kLongestSheetName - suffix.size()) + suffix;
  }
  return unique;
}

}  // namespace

std::string cut_to_cell(std::string text) {
  constexpr std::string_view kMore = " … (cut: longer than a cell can be)";
  if (text.size() <= WorkbookFile::kLongestText) return text;
  std::size_t end = WorkbookFile::kLongestText - kMore.size();
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  text.resize(end);
  text.append(kMore);
  return text;
}

struct WorkbookFile::State {
  std::filesystem::path file;
  lxw_workbook* book = nullptr;
  lxw_worksheet* sheet = nullptr;
  lxw_format* head = nullptr;
  lxw_format* title = nullptr;
  lxw_format* text = nullptr;
  std::vector<std::pair<std::uint32_t, lxw_format*>> fills;
  std::set<std::string> names;  ///< of the sheets, in small letters
  lxw_row_t rows = 0;
  std::vector<SheetCounts> written;  ///< of each sheet

  void require(lxw_error error) const {
    if (error != LXW_NO_ERROR) fail(lxw_strerror(error));
  }
  [[noreturn]] void fail(const std::string& why) const {
    throw std::runtime_error("cannot write '" + file.string() + "': " + why);
  }

  lxw_format* head_format(std::uint32_t fill) {
    const auto found =
        std::find_if(fills.begin(), fills.end(), [fill](const auto& entry) { return entry.first == fill; });
    if (found != fills.end()) return found->second;
    lxw_format* format = workbook_add_format(book);
    format_set_bold(format);
    format_set_text_wrap(format);
    format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
    format_set_bottom(format, LXW_BORDER_THIN);
    format_set_bg_color(format, fill);
    fills.emplace_back(fill, format);
    return format;
  }

  /// Returns whether the cell has something in it.
  bool write(lxw_col_t column, const Value& value, lxw_format* format) const {
    if (const auto* number = std::get_if<double>(&value)) {
      require(worksheet_write_number(sheet, rows, column, *number, format));
      return true;
    }
    const auto* words = std::get_if<std::string>(&value);
    // An empty text would be a cell with a format and nothing else.
    if (words == nullptr || words->empty()) return false;
    require(worksheet_write_string(sheet, rows, column, cell_text(*words).c_str(), format));
    return true;
  }

  void end_row(std::size_t cells) {
    written.back().rows += cells > 0 ? 1 : 0;
    written.back().cells += cells;
    ++rows;
  }
};

WorkbookFile::WorkbookFile(std::filesystem::path file, const std::string& title, std::string_view time_utc)
    : state_(std::make_unique<State>()) {
  state_->file = std::move(file);
  std::string folder = state_->file.parent_path().string();
  lxw_workbook_options options{};
  options.constant_memory = LXW_TRUE;  // a row is written as it comes: a large project has a million cells
  options.tmpdir = folder.empty() ? nullptr : folder.data();
  state_->book = workbook_new_opt(state_->file.c_str(), &options);
  if (state_->book == nullptr) state_->fail("there is no memory for it");
  std::string words = cell_text(title);
  lxw_doc_properties properties{};
  properties.title = words.data();
  properties.created = seconds_of(time_utc);
  workbook_set_properties(state_->book, &properties);
  state_->title = workbook_add_format(state_->book);
  format_set_bold(state_->title);
  format_set_font_size(state_->title, 14.0);
  state_->text = workbook_add_format(state_->book);
  format_set_align(state_->text, LXW_ALIGN_VERTICAL_TOP);
}

WorkbookFile::~WorkbookFile() {
  if (state_ != nullptr && state_->book != nullptr) lxw_workbook_free(state_->book);
}

std::string WorkbookFile::begin_sheet(const std::string& name) {
  std::string unique = sheet_text(name, state_->names);
  state_->names.insert(lower_case(unique));
  state_->sheet = workbook_add_worksheet(state_->book, unique.c_str());
  if (state_->sheet == nullptr) state_->fail("the sheet '" + unique + "' cannot be added");
  state_->rows = 0;
  state_->written.emplace_back();
  return unique;
}

void WorkbookFile::widths(const std::vector<double>& characters) {
  for (std::size_t i = 0; i < characters.size(); ++i) {
    const auto column = static_cast<lxw_col_t>(i);
    state_->require(worksheet_set_column(state_->sheet, column, column, characters[i], nullptr));
  }
}

void WorkbookFile::head(const std::vector<HeadCell>& cells) {
  std::vector<double> columns;
  for (const HeadCell& cell : cells) {
    const double needed = static_cast<double>(cell.text.size()) + 3.0;
    columns.push_back(std::clamp(cell.width > 0.0 ? cell.width : needed, kNarrowest, kWidest));
  }
  widths(columns);
  worksheet_freeze_panes(state_->sheet, state_->rows + 1, 0);
  std::size_t filled = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    lxw_format* format = state_->head_format(cells[i].fill == 0 ? kHeadFill : cells[i].fill);
    filled += state_->write(static_cast<lxw_col_t>(i), cells[i].text, format) ? 1 : 0;
  }
  state_->end_row(filled);
}

void WorkbookFile::row(const std::vector<Value>& cells, bool is_title) {
  if (state_->rows >= kMostRows) state_->fail("a sheet would have more rows than it can hold");
  std::size_t filled = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    lxw_format* format = is_title ? state_->title : state_->text;
    filled += state_->write(static_cast<lxw_col_t>(i), cells[i], format) ? 1 : 0;
  }
  state_->end_row(filled);
}

std::size_t WorkbookFile::rows() const {
  return state_->rows;
}

void WorkbookFile::close() {
  lxw_workbook* book = std::exchange(state_->book, nullptr);
  state_->require(workbook_close(book));
  require_written(state_->file, state_->written);
}

}  // namespace panel_dossier
