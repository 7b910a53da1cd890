// Where every figure of one panel comes from, as text for a terminal; and which panel may be meant by a wrong name.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// The panel's hashes, its path to the root of the hash tree, and every finding with value, limit, verdict, clause,
/// inputs with their origins, and steps. Says where findings, a derivation or the path are not those that were hashed.
/// `panel` is a mark or a GlobalId. Numbers that were inputs or steps are shown in full. Throws std::runtime_error when
/// there is no such panel, naming the nearest marks.
std::string panel_text(const ResultsDocument& results, std::string_view panel);

/// Least number of single-character insertions, deletions and substitutions (bytes) that turn `a` into `b`.
std::size_t edit_distance(std::string_view a, std::string_view b);

/// At most `most` of the names, nearest first; equally near ones in their given order. Names that share less than half
/// of the longer spelling are left out.
std::vector<std::string> nearest(std::string_view wanted, const std::vector<std::string>& names, std::size_t most);

}  // namespace panel_dossier
