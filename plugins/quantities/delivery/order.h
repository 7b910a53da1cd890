// The order in which panels are erected, as the export states it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier::quantities {

struct ErectionSequence {
  std::vector<std::size_t> panels;              ///< indices into Project::panels; all of them when nothing is wrong
  std::vector<std::vector<std::size_t>> after;  ///< by panel: the panels that `Panel_Identity.After` names
  std::vector<std::string> problems;            ///< what is missing, repeated or goes in a circle, and what to do
  std::size_t late_bearing = 0;  ///< load-bearing panels that follow one of a storey above them in their building
};

/// Panels by `Panel_Identity.ErectionOrder` (whole numbers from 1, gaps allowed), and by `Panel_Identity.After`: the
/// mark, or marks separated by `;`, of panels that stand before it. A panel with `After` alone follows straight upon
/// the last of those. O(n log n).
ErectionSequence erection_sequence(const Project& project);

}  // namespace panel_dossier::quantities
