// A plugin's data table: a CSV file in which every row names its published source.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/origin.h"

namespace panel_dossier {

/// Reads RFC 4180 CSV in UTF-8 (a byte order mark is passed over) with a header line. Empty lines and lines that start
/// with `#` are comments. The columns `key` (unique, not empty) and `source` (not empty) are required; the rest is the
/// plugin's. Immutable after construction, so safe to share between threads.
class DataTable {
 public:
  /// Throws std::runtime_error `FILE:LINE: what is wrong` when the file cannot be read (line 0) or breaks the rules.
  explicit DataTable(const std::filesystem::path& file);

  bool has(std::string_view key) const { return rows_by_key_.find(key) != rows_by_key_.end(); }
  /// In the order of the file.
  const std::vector<std::string>& keys() const { return keys_; }

  /// All cells of the row as `column=cell` lines, in the order of the columns: what makes it this row and no other.
  /// Precondition: `has(key)`.
  std::string row_text(std::string_view key) const;

  /// The cell as a number (decimal point, no thousands sign) or text; none when the row or column is absent, the cell
  /// is empty, or (number) not a finite number. The origin carries the row's source.
  std::optional<Sourced<double>> number(std::string_view key, std::string_view column) const;
  std::optional<Sourced<std::string>> text(std::string_view key, std::string_view column) const;

 private:
  std::string name_;
  std::vector<std::string> columns_;
  std::vector<std::vector<std::string>> rows_;
  std::vector<std::string> keys_;
  std::map<std::string, std::size_t, std::less<>> rows_by_key_;

  const std::string* cell(std::string_view key, std::string_view column) const;
  Origin origin(std::string_view key) const;
};

}  // namespace panel_dossier
