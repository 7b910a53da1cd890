#include "core/intake/records/record_tables.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/document/file_bytes.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kHeadOfTables = "table,column,kind,unit,need,feeds,range,meaning";
constexpr std::size_t kFieldsOfColumn = 8;

constexpr std::array<std::pair<std::string_view, RecordKind>, 4> kRecordKinds{
    {{"text", RecordKind::text}, {"word", RecordKind::word}, {"day", RecordKind::day}, {"number", RecordKind::number}}};

const PropertyRow* find_property(const std::vector<PropertyRow>& rows, const std::string& full_name) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const PropertyRow& row) {
    return joined({row.set, row.property}, ".") == full_name;
  });
  return found == rows.end() ? nullptr : &*found;
}

/// What the column can hold, from the list of properties where it feeds one.
void read_bounds_of(RecordColumn& column, const std::string& bounds, const std::vector<PropertyRow>& rows) {
  if (column.kind == RecordKind::number) column.range = parse_range(bounds);
  if (column.kind == RecordKind::word) column.words = split(bounds, '|');
  const PropertyRow* row = column.property.empty() ? nullptr : find_property(rows, column.property);
  if (row == nullptr) return;
  if (column.kind == RecordKind::number) column.range = row->range;
  if (column.kind == RecordKind::word && !row->words.empty()) column.words = row->words;
}

class TablesReader {
 public:
  TablesReader(std::string file, const std::vector<PropertyRow>& rows) : file_(std::move(file)), rows_(rows) {}

  std::vector<RecordTable> read(std::string_view text) {
    while (!text.empty()) {
      const std::size_t end = std::min(text.find('\n'), text.size());
      ++line_;
      read_line(trimmed(text.substr(0, end)));
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    if (tables_.empty()) fail("no table of records is described");
    return std::move(tables_);
  }

 private:
  std::string file_;
  const std::vector<PropertyRow>& rows_;
  std::size_t line_ = 0;
  bool has_head_ = false;
  std::vector<RecordTable> tables_;

  [[noreturn]] void fail(const std::string& what) const {
    throw std::runtime_error(file_ + ":" + std::to_string(line_) + ": " + what);
  }

  void read_line(std::string_view text) {
    if (text.empty() || text.front() == '#') return;
    if (!std::exchange(has_head_, true)) {
      if (text != kHeadOfTables) fail("the head is not " + std::string(kHeadOfTables));
      return;
    }
    const auto fields = csv_fields(text);
    if (!fields || fields->size() != kFieldsOfColumn) fail("the line has not the fields of the head");
    add(*fields);
  }

  void add(const std::vector<std::string>& f) {
    if (tables_.empty() || tables_.back().name != f[0]) tables_.push_back({f[0], {}});
    RecordColumn column;
    column.name = f[1];
    const auto* kind =
        std::find_if(kRecordKinds.begin(), kRecordKinds.end(), [&](const auto& one) { return one.first == f[2]; });
    if (kind == kRecordKinds.end()) fail("'" + f[2] + "' is no kind of column");
    column.kind = kind->second;
    column.unit = f[3];
    column.is_required = f[4] == "row";
    column.property = f[5];
    read_bounds_of(column, f[6], rows_);
    column.meaning = f[7];
    if (tables_.back().column(column.name) != nullptr) fail("the column '" + column.name + "' stands twice");
    tables_.back().columns.push_back(std::move(column));
  }
};

}  // namespace

const RecordColumn* RecordTable::column(std::string_view wanted) const {
  const auto found =
      std::find_if(columns.begin(), columns.end(), [wanted](const RecordColumn& one) { return one.name == wanted; });
  return found == columns.end() ? nullptr : &*found;
}

std::vector<RecordTable> read_record_tables(const std::filesystem::path& schema_dir,
                                            const std::vector<PropertyRow>& rows) {
  const std::filesystem::path file = schema_dir / "records.csv";
  return TablesReader(file.string(), rows).read(read_file(file));
}

}  // namespace panel_dossier
