// Where every figure of one panel comes from, as text for a terminal.
#pragma once

#include <string>
#include <string_view>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// The panel's hashes, its path to the root of the hash tree, and every finding with value, limit, verdict, clause,
/// inputs with their origins, and steps. `panel` is a mark or a GlobalId. Numbers that were inputs or steps are shown
/// in full. Throws std::runtime_error when there is no such panel, naming the nearest marks.
std::string derivation_text(const ResultsDocument& results, std::string_view panel);

}  // namespace panel_dossier
