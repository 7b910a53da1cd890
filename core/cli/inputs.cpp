#include "core/cli/inputs.h"

#include <algorithm>
#include <iostream>
#include <iterator>

#include "core/cli/file_bytes.h"
#include "core/intake/settings/intake_settings.h"
#include "core/intake/settings/known_settings.h"
#include "core/intake/settings/settings_reader.h"

namespace panel_dossier {

namespace {

std::filesystem::path settings_file(const InputOptions& options) {
  if (!options.settings_file.empty()) return options.settings_file;
  std::filesystem::path beside = options.export_file.parent_path() / "settings.json";
  return std::filesystem::exists(beside) ? beside : std::filesystem::path{};
}

std::filesystem::path folder_of(const std::filesystem::path& file) {
  return std::filesystem::absolute(file).parent_path();
}

std::string counted(std::size_t count, const char* noun) {
  return std::to_string(count) + ' ' + noun + (count == 1 ? "" : "s");
}

}  // namespace

Inputs read_inputs(const InputOptions& options) {
  Inputs inputs;
  inputs.export_bytes = read_file(options.export_file);
  if (const auto file = settings_file(options); !file.empty()) {
    inputs.settings_bytes = read_file(file);
    SettingsResult read = read_settings(*inputs.settings_bytes, file.string());
    inputs.settings = std::move(read.settings);
    inputs.diagnostics = std::move(read.diagnostics);
    inputs.settings_files = read_settings_files(inputs.settings, folder_of(file), file.string(), inputs.diagnostics);
    const Diagnostics unknown =
        unknown_settings(inputs.settings, options.schema_dir / "settings.schema.json", file.string());
    std::copy(unknown.begin(), unknown.end(), std::back_inserter(inputs.diagnostics));
  }
  IntakeOptions intake;
  intake.schema_dir = options.schema_dir;
  intake.project_dir = folder_of(options.export_file);
  intake.default_layer_order = layer_order_setting(inputs.settings, inputs.diagnostics);
  inputs.intake = read_export(inputs.export_bytes, options.export_file.string(), intake);
  std::copy(inputs.intake.diagnostics.begin(), inputs.intake.diagnostics.end(), std::back_inserter(inputs.diagnostics));
  return inputs;
}

void print_diagnostics(const Diagnostics& diagnostics) {
  if (diagnostics.empty()) return;
  std::size_t errors = 0;
  for (const Diagnostic& diagnostic : diagnostics) {
    std::cerr << to_string(diagnostic) << '\n';
    if (diagnostic.severity == Severity::error) ++errors;
  }
  std::cerr << counted(errors, "error") << ", " << counted(diagnostics.size() - errors, "warning") << '\n';
}

}  // namespace panel_dossier
