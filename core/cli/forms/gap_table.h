// What is missing, discipline by discipline: where it can come from and how many panels wait for it.
#pragma once

#include <string>
#include <vector>

#include "core/intake/records/record_tables.h"
#include "core/pipeline/gaps.h"

namespace panel_dossier {

/// Where a person would write it down: `settings.json`, `library: materials`, `records: as_built`, `the export`.
std::string place_of_gap(const Gap& gap, const std::vector<RecordTable>& records);

/// A block a discipline: its state in one line, then one line for each thing that it misses, those first for which most
/// panels wait. Ends with a newline.
std::string gap_table(const std::vector<Gap>& gaps, const std::vector<DisciplineState>& states,
                      const std::vector<RecordTable>& records);

}  // namespace panel_dossier
