// GlobalIds: well-formed and unique.
#pragma once

#include <string_view>

#include "core/intake/document/reporter.h"
#include "core/intake/graph/graph.h"

namespace panel_dossier {

/// 22 characters of 0-9 A-Z a-z _ $, of which the first holds 2 bits only: IfcGloballyUniqueId, ISO 16739-1.
bool is_global_id(std::string_view text);

/// Reports malformed and repeated GlobalIds.
void check_identities(const Graph& graph, Reporter& report);

}  // namespace panel_dossier
