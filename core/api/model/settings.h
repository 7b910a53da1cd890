// Project settings: the only source of defaults, each listed as an assumption in the dossier.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "core/api/model/origin.h"

namespace panel_dossier {

/// Flat view of the settings file: nested objects are joined by dots, array elements numbered from 0
/// (`project.jurisdiction`, `crane.capacities.0.radius_m`, `people.0.name`).
/// Filled before the plugins run and read-only from then on, so safe to share between threads.
class Settings {
 public:
  using Value = std::variant<double, bool, std::string>;

  /// A key that is already there takes the new value.
  void set(std::string key, Value value) { values_[std::move(key)] = std::move(value); }

  /// Takes the key out of use because it is implausible or another source says otherwise. `why` says what is wrong and
  /// what to do. Without effect when the key is absent.
  void withhold(std::string_view key, std::string why);

  /// The value as the asked type, or none when the key is absent or of another type.
  std::optional<Sourced<double>> number(std::string_view key) const;
  std::optional<Sourced<bool>> logical(std::string_view key) const;
  std::optional<Sourced<std::string>> text(std::string_view key) const;

  /// Every key that may be used.
  const std::map<std::string, Value, std::less<>>& all() const { return values_; }
  /// Why each key that is withheld may not, by key.
  const std::map<std::string, std::string, std::less<>>& withheld() const { return withheld_; }

 private:
  std::map<std::string, Value, std::less<>> values_;
  std::map<std::string, std::string, std::less<>> withheld_;
};

/// The origin of `column` in row `row` of the table `table`, for example `quarry.stones`: its line of the file that
/// the setting `quarry.stones_file` names, with the row's own source; else the key `quarry.stones.N.COLUMN`.
Origin settings_row_origin(const Settings& settings, const std::string& table, std::size_t row,
                           std::string_view column);

}  // namespace panel_dossier
