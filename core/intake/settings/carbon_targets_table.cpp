#include <algorithm>
#include <array>

#include "core/api/support/iso_date.h"
#include "core/intake/declarations/declaration_reader.h"
#include "core/intake/settings/settings_table.h"

namespace panel_dossier {

namespace {

constexpr std::array<std::string_view, 3> kModules{"A1-A3", "A1-A5", "A-C"};

bool is_date_or_empty(const std::string& text) {
  return text.empty() || is_iso_date(text);
}

std::optional<RowFault> check_period(const std::string& from, const std::string& until) {
  for (const std::string& date : {from, until}) {
    if (!is_date_or_empty(date)) {
      return RowFault{"'" + date + "' is not a date", "write YYYY-MM-DD, or nothing for no bound"};
    }
  }
  if (!from.empty() && !until.empty() && until < from) {
    return RowFault{"valid_until " + until + " is before valid_from " + from, "correct one of them"};
  }
  return std::nullopt;
}

std::optional<RowFault> check_target(const std::vector<std::string>& fields) {
  if (fields[0].empty()) return RowFault{"the target has no name", "give it one, by which the findings call it"};
  if (std::find(kModules.begin(), kModules.end(), fields[1]) == kModules.end()) {
    return RowFault{"'" + fields[1] + "' is no group of modules of a target", "write A1-A3, A1-A5 or A-C"};
  }
  if (fields[2].empty()) {
    return RowFault{"target '" + fields[0] + "' applies to nothing",
                    "write a panel type, 'every panel' or 'project' under applies_to"};
  }
  const auto limit = declared_number(fields[3]);
  if (!limit || *limit <= 0.0) {
    return RowFault{"'" + fields[3] + "' is not a number above 0", "write the limit with a decimal point"};
  }
  if (auto fault = check_period(fields[4], fields[5])) return fault;
  if (fields[6].empty()) {
    return RowFault{"target '" + fields[0] + "' names no source", "say who set it and where"};
  }
  return std::nullopt;
}

}  // namespace

const SettingsTable& carbon_targets_table() {
  static const SettingsTable table{
      "carbon.targets",
      {"name", "modules", "applies_to", "limit_kgco2e_per_m2", "valid_from", "valid_until", "source"},
      {"limit_kgco2e_per_m2"},
      std::nullopt,
      "target",
      "The carbon targets that the settings name",
      check_target};
  return table;
}

}  // namespace panel_dossier
