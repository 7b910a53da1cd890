// The same building as an ordinary CAD program exports it: walls with layers, windows and doors, slabs and inner walls,
// in STEP form of IFC2x3, with the standard's own property sets and none of ours.
#pragma once

#include <filesystem>

namespace sample_export {

/// Writes the file, the same bytes every time. Throws std::runtime_error when it cannot be written.
void write_plain_walls(const std::filesystem::path& file);

}  // namespace sample_export
