// An export in ifcXML or STEP, packed or not -> Project. The one entry of the intake stage, and the setting that steers
// it.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/evidence/evidence_register.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/panels/panel_choice.h"
#include "core/intake/panels/panel_rules.h"

namespace panel_dossier {

/// Which way material layers are listed when the export itself does not say which face is outside.
enum class LayerOrder { inside_to_outside, outside_to_inside };

struct IntakeOptions {
  std::filesystem::path schema_dir;                   ///< holds the XSD of the accepted export and model_properties.csv
  std::filesystem::path project_dir;                  ///< evidence is looked up below this folder and never outside it
  std::optional<LayerOrder> default_layer_order;      ///< setting `intake.layer_order`
  std::vector<PropertyListText> property_lists = {};  ///< of the plugins, behind the program's own of `schema_dir`
  std::vector<EvidenceRegister*> document_registers =
      {};                                   ///< registers of libraries, an earlier one before a later one
  std::vector<PanelRule> panel_rules = {};  ///< setting `intake.panels`
};

/// `intake.layer_order`: `inside_to_outside` or `outside_to_inside`; none when not set. Another value adds an error.
std::optional<LayerOrder> layer_order_setting(const Settings& settings, Diagnostics& diagnostics);

struct IntakeResult {
  std::optional<Project> project;  ///< none when `diagnostics` holds an error
  Diagnostics diagnostics;         ///< in file order
  std::string schema_version;      ///< `IFC2x3 TC1`, `IFC4 ADD2 TC1` or `IFC4X3 ADD2`; empty when not recognised
  std::map<std::string, std::size_t> skipped;  ///< entities not read, by name
  std::vector<ChoiceCount> panel_choice;       ///< what made elements panels, or left them out
};

/// Reads the whole file. Never throws for bad input: every problem becomes a diagnostic, all of them in one run.
IntakeResult read_export(const std::filesystem::path& file, const IntakeOptions& options);

/// The same from memory; `display_name` stands for the file in diagnostics.
IntakeResult read_export(std::string_view bytes, const std::string& display_name, const IntakeOptions& options);

}  // namespace panel_dossier
