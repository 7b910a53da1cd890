// The first pass over an export: is it safe, well-formed, and does it keep to our schema?
#pragma once

#include <filesystem>
#include <string_view>

#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// Elements may be nested this deep; genuine exports stay below 60. Everything that walks the tree relies on it.
inline constexpr int kMaxDepth = 200;

/// Name of the schema of the flat form (IFC2x3) or of the nested one (IFC4, IFC4X3).
const char* schema_file_of(bool is_flat);

/// Streams the text through libxml2 once, without building a tree, without network and without resolving entities.
/// False when the text must not be read further: it is not well-formed, nests too deep, or carries a document type
/// declaration. Breaches of the schema are reported and leave the text readable.
bool check_xml(std::string_view text, const std::filesystem::path& schema_dir, Reporter& report);

}  // namespace panel_dossier
