// The order and the batches in which panels are made and erected.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities {

struct ErectionSequence {
  std::vector<std::size_t> panels;              ///< indices into Project::panels; all of them when nothing is wrong
  std::vector<std::vector<std::size_t>> after;  ///< by panel: the panels that `Panel_Identity.After` names
  std::vector<std::string> problems;            ///< what is missing, repeated or goes in a circle, and what to do
  Table concerned;  ///< every panel of a problem that names the first few alone; without rows where there is none
  std::size_t late_bearing = 0;  ///< load-bearing panels that follow one of a storey above them in their building
};

/// Panels by `Panel_Identity.ErectionOrder` (whole numbers from 1, gaps allowed), and by `Panel_Identity.After`: the
/// mark, or marks separated by `;`, of panels that stand before it. A panel with `After` alone follows straight upon
/// the last of those. O(n log n).
ErectionSequence erection_sequence(const Project& project);

/// Panel_Identity.ErectionOrder, from 1; none when absent or no whole number from 1.
std::optional<int> erection_order(const Panel& panel);

/// Panel_Identity.Batch; else the erection order counted off by setting `quantities.panels_per_batch` (`1`, `2`, …);
/// empty when neither tells.
std::string batch_of(const Panel& panel, const Settings& settings);

/// For sorting: batches that are numbers in their order, then the others.
bool batch_before(const std::string& a, const std::string& b);

}  // namespace panel_dossier::quantities
