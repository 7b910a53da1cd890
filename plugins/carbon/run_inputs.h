// What all checks of one run read: the project, its settings, the data tables and the declarations in files.
#pragma once

#include <filesystem>
#include <utility>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/support/data_table.h"
#include "plugins/carbon/declarations/declared_material.h"

namespace panel_dossier::carbon {

/// The data tables of the discipline: read once when the plugin is made; immutable and shared by all threads after
/// that.
struct Tables {
  /// Throws std::runtime_error naming file and line when a table cannot be read.
  explicit Tables(const std::filesystem::path& data_dir)
      : biogenic_carbon(data_dir / "biogenic_carbon.csv"),
        core_indicators(data_dir / "core_indicators.csv"),
        plausible_declarations(data_dir / "plausible_declarations.csv") {}

  DataTable biogenic_carbon;
  DataTable core_indicators;
  DataTable plausible_declarations;
};

/// Immutable once made, so safe to share between threads. The first three arguments outlive it.
struct RunInputs {
  /// `files` has one entry for each of `Project::evidence`: see `read_declaration_files`.
  RunInputs(const Project& of_project, const Settings& of_settings, const Tables& of_tables,
            std::vector<DeclarationFile> of_files)
      : project(of_project),
        settings(of_settings),
        tables(of_tables),
        files(std::move(of_files)),
        materials(declared_materials(project, files)) {}
  RunInputs(const RunInputs&) = delete;
  RunInputs& operator=(const RunInputs&) = delete;
  RunInputs(RunInputs&&) = delete;
  RunInputs& operator=(RunInputs&&) = delete;
  ~RunInputs() = default;

  const Project& project;
  const Settings& settings;
  const Tables& tables;
  const std::vector<DeclarationFile> files;       ///< by index into Project::evidence
  const std::vector<DeclaredMaterial> materials;  ///< by index into Project::materials
};

}  // namespace panel_dossier::carbon
