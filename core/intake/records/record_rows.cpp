#include "core/intake/records/record_rows.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "core/intake/tables/cell_reader.h"
#include "core/intake/tables/unit_symbol.h"

namespace panel_dossier {

namespace {

std::string plain_title(std::string_view title) {
  std::string plain = lower_case(title);
  std::replace(plain.begin(), plain.end(), '_', ' ');
  return plain;
}

/// A number of a record as people write it: lengths in mm, ratios in %.
std::string number_in_words(double value, const std::string& unit) {
  // More digits are rounding of the conversion.
  const auto rounded = [](double number) { return shortest_text(std::stod(fixed_text(number, 4))); };
  if (unit == "m") return rounded(units::millimetres_from_metres(value)) + " mm";
  if (unit.empty()) return rounded(value * units::kPercentPerWhole) + " %";
  return rounded(value) + " " + unit;
}

std::string in_words(const RecordColumn& column, const RecordValue& value) {
  if (const double* number = std::get_if<double>(&value.value)) {
    return column.name + " " + number_in_words(*number, value.unit);
  }
  const std::string& text = std::get<std::string>(value.value);
  const bool speaks_for_itself = column.kind == RecordKind::word || column.name == "note";
  return speaks_for_itself ? text : column.name + " " + text;
}

/// One column of the table with its place in the file.
struct FoundColumn {
  const RecordColumn* column = nullptr;
  std::size_t at = 0;   ///< index into InputTable::columns
  double factor = 1.0;  ///< from the unit of the head to that of the column
};

class RowsReader {
 public:
  RowsReader(const RecordTable& table, const InputTable& input, Reporter& report)
      : table_(table), input_(input), report_(report), cells_(input, report) {}

  std::vector<RecordRow> read() {
    std::vector<RecordRow> rows;
    if (!read_heads()) return rows;
    for (const TableRow& row : input_.rows) {
      if (names_a_panel_alone(row)) continue;
      if (auto one = read_row(row)) rows.push_back(std::move(*one));
    }
    return rows;
  }

 private:
  const RecordTable& table_;
  const InputTable& input_;
  Reporter& report_;
  CellReader cells_;
  std::vector<FoundColumn> columns_;
  std::optional<std::size_t> mark_;
  std::optional<std::size_t> serial_;
  std::optional<std::size_t> global_id_;

  /// A form has a row for each panel: one that nobody filled in says nothing.
  bool names_a_panel_alone(const TableRow& row) const {
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const bool is_key = mark_ == i || serial_ == i || global_id_ == i;
      if (!is_key && !row.cells[i].empty()) return false;
    }
    return true;
  }

  void head_error(std::uint32_t column, std::string message, std::string advice) {
    report_.file_error(0, column, std::move(message), std::move(advice));
  }

  std::string all_columns() const {
    std::vector<std::string> names{std::string(kMarkColumn), std::string(kSerialColumn), std::string(kGlobalIdColumn)};
    for (const RecordColumn& column : table_.columns) names.push_back(column.name);
    return joined(names);
  }

  bool read_heads() {
    std::map<std::string, std::size_t> titles;
    for (std::size_t i = 0; i < input_.columns.size(); ++i) {
      const TableColumn& head = input_.columns[i];
      if (!titles.emplace(plain_title(head.title), i).second) {
        head_error(head.number, "the column '" + plain_title(head.title) + "' stands twice", "keep one of them");
      }
    }
    mark_ = taken(titles, kMarkColumn);
    serial_ = taken(titles, kSerialColumn);
    global_id_ = taken(titles, kGlobalIdColumn);
    if (!mark_ && !serial_ && !global_id_ && !table_.may_name_no_panel()) {
      head_error(0, "no column names the panel", "write the mark, serial number or GlobalId under a head of that name");
    }
    for (const RecordColumn& column : table_.columns) read_head(column, taken(titles, column.name));
    for (const auto& [title, at] : titles) {
      const TableColumn& head = input_.columns[at];
      report_.add({Severity::warning,
                   {},
                   0,
                   head.number,
                   {},
                   {},
                   "the column '" + head.title + "' is not known in " + table_.name + " and is not read",
                   "known are " + all_columns()});
    }
    return !report_.has_errors();
  }

  static std::optional<std::size_t> taken(std::map<std::string, std::size_t>& titles, std::string_view name) {
    const auto found = titles.find(lower_case(name));
    if (found == titles.end()) return std::nullopt;
    const std::size_t at = found->second;
    titles.erase(found);
    return at;
  }

  void read_head(const RecordColumn& column, std::optional<std::size_t> at) {
    if (!at) {
      if (column.is_required) head_error(0, "there is no column '" + column.name + "'", "add it: every row needs it");
      return;
    }
    FoundColumn found{&column, *at};
    const TableColumn& head = input_.columns[*at];
    if (column.kind == RecordKind::number) {
      const bool has_none = head.unit.empty() && !column.unit.empty();
      const auto conversion = has_none ? std::nullopt : unit_conversion(head.unit, column.unit);
      if (!conversion) {
        head_error(head.number,
                   has_none
                       ? "the column '" + column.name + "' has no unit"
                       : "the column '" + column.name + "' is in '" + head.unit + "', from which it cannot be read",
                   "write its unit behind its title, [" + (column.unit.empty() ? "%" : column.unit) +
                       "] or another of its kind");
        return;
      }
      found.factor = *conversion;
    } else if (!head.unit.empty()) {
      head_error(head.number, "the column '" + column.name + "' has a unit, but is no number", "take the unit away");
    }
    columns_.push_back(found);
  }

