// The data tables as they are shipped, and a solver of junction details.
#pragma once

#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::testing {

inline const thermal::Tables& thermal_tables() {
  static const thermal::Tables tables(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  return tables;
}

/// One for all tests: solved details depend on nothing but their models.
inline thermal::conduction::DetailSolver& detail_solver() {
  static thermal::conduction::DetailSolver solver;
  return solver;
}

}  // namespace panel_dossier::testing
