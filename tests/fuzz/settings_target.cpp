#include <string>

#include "core/intake/claims/confirmations.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/settings/settings_reader.h"
#include "core/intake/settings/settings_schema.h"
#include "tests/fuzz/schema_files.h"
#include "tests/fuzz/targets.h"

namespace panel_dossier::fuzz {

namespace {

const SettingsSchema& schema() {
  static const SettingsSchema whole = [] {
    SettingsSchema all(kSchemaDir + "/settings.schema.json");
    for (const auto& file : plugin_files("settings.schema.json")) {
      all.add_group(file.parent_path().filename().string(), read_file(file));
    }
    return all;
  }();
  return whole;
}

}  // namespace

void read_settings_file(std::string_view bytes) {
  SettingsResult read = read_settings(bytes, "settings.json");
  for (const Diagnostic& diagnostic : read.diagnostics) to_string(diagnostic);
  for (const Diagnostic& diagnostic : schema().faults_of(read.settings, "settings.json")) to_string(diagnostic);
  Confirmations confirmations(read.settings);
  for (const Diagnostic& diagnostic : schema().withhold_unusual(read.settings, "settings.json", confirmations)) {
    to_string(diagnostic);
  }
}

}  // namespace panel_dossier::fuzz
