// The bytes of the export: loading them and telling whether they are text at all.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// The whole file, or none with the reason reported.
std::optional<std::string> load_file(const std::filesystem::path& file, Reporter& report);

/// True for non-empty UTF-8 that declares itself as such. Reports anything else.
bool check_encoding(std::string_view text, Reporter& report);

}  // namespace panel_dossier
