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
#include "core/intake/settings/value_rule.h"

namespace panel_dossier {

/// A table of a project is a few hundred lines; anything larger is another thing.
inline constexpr std::size_t kLargestSettingsFile_bytes = 4U << 20U;

struct SettingsColumn {
  std::string name;
  ValueRule rule;
  bool is_required = false;  ///< where it is not, an empty field is a setting left out
};

/// One kind of table. Its rows become settings `NAME.N.COLUMN`, N from 0; the setting `NAME_file` names the file.
struct SettingsTable {
  std::string name;                          ///< `quarry.stones`
  std::vector<SettingsColumn> columns;       ///< in the order of the file
  std::optional<std::size_t> unique_column;  ///< its texts may not come twice
  std::string row_word;                      ///< what a row is: `stone`
  std::string description;                   ///< what the file is to a reader of the dossier
};

struct SettingsFile {
  std::string location;  ///< relative to the folder of the settings
  std::string bytes;     ///< exactly as read
  std::string description;
};

/// Reads the file of each of `tables` that the settings name by a text, a `.csv` inside `settings_dir` that no link
/// leads out of, and adds its rows to the settings; each also has `NAME.N.line`, its line of the file. Whatever is
/// wrong is added to `diagnostics` as an error: of the setting under `settings_name`, of a row with its line.
std::vector<SettingsFile> read_settings_files(const std::vector<SettingsTable>& tables, Settings& settings,
                                              const std::filesystem::path& settings_dir,
                                              const std::string& settings_name, Diagnostics& diagnostics);

/// The same for the bytes of one table: RFC 4180 in UTF-8 without line breaks inside quotes, its columns as the header,
/// numbers with a decimal point; empty lines and lines that start with `#` are comments.
void read_settings_table(const SettingsTable& table, Settings& settings, std::string_view bytes,
                         const std::string& display_name, Diagnostics& diagnostics);

}  // namespace panel_dossier
