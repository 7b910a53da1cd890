// The whole document: project, site, buildings, storeys and everything in them.
#pragma once

#include <filesystem>
#include <vector>

#include "sample_project/generator/building.h"

namespace sample_export {

/// Throws std::runtime_error when the file cannot be written.
void write_export(const std::filesystem::path& file, const std::vector<PlacedPanel>& panels);

}  // namespace sample_export
