// Key plans and faces of the building on the page: each panel with its mark, its openings and its most urgent verdict.
#pragma once

#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// Plans of all storeys to one scale, then the faces to one scale, with a legend before each.
void write_key_plans(Book& book);

}  // namespace panel_dossier
