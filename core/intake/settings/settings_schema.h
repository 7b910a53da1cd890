// What the settings may hold: the program's own groups, and one group for each plugin.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/api/model/settings.h"
#include "core/intake/claims/confirmations.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/settings/settings_table.h"

namespace panel_dossier {

/// JSON Schema (draft 2020-12) put together from parts. Of its words those are understood that the schemas of the
/// program and its plugins use, and for a table that the settings may name as a file: `rows_of` and `row_word` of the
/// text that names it, `unique` of the list that its rows become. Any other word is refused, for nobody would keep it.
/// Safe to share between threads once all groups are added.
class SettingsSchema {
 public:
  /// The program's own groups. Throws std::runtime_error naming the file when it cannot be read or is no schema of an
  /// object.
  explicit SettingsSchema(const std::filesystem::path& file);

  /// Throws std::runtime_error saying what is wrong with the text of a plugin's settings.schema.json: not JSON, no
  /// object with `properties`, no `description` of the whole or of a property, a word that is not understood, a table
  /// whose rows are not described. Changes nothing.
  static void check_group(const std::string& text);

  /// Adds the plugin's group `id`. Throws as `check_group`, and when the group is there already; nothing is added then.
  void add_group(const std::string& id, const std::string& text);

  /// An error for every value that breaks what the schema says of its key (type, words, least and greatest), and a
  /// warning for every key that no part of it describes, one for a whole group or list; a group that allows additional
  /// properties takes any key.
  Diagnostics faults_of(const Settings& settings, const std::string& display_name) const;

  /// Withholds every number that is outside of what the schema calls `usual`, unless it is confirmed, with a warning.
  /// Precondition: `faults_of` gives no error.
  Diagnostics withhold_unusual(Settings& settings, const std::string& display_name, Confirmations& confirmations) const;

  /// The tables that settings may name as CSV files: every text property `X_file` with the word `"rows_of": "X"`, in
  /// the order of the schema.
  std::vector<SettingsTable> tables() const;

  /// All parts as one JSON Schema, for editors and for people.
  std::string text() const;

 private:
  struct Parts;
  std::shared_ptr<const Parts> parts_;
};

}  // namespace panel_dossier
