// An export of any form that is read, as a graph.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string_view>

#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/graph.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

/// What is done with the graph; `size` is that of the text in bytes. The graph and its elements end with the call.
using GraphUse = std::function<void(const Graph& graph, Generation generation, std::size_t size)>;

/// Opens ifcXML in UTF-8, UTF-16 or Latin-1, a STEP file, or one of these in a zip archive, and calls `use` with its
/// graph unless the export cannot be read, which is reported. Gives the generation as soon as it is known.
Generation open_export(std::string_view bytes, const std::filesystem::path& schema_dir, Graph::Keep keep,
                       Reporter& report, const GraphUse& use);

}  // namespace panel_dossier
