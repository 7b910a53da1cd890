// Values of the export that cannot be, or hardly can.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/claims/confirmations.h"
#include "core/intake/claims/material_kinds.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/property_list.h"

namespace panel_dossier {

/// Goes through every property of the project that `rows` know. A number outside of its range is an error: the export
/// is refused. One outside of what is usual, of that kind of material or in general, is withheld from every check
/// unless it is confirmed; so are a word that is none of the listed ones and a date that is no day of the calendar.
/// Each is reported with its line, once where several panels share it.
void withhold_implausible(Project& project, const std::vector<PropertyRow>& rows, const MaterialKinds& kinds,
                          Confirmations& confirmations, Reporter& report);

}  // namespace panel_dossier
