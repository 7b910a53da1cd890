#include <algorithm>
#include <array>

#include "core/intake/declarations/declaration_reader.h"
#include "core/intake/settings/settings_table.h"

namespace panel_dossier {

namespace {

constexpr std::array<std::string_view, 5> kUnits{"m3", "m2", "m", "kg", "piece"};

/// The form of a code of ISO 4217:2015; whether the currency exists is not looked up.
bool is_currency(std::string_view text) {
  return text.size() == 3 && std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

std::optional<RowFault> check_rate(const std::vector<std::string>& fields) {
  const auto rate = declared_number(fields[2]);
  if (fields[0].empty()) return RowFault{"the material is empty", "write its name as in the export"};
  if (std::find(kUnits.begin(), kUnits.end(), fields[1]) == kUnits.end()) {
    return RowFault{"'" + fields[1] + "' is no unit of a rate", "write m3, m2, m, kg or piece"};
  }
  if (!rate || *rate < 0.0) {
    return RowFault{"'" + fields[2] + "' is not a number of at least 0", "write the rate with a decimal point"};
  }
  if (!is_currency(fields[3])) {
    return RowFault{"'" + fields[3] + "' is not a currency", "write its three capital letters"};
  }
  if (fields[4].empty()) {
    return RowFault{"the rate of '" + fields[0] + "' names no source", "say where the rate comes from"};
  }
  return std::nullopt;
}

}  // namespace

const SettingsTable& rates_table() {
  static const SettingsTable table{"quantities.rates",
                                   {"material", "unit", "rate", "currency", "source"},
                                   {"rate"},
                                   0,
                                   "rate",
                                   "The rates of materials that the settings name",
                                   check_rate};
  return table;
}

}  // namespace panel_dossier
