// Findings that are worked out alike.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// A finding of a panel, by indices into ResultsDocument::panels and PanelSummary::findings.
struct FindingPlace {
  std::size_t panel = 0;
  std::size_t finding = 0;
};

/// For every finding of every panel the first earlier one with the same working: equal in all but the panel and the
/// places of the export that its inputs come from. None for the first of its kind.
std::vector<std::vector<std::optional<FindingPlace>>> earlier_workings(const std::vector<PanelSummary>& panels);

}  // namespace panel_dossier
