// Whole files, read and replaced. Private to the seal stage.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace panel_dossier {

/// Throws std::runtime_error with the reason when the file cannot be read.
std::string read_bytes(const std::filesystem::path& file);

/// Writes beside the file and renames, so that a killed run leaves the old file or the new one, never a half. Throws
/// std::runtime_error with the reason and leaves the old file.
void replace_file(const std::filesystem::path& file, std::string_view bytes);

}  // namespace panel_dossier
