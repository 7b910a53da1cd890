// What the program and its plugins say of their inputs, for the targets.
#pragma once

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace panel_dossier::fuzz {

inline const std::string kSchemaDir = PANEL_DOSSIER_SOURCE_DIR "/schemas";

/// The files of this name in the plugins' folders, by folder.
inline std::vector<std::filesystem::path> plugin_files(const char* name) {
  std::vector<std::filesystem::path> files;
  for (const auto& folder : std::filesystem::directory_iterator(PANEL_DOSSIER_SOURCE_DIR "/plugins")) {
    if (std::filesystem::exists(folder.path() / name)) files.push_back(folder.path() / name);
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace panel_dossier::fuzz
