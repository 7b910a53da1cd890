// Results that have a property in the standard's own sets, as the properties that are written there.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/graph/standard_sets.h"
#include "core/pipeline/written_back.h"
#include "core/trace/write_back/panel_results.h"
#include "core/trace/write_back/standing_sets.h"

namespace panel_dossier {

/// What was done with the rows.
struct StandardOutcome {
  std::size_t written = 0;
  std::size_t stated = 0;  ///< not written, as the export states something there
  /// Not written, as the panel's set of that name hangs on other objects too and names of sets are unique.
  std::size_t shared = 0;
};

/// The defined types of the values that the rows ask for.
std::set<std::string> types_of(const std::vector<WrittenBack>& rows, const StandardSets& standard);

/// Adds to the results of each panel, for each row, the value of its finding, in the unit of the export. Only a finding
/// that passed or informs is written, into a property that the standard gives to the panel's entity and neither the
/// panel nor its type states. Panels of `results`, `document` and `project` are joined by GlobalId.
StandardOutcome add_standard_results(std::vector<PanelResults>& results, const ResultsDocument& document,
                                     const Project& project, const std::vector<WrittenBack>& rows,
                                     const StandardSets& standard, const StandingSets& standing);

}  // namespace panel_dossier
