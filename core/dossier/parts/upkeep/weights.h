// Cells of what a panel weighs and where its weight acts.
#pragma once

#include <string_view>

#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// The coordinate `id` of a centre of gravity (`from_left_edge`, …); a dash where the panel has none.
Cell coordinate_cell(const RecordedFinding* centre, std::string_view id);

}  // namespace panel_dossier
