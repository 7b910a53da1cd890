// Which entities the reader looks at.
#pragma once

#include <string_view>

namespace panel_dossier {

/// Entities that the reader starts from, so that the graph keeps a list of each.
bool is_listed_type(std::string_view type);

/// Entities that are read when another one leads to them, or that carry nothing but structure. All others are
/// counted as skipped.
bool is_read_type(std::string_view type);

/// Walls of all generations.
bool is_wall_type(std::string_view type);

}  // namespace panel_dossier
