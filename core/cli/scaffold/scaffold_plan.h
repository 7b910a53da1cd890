// What the scaffold writes for a new check, worked out whole before anything is written.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/cli/scaffold/scaffold_names.h"

namespace panel_dossier {

struct PlannedFile {
  std::filesystem::path file;
  std::string text;
  bool is_new = true;
};

struct ScaffoldPlan {
  std::vector<PlannedFile> files;
  bool is_new_plugin = false;
  bool in_repository = false;  ///< the folder is plugins/DISCIPLINE beside core/api
};

/// Of a check in `folder`: a whole plugin where it is absent or empty, else one more check of the plugin that lies
/// there. `templates` is the folder of the scaffold's templates. Throws std::runtime_error saying what is wrong and
/// what to do: the folder holds something else or another discipline, the check or one of its files is there already, a
/// place where something must be entered is not marked, a file cannot be read.
ScaffoldPlan scaffold_plan(const ScaffoldNames& names, const std::filesystem::path& folder,
                           const std::filesystem::path& templates);

/// Writes all files or none. Throws std::runtime_error naming what cannot be written.
void write_plan(const ScaffoldPlan& plan);

}  // namespace panel_dossier
