#include "core/api/data_table.h"

#include <algorithm>
#include <charconv>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <utility>

namespace panel_dossier {

namespace {

struct Record {
  std::vector<std::string> fields;
  std::size_t line = 0;
};

[[noreturn]] void fail(const std::string& name, std::size_t line, const std::string& what) {
  throw std::runtime_error(name + ":" + std::to_string(line) + ": " + what);
}

/// Splits the whole text into records; a quoted field may hold commas, doubled quotes and line breaks.
std::vector<Record> split(const std::string& name, const std::string& text) {
  std::vector<Record> records;
  Record record{{}, 1};
  std::string field;
  bool quoted = false;
  std::size_t line = 1;
  const auto end_record = [&] {
    record.fields.push_back(std::move(field));
    field.clear();
    const bool blank = record.fields.size() == 1 && record.fields.front().empty();
    const bool comment = !record.fields.front().empty() && record.fields.front().front() == '#';
    if (!blank && !comment) records.push_back(std::move(record));
    record = {{}, line};
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\n') ++line;
    if (quoted) {
      if (c != '"') {
        field += c;
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        field += '"';
        ++i;
      } else {
        quoted = false;
      }
    } else if (c == '"' && field.empty()) {
      quoted = true;
    } else if (c == ',') {
      record.fields.push_back(std::move(field));
      field.clear();
    } else if (c == '\n') {
      end_record();
    } else if (c != '\r') {
      field += c;
    }
  }
  if (quoted) fail(name, record.line, "a quoted field is not closed");
  if (!field.empty() || !record.fields.empty()) end_record();
  return records;
}

}  // namespace

DataTable::DataTable(const std::filesystem::path& file) : name_(file.filename().string()) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream) throw std::runtime_error(file.string() + ":0: cannot read the data table");
  const std::string text{std::istreambuf_iterator<char>(stream), {}};
  std::vector<Record> records = split(name_, text);
  if (records.empty()) fail(name_, 1, "no header line");
  columns_ = std::move(records.front().fields);
  const auto key_column = std::find(columns_.begin(), columns_.end(), "key") - columns_.begin();
  const auto source_column = std::find(columns_.begin(), columns_.end(), "source") - columns_.begin();
  const auto count = static_cast<std::ptrdiff_t>(columns_.size());
  if (key_column == count || source_column == count) fail(name_, 1, "columns 'key' and 'source' are required");
  for (std::size_t i = 1; i < records.size(); ++i) {
    Record& record = records[i];
    if (record.fields.size() != columns_.size()) {
      fail(name_, record.line,
           std::to_string(record.fields.size()) + " fields, the header has " + std::to_string(columns_.size()));
    }
    const std::string& key = record.fields[static_cast<std::size_t>(key_column)];
    if (key.empty()) fail(name_, record.line, "empty key");
    if (record.fields[static_cast<std::size_t>(source_column)].empty()) {
      fail(name_, record.line, "row '" + key + "' names no source");
    }
    if (!rows_by_key_.try_emplace(key, rows_.size()).second) fail(name_, record.line, "key '" + key + "' stands twice");
    keys_.push_back(key);
    rows_.push_back(std::move(record.fields));
  }
}

const std::string* DataTable::cell(std::string_view key, std::string_view column) const {
  const auto row = rows_by_key_.find(key);
  const auto found = std::find(columns_.begin(), columns_.end(), column);
  if (row == rows_by_key_.end() || found == columns_.end()) return nullptr;
  const std::string& value = rows_[row->second][static_cast<std::size_t>(found - columns_.begin())];
  return value.empty() ? nullptr : &value;
}

Origin DataTable::origin(std::string_view key) const {
  Origin origin;
  origin.kind = OriginKind::data_table;
  origin.table = name_;
  origin.row = std::string(key);
  if (const std::string* source = cell(key, "source")) origin.source = *source;
  return origin;
}

std::optional<Sourced<double>> DataTable::number(std::string_view key, std::string_view column) const {
  const std::string* value = cell(key, column);
  if (value == nullptr) return std::nullopt;
  double parsed = 0.0;
  const auto [end, error] = std::from_chars(value->data(), value->data() + value->size(), parsed);
  if (error != std::errc{} || end != value->data() + value->size()) return std::nullopt;
  return Sourced<double>{parsed, origin(key)};
}

std::optional<Sourced<std::string>> DataTable::text(std::string_view key, std::string_view column) const {
  const std::string* value = cell(key, column);
  if (value == nullptr) return std::nullopt;
  return Sourced<std::string>{*value, origin(key)};
}

}  // namespace panel_dossier
