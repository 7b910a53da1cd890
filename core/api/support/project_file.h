// Files beside the export or the settings, named by paths that came from outside.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>

#include "core/api/model/project.h"

namespace panel_dossier {

/// Looks up `location`, relative to `folder`. Nothing outside `folder` is opened or even looked at beyond resolving
/// links; an absolute path, a URL and a path that leads out are refused whether or not something is there.
EvidenceStatus find_evidence_file(const std::filesystem::path& folder, const std::string& location);

/// The file up to one byte more than `limit_bytes`, so that a larger text tells of a larger file, also of one that
/// grows meanwhile; none when it cannot be read.
std::optional<std::string> load_at_most(const std::filesystem::path& file, std::size_t limit_bytes);

}  // namespace panel_dossier
