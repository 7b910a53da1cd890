#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/intake/claims/confirmations.h"
#include "core/intake/claims/material_kinds.h"
#include "core/intake/claims/model_claims.h"
#include "core/intake/claims/plausible_values.h"
#include "core/intake/claims/possible_model.h"
#include "core/intake/claims/standard_names.h"
#include "core/intake/export_reader.h"
#include "core/intake/graph/property_list.h"
#include "tests/fuzz/schema_files.h"
#include "tests/fuzz/targets.h"

namespace panel_dossier::fuzz {

namespace {

const std::vector<PropertyRow>& property_rows() {
  static const std::vector<PropertyRow> rows = [] {
    Reporter report("the lists of properties");
    std::vector<std::filesystem::path> lists = plugin_files("properties.csv");
    lists.insert(lists.begin(), kSchemaDir + "/model_properties.csv");
    return read_property_lists(load_property_lists(lists, report), report);
  }();
  return rows;
}

/// As read_inputs weighs a project that has no library and no records.
void weigh(Project& project) {
  static const MaterialKinds kinds(kSchemaDir);
  const Settings settings;
  Confirmations confirmations(settings);
  Reporter report("export");
  read_standard_names(project, property_rows(), report);
  refuse_impossible(project, report);
  if (report.has_errors()) return;
  withhold_implausible(project, property_rows(), kinds, confirmations, report);
  read_standard_names(project, property_rows(), report);
  find_contradictions(project, report);
  for (const Diagnostic& diagnostic : report.take()) to_string(diagnostic);
}

void read(std::string_view bytes, const std::string& name) {
  IntakeOptions options;
  options.schema_dir = kSchemaDir;
  // Evidence is looked up there: a folder that holds none.
  options.project_dir = PANEL_DOSSIER_SOURCE_DIR "/tests/fuzz/seeds/ifcxml";
  options.default_layer_order = LayerOrder::inside_to_outside;
  IntakeResult result = read_export(bytes, name, options);
  for (const Diagnostic& diagnostic : result.diagnostics) to_string(diagnostic);
  if (result.project.has_value() == has_errors(result.diagnostics)) {
    throw std::logic_error("an export is read or refused, never both and never neither");
  }
  if (result.project) weigh(*result.project);
}

}  // namespace

void read_ifcxml(std::string_view bytes) {
  read(bytes, "export.ifcxml");
}

void read_step(std::string_view bytes) {
  read(bytes, "export.ifc");
}

}  // namespace panel_dossier::fuzz
