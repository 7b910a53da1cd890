#include "core/intake/inputs.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <iterator>

#include "core/intake/claims/building_claims.h"
#include "core/intake/claims/confirmations.h"
#include "core/intake/claims/material_kinds.h"
#include "core/intake/claims/model_claims.h"
#include "core/intake/claims/plausible_values.h"
#include "core/intake/claims/possible_model.h"
#include "core/intake/claims/standard_names.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/library/library.h"
#include "core/intake/records/records_reader.h"
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

std::string day_of_today() {
  const std::chrono::year_month_day day{std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now())};
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(day.year()),
                static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
  return text.data();
}

std::string today_of(const InputOptions& options) {
  return options.today.empty() ? day_of_today() : options.today;
}

/// `confirmations.csv` beside the export, where there is one.
void read_confirmations_of(const InputOptions& options, Inputs& inputs) {
  const std::filesystem::path file = folder_of(options.export_file) / "confirmations.csv";
  if (!std::filesystem::exists(file)) return;
  // Verdicts rest on it no less than on the tables that the settings name: it is hashed and attached like those.
  inputs.settings_files.push_back(
      {"confirmations.csv", read_file(file), "Rows of data tables that somebody held against their source"});
  inputs.table_confirmations =
      read_table_confirmations(inputs.settings_files.back().bytes, file.string(), table_rows(options.plugin_folders),
                               today_of(options), inputs.diagnostics);
}

/// They fill what export and library leave open.
void read_records_of(const InputOptions& options, const std::vector<PropertyRow>& rows, Inputs& inputs) {
  std::vector<SettingsFile> files =
      read_records(*inputs.intake.project, inputs.settings, {folder_of(options.export_file), options.schema_dir, rows},
                   inputs.diagnostics);
  std::move(files.begin(), files.end(), std::back_inserter(inputs.settings_files));
}

/// True when the project holds what no project can, which is then among the diagnostics.
bool refuse_impossible_of(Inputs& inputs, const InputOptions& options) {
  Reporter report(options.export_file.string());
  refuse_impossible(*inputs.intake.project, report);
  if (!report.has_errors()) return false;
  Diagnostics impossible = report.take();
  std::move(impossible.begin(), impossible.end(), std::back_inserter(inputs.diagnostics));
  return true;
}

/// Every input is a claim: what cannot be is refused, what is doubtful or contradicted is withheld from the checks.
void weigh_claims(Inputs& inputs, ProjectLibrary& library, const std::vector<PropertyRow>& rows,
                  const SettingsSchema& schema, const std::string& settings_name, const InputOptions& options) {
  Project& project = *inputs.intake.project;
  Confirmations confirmations(inputs.settings);
  Reporter report(options.export_file.string());
  // Before the libraries: what the export says under the standard's name stands above them too.
  read_standard_names(project, rows, report);
  library.add_to(project, confirmations, options.export_file.string(), inputs.diagnostics);
  read_records_of(options, rows, inputs);
  // Again, for what library and records gave.
  if (refuse_impossible_of(inputs, options)) return;
  withhold_implausible(project, rows, MaterialKinds(options.schema_dir), confirmations, report);
  // Again, for what the libraries gave under the standard's names, and what has been withheld of these.
  read_standard_names(project, rows, report);
  find_contradictions(project, report);
  const auto add = [&](Diagnostics diagnostics) {
    std::move(diagnostics.begin(), diagnostics.end(), std::back_inserter(inputs.diagnostics));
  };
  add(report.take());
  add(schema.withhold_unusual(inputs.settings, settings_name, confirmations));
  add(withhold_contradicted(inputs.settings, project, settings_name, confirmations));
  add(confirmations.unused(settings_name));
  inputs.confirmed_values = confirmations.used();
}

}  // namespace

SettingsSchema settings_schema(const InputOptions& options) {
  SettingsSchema schema(options.schema_dir / "settings.schema.json");
  for (const auto& [id, folder] : options.plugin_folders) {
    const std::filesystem::path file = folder / "settings.schema.json";
    if (std::filesystem::exists(file)) schema.add_group(id, read_file(file));
  }
  return schema;
}

std::vector<std::filesystem::path> property_lists(const InputOptions& options) {
  std::vector<std::filesystem::path> lists{options.schema_dir / "model_properties.csv"};
  for (const auto& [id, folder] : options.plugin_folders) {
    if (std::filesystem::exists(folder / "properties.csv")) lists.push_back(folder / "properties.csv");
  }
  return lists;
}

Inputs read_inputs(const InputOptions& options) {
  Inputs inputs;
  const SettingsSchema schema = settings_schema(options);
  std::string settings_name;
  inputs.export_bytes = read_file(options.export_file);
  if (const auto file = settings_file(options); !file.empty()) {
    inputs.settings_bytes = read_file(file);
    SettingsResult read = read_settings(*inputs.settings_bytes, file.string());
    inputs.settings = std::move(read.settings);
    inputs.diagnostics = std::move(read.diagnostics);
    settings_name = file.string();
    inputs.settings_files =
        read_settings_files(schema.tables(), inputs.settings, folder_of(file), file.string(), inputs.diagnostics);
    const Diagnostics faults = schema.faults_of(inputs.settings, file.string());
    std::copy(faults.begin(), faults.end(), std::back_inserter(inputs.diagnostics));
  }
  IntakeOptions intake;
  intake.schema_dir = options.schema_dir;
  Reporter report("the lists of properties");
  const std::vector<std::filesystem::path> lists = property_lists(options);
  intake.property_lists = load_property_lists({lists.begin() + 1, lists.end()}, report);
  const std::vector<PropertyRow> rows = read_property_lists(load_property_lists(lists, report), report);
  inputs.property_list = property_list_text(rows);
  for (const PropertyRow& row : rows) {
    const std::vector<std::string> entities = entities_with(row);
    const bool of_panels = std::find(entities.begin(), entities.end(), "panel") != entities.end();
    const std::string name = row.set + "." + row.property;
    if (of_panels) {
      inputs.property_titles.insert_or_assign(name, row.title);
    } else {
      inputs.property_titles.emplace(name, row.title);
    }
  }
  for (Diagnostic& fault : report.take()) inputs.diagnostics.push_back(std::move(fault));
  intake.project_dir = folder_of(options.export_file);
  intake.default_layer_order = layer_order_setting(inputs.settings, inputs.diagnostics);
  intake.panel_rules = panel_rules(inputs.settings);
  read_confirmations_of(options, inputs);
  ProjectLibrary library(
      inputs.settings,
      {settings_name.empty() ? intake.project_dir : folder_of(settings_name), settings_name, today_of(options)}, rows,
      MaterialKinds(options.schema_dir), inputs.diagnostics);
  inputs.settings_files.insert(inputs.settings_files.end(), library.files().begin(), library.files().end());
  intake.document_registers = library.documents();
  inputs.intake = read_export(inputs.export_bytes, options.export_file.string(), intake);
  std::copy(inputs.intake.diagnostics.begin(), inputs.intake.diagnostics.end(), std::back_inserter(inputs.diagnostics));
  // Before anybody works out anything from it.
  if (inputs.intake.project && refuse_impossible_of(inputs, options)) return inputs;
  if (inputs.intake.project && options.as_exported) options.as_exported(*inputs.intake.project);
  if (!inputs.refused()) weigh_claims(inputs, library, rows, schema, settings_name, options);
  return inputs;
}

}  // namespace panel_dossier
