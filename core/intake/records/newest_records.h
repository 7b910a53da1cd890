// What the newest records say, against what the export says.
#pragma once

#include <vector>

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/records/record_tables.h"

namespace panel_dossier {

/// Gives each panel, and the building, the properties that its newest records feed and the export leaves open. Of a
/// table with results, one subject's newest row counts, and of several subjects the worst result; of air tests and of
/// exposure to the weather the newest row alone, for it speaks of one thing. A property is withheld where export and
/// record say different things, or two rows of one day do; both are named, in a warning too. Precondition: the records
/// of each panel are by day, then in the order of their rows.
void apply_newest_records(Project& project, const std::vector<RecordTable>& tables, Diagnostics& diagnostics);

}  // namespace panel_dossier
