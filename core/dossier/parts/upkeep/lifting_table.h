// What each panel weighs, where its weight acts, and what lifts it.
#pragma once

#include <string_view>

#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// The coordinate `id` of a centre of gravity (`from_left_edge`, …); a dash where the panel has none.
Cell coordinate_cell(const RecordedFinding* centre, std::string_view id);

/// One table for whoever lifts: load, mass, hook load against the crane at its radius, pull in the lifting points,
/// turning up and centre of gravity of each panel, the heaviest first.
void write_lifting_table(Book& book);

}  // namespace panel_dossier
