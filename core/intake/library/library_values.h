// What the products of a library say, put where the export leaves it open.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/claims/confirmations.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/library/library_rows.h"

namespace panel_dossier {

/// Joins materials, fasteners and the fillings of openings with the products and adds the properties that the export
/// does not state; the export's own stand. Where both state one and differ by more than rounding, or one states the
/// standard's property and the other ours that says the same, it is withheld from every check unless the export's
/// number is confirmed, and reported with both places. Two products that match by one rule are an error. A product of
/// another name or maker than the export states is passed over with a warning, as is one of a library before another.
/// Marks the products that were used. `export_file` is its name in messages.
void add_library_values(Project& project, std::vector<LibraryProduct>& products, const std::vector<PropertyRow>& rows,
                        Confirmations& confirmations, const std::string& export_file, Diagnostics& diagnostics);

}  // namespace panel_dossier
