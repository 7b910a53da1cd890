// The sample project, and the build of it that the tests of this folder share.
#pragma once

#include <filesystem>
#include <string>

#include "tests/support/command.h"

namespace panel_dossier {

inline std::filesystem::path sample_folder() {
  return std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "sample_project";
}

inline std::filesystem::path sample_export() {
  return sample_folder() / "health-centre.ifcxml";
}

/// Output of the build that CTest makes before any test of this folder.
inline std::filesystem::path sample_out() {
  return PANEL_DOSSIER_SAMPLE_OUT;
}

inline std::string quoted(const std::filesystem::path& path) {
  return "'" + path.string() + "'";
}

/// `panel-dossier build EXPORT --out OUT` with the time the shared build has.
inline std::string build_command(const std::filesystem::path& export_file, const std::filesystem::path& out) {
  return quoted(PANEL_DOSSIER_PROGRAM) + " build " + quoted(export_file) + " --out " + quoted(out) +
         " --build-time " PANEL_DOSSIER_SAMPLE_TIME;
}

}  // namespace panel_dossier
