// Files that a command writes for people to go on with: all of them or none.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace panel_dossier {

struct PlannedFile {
  std::filesystem::path file;
  std::string text;
  bool is_new = true;
};

/// Writes all files or none, folders above them included. Throws std::runtime_error naming what cannot be written.
void write_all_or_none(const std::vector<PlannedFile>& files);

}  // namespace panel_dossier
