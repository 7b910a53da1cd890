// Whole files in and out.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace panel_dossier {

/// Throws std::runtime_error naming the file and the reason.
std::string read_file(const std::filesystem::path& file);

/// Throws std::runtime_error naming the file and the reason, also when the disk is full.
void write_file(const std::filesystem::path& file, std::string_view bytes);

/// Writes beside the file and renames, so that a killed run leaves the old file or the new one, never a half. Throws as
/// `write_file`, also when the file system refuses to rename; the old file then stays.
void write_in_one_step(const std::filesystem::path& file, std::string_view bytes);

}  // namespace panel_dossier