  std::string key(const TableRow& row, std::optional<std::size_t> at) const {
    return at ? cells_.text(row, *at) : std::string();
  }

  /// None where something of the row cannot be read, which is reported.
  std::optional<RecordRow> read_row(const TableRow& row) {
    RecordRow read{{key(row, mark_), key(row, serial_), key(row, global_id_)}, {}, row.number};
    bool is_sound = true;
    if (!read.keys.any() && !table_.may_name_no_panel()) {
      report_.file_error(row.number, 0, "the row names no panel", "write its mark, serial number or GlobalId");
      is_sound = false;
    }
    std::vector<std::string> words;
    for (const FoundColumn& found : columns_) {
      const auto value = read_cell(row, found);
      const bool is_empty = cells_.text(row, found.at).empty();
      if (is_empty && found.column->is_required) {
        cells_.error(row, found.at, "is empty", "every row needs it");
      }
      if (!value) {
        is_sound = is_sound && is_empty && !found.column->is_required;
        continue;
      }
      take(read.record, *found.column, *value, words);
    }
    if (!is_sound || !is_consistent(read)) return std::nullopt;
    read.record.table = table_.name;
    read.record.what = joined(words);
    std::vector<std::string> source;
    if (!read.record.by.empty()) source.push_back(read.record.by);
    source.push_back(read.record.day);
    read.record.origin = table_origin(input_, row, {}, joined(source));
    return read;
  }

  static void take(PanelRecord& record, const RecordColumn& column, const RecordValue& value,
                   std::vector<std::string>& words) {
    if (column.name == "day") {
      record.day = std::get<std::string>(value.value);
    } else if (column.name == "by") {
      record.by = std::get<std::string>(value.value);
    } else {
      words.push_back(in_words(column, value));
      record.values.push_back(value);
    }
  }

  std::optional<RecordValue> read_cell(const TableRow& row, const FoundColumn& found) {
    const RecordColumn& column = *found.column;
    const std::string& text = cells_.text(row, found.at);
    if (text.empty()) return std::nullopt;
    if (column.kind == RecordKind::text) return RecordValue{column.name, text, {}};
    if (column.kind == RecordKind::word) return read_word(row, found);
    if (column.kind == RecordKind::day) {
      auto day = cells_.day(row, found.at);
      return day ? std::optional(RecordValue{column.name, std::move(*day), {}}) : std::nullopt;
    }
    return read_number(row, found);
  }

  std::optional<RecordValue> read_word(const TableRow& row, const FoundColumn& found) {
    const RecordColumn& column = *found.column;
    const std::string text = lower_case(cells_.text(row, found.at));
    for (const std::string& word : column.words) {
      if (lower_case(word) == text) return RecordValue{column.name, word, {}};
    }
    cells_.error(row, found.at, "is none of " + joined(column.words), "write one of them");
    return std::nullopt;
  }

  std::optional<RecordValue> read_number(const TableRow& row, const FoundColumn& found) {
    const RecordColumn& column = *found.column;
    const auto number = cells_.number(row, found.at);
    if (!number) return std::nullopt;
    const double value = *number * found.factor;
    if (column.range && !column.range->holds(value)) {
      cells_.error(row, found.at,
                   "is " + with_unit(value, column.unit) + ", which cannot be: it goes from " +
                       to_string(*column.range, column.unit),
                   "correct the number, or the unit in the head");
      return std::nullopt;
    }
    return RecordValue{column.name, value, column.unit};
  }

  bool is_consistent(const RecordRow& row) {
    const PanelRecord& record = row.record;
    const std::string covered = record.words("covered");
    if (!covered.empty() && covered < record.words("erected")) {
      report_.file_error(row.number, 0,
                         "is covered on " + covered + ", before it was erected on " + record.words("erected"),
                         "correct one of the days");
      return false;
    }
    if (table_.name == "air_tests" && record.text("document") && !record.number("q50") && !record.number("n50")) {
      report_.file_error(row.number, 0,
                         "names the document '" + record.words("document") + "' without q50 or n50, and is of no test",
                         "write what was measured and its document into one row");
      return false;
    }
    if (record.words("what") != "READING") return true;
    const bool has_reading = std::any_of(record.values.begin(), record.values.end(), [](const RecordValue& value) {
      return std::holds_alternative<double>(value.value);
    });
    if (!has_reading) {
      report_.file_error(row.number, 0, "is a READING without a moisture content, temperature or relative humidity",
                         "write what was read, or another word under 'what'");
    }
    return has_reading;
  }
};

}  // namespace

std::vector<RecordRow> read_record_rows(const RecordTable& table, const InputTable& input, Reporter& report) {
  return RowsReader(table, input, report).read();
}

}  // namespace panel_dossier
