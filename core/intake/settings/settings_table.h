// Tables of a project that the settings name as CSV files -> settings keys.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/settings.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// A table of a project is a few hundred lines; anything larger is another thing.
inline constexpr std::size_t kLargestSettingsFile_bytes = 4U << 20U;

/// What is wrong with a row, and what to do about it.
struct RowFault {
  std::string message;
  std::string advice;
};

/// One kind of table. Its rows become settings `NAME.N.COLUMN`, N from 0; the setting `NAME_file` names the file.
struct SettingsTable {
  std::string name;  ///< `quantities.rates`
  std::vector<std::string> columns;
  std::vector<std::string> number_columns;   ///< those of them that are numbers; the rest is text
  std::optional<std::size_t> unique_column;  ///< its texts may not come twice
  std::string row_word;                      ///< what a row is: `rate`
  std::string description;                   ///< what the file is to a reader of the dossier
  /// The first fault of a row, whose fields are as many as the columns.
  std::optional<RowFault> (*check)(const std::vector<std::string>& fields) = nullptr;
};

/// Prices of materials: `material,unit,rate,currency,source`. One row a material, unit `m3`, `m2`, `m`, `kg` or
/// `piece`, rate at least 0, currency three capital letters (ISO 4217:2015), source not empty.
const SettingsTable& rates_table();

/// Carbon targets: `name,modules,applies_to,limit_kgco2e_per_m2,valid_from,valid_until,source`. Modules `A1-A3`,
/// `A1-A5` or `A-C`, limit above 0, dates YYYY-MM-DD in order or empty for no bound, the others not empty.
const SettingsTable& carbon_targets_table();

struct SettingsFile {
  std::string location;  ///< relative to the folder of the settings
  std::string bytes;     ///< exactly as read
  std::string description;
};

/// Reads the file of each of the tables above that the settings name, a `.csv` inside `settings_dir` that no link leads
/// out of, and adds its rows to the settings; each also has `NAME.N.line`, its line of the file. Whatever is wrong is
/// added to `diagnostics` as an error: of the setting under `settings_name`, of a row with its line.
std::vector<SettingsFile> read_settings_files(Settings& settings, const std::filesystem::path& settings_dir,
                                              const std::string& settings_name, Diagnostics& diagnostics);

/// The same for the bytes of one table: RFC 4180 in UTF-8 without line breaks inside quotes, its columns as the header,
/// numbers with a decimal point; empty lines and lines that start with `#` are comments.
void read_settings_table(const SettingsTable& table, Settings& settings, std::string_view bytes,
                         const std::string& display_name, Diagnostics& diagnostics);

}  // namespace panel_dossier
