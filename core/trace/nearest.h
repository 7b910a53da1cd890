// Nearest spellings, for messages about a name that does not exist.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// Least number of single-character insertions, deletions and substitutions (bytes) that turn `a` into `b`.
std::size_t edit_distance(std::string_view a, std::string_view b);

/// At most `most` of the names, nearest first; equally near ones in their given order. Names that share less than half
/// of the longer spelling are left out.
std::vector<std::string> nearest(std::string_view wanted, const std::vector<std::string>& names, std::size_t most);

}  // namespace panel_dossier
