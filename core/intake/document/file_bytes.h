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

}  // namespace panel_dossier
