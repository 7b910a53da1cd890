// The file of material prices that the settings name -> settings keys.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "core/api/settings.h"
#include "core/intake/diagnostics.h"

namespace panel_dossier {

/// A price list of a project is a few hundred lines; anything larger is another thing.
inline constexpr std::size_t kLargestRatesFile_bytes = 4U << 20U;

struct RatesFile {
  std::string location;  ///< relative to the folder of the settings
  std::string bytes;     ///< exactly as read
};

/// Reads the file that `quantities.rates_file` names, a `.csv` inside `settings_dir` that no link leads out of, and
/// adds `quantities.rates.N.material`, `.unit`, `.rate`, `.currency` and `.source` for its rows, N from 0. None when
/// the key is absent or the file cannot be read. Whatever is wrong is added to `diagnostics` as an error: of the
/// setting under `settings_name`, of a row with its line.
std::optional<RatesFile> read_rates_file(Settings& settings, const std::filesystem::path& settings_dir,
                                         const std::string& settings_name, Diagnostics& diagnostics);

/// The same for the bytes: RFC 4180 in UTF-8 without line breaks inside quotes, header
/// `material,unit,rate,currency,source`; empty lines and lines that start with `#` are comments. One row a material,
/// unit `m3`, `m2`, `m`, `kg` or `piece`, rate at least 0 with a decimal point, currency three capital letters
/// (ISO 4217:2015), source not empty.
void read_rates(Settings& settings, std::string_view bytes, const std::string& display_name, Diagnostics& diagnostics);

}  // namespace panel_dossier
