#include "core/api/support/data_table.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <iterator>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/api/support/csv_reader.h"

namespace panel_dossier {

namespace {

[[noreturn]] void fail(const std::string& name, std::size_t line, const std::string& what) {
  throw std::runtime_error(name + ":" + std::to_string(line) + ": " + what);
}

/// The records of the file; throws as the table does.
std::vector<CsvRecord> records_of(const std::string& name, std::string_view text) {
  std::vector<CsvRecord> records;
  CsvReader reader(text);
  try {
    for (CsvRecord record; reader.next(record);) records.push_back(std::move(record));
  } catch (const CsvFault& fault) {
    fail(name, fault.line(), fault.what());
  }
  return records;
}

void check_header(const std::string& name, const CsvRecord& header) {
  std::set<std::string_view> seen;
  for (const std::string& column : header.fields) {
    if (column.empty()) fail(name, header.line, "a column has no name");
    if (!seen.insert(column).second) fail(name, header.line, "column '" + column + "' stands twice");
  }
  if (!seen.contains("key") || !seen.contains("source")) {
    fail(name, header.line, "columns 'key' and 'source' are required");
  }
}

std::size_t column_index(const std::vector<std::string>& columns, std::string_view name) {
  return static_cast<std::size_t>(std::find(columns.begin(), columns.end(), name) - columns.begin());
}

}  // namespace

DataTable::DataTable(const std::filesystem::path& file) : name_(file.filename().string()) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream) throw std::runtime_error(file.string() + ":0: cannot read the data table");
  const std::string text{std::istreambuf_iterator<char>(stream), {}};
  std::vector<CsvRecord> records = records_of(name_, text);
  if (records.empty()) fail(name_, 1, "no header line");
  check_header(name_, records.front());
  columns_ = std::move(records.front().fields);
  const std::size_t key_column = column_index(columns_, "key");
  const std::size_t source_column = column_index(columns_, "source");
  for (std::size_t i = 1; i < records.size(); ++i) {
    CsvRecord& record = records[i];
    if (record.fields.size() != columns_.size()) {
      fail(name_, record.line,
           std::to_string(record.fields.size()) + " fields, the header has " + std::to_string(columns_.size()));
    }
    const std::string& key = record.fields[key_column];
    if (key.empty()) fail(name_, record.line, "empty key");
    if (record.fields[source_column].empty()) fail(name_, record.line, "row '" + key + "' names no source");
    if (!rows_by_key_.try_emplace(key, rows_.size()).second) fail(name_, record.line, "key '" + key + "' stands twice");
    keys_.push_back(key);
    rows_.push_back(std::move(record.fields));
  }
}

std::string DataTable::row_text(std::string_view key) const {
  const std::vector<std::string>& row = rows_[rows_by_key_.find(key)->second];
  std::string text;
  for (std::size_t i = 0; i < columns_.size(); ++i) text.append(columns_[i]).append("=").append(row[i]).append("\n");
  return text;
}

const std::string* DataTable::cell(std::string_view key, std::string_view column) const {
  const auto row = rows_by_key_.find(key);
  const std::size_t index = column_index(columns_, column);
  if (row == rows_by_key_.end() || index == columns_.size()) return nullptr;
  const std::string& value = rows_[row->second][index];
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
  const bool whole = error == std::errc{} && end == value->data() + value->size();
  if (!whole || !std::isfinite(parsed)) return std::nullopt;
  return Sourced<double>{parsed, origin(key)};
}

std::optional<Sourced<std::string>> DataTable::text(std::string_view key, std::string_view column) const {
  const std::string* value = cell(key, column);
  if (value == nullptr) return std::nullopt;
  return Sourced<std::string>{*value, origin(key)};
}

}  // namespace panel_dossier
