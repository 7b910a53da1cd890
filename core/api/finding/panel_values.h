// The values that one check gave panel by panel, for totals of the project.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"

namespace panel_dossier {

struct PanelValue {
  const Panel* panel = nullptr;      ///< lives as long as the project
  const Finding* finding = nullptr;  ///< lives as long as the findings it was gathered from
  double value = 0.0;
};

struct PanelValues {
  std::vector<PanelValue> entries;         ///< in the project's panel order
  std::vector<std::string> marks_without;  ///< marks of the panels whose finding has no number
  bool lacks_evidence_only = false;        ///< each of those is `evidence needed`

  bool whole() const { return marks_without.empty() && !entries.empty(); }
  /// Why a total cannot be given: `3 panels have no sound.reduction_index: A1, A2, A3`; empty when `whole()`.
  std::string what_is_missing(std::string_view check) const;
};

/// Gathers the numbers of `check`, for example `sound.reduction_index`.
PanelValues panel_values(const std::vector<PanelFindings>& panels, std::string_view check);

}  // namespace panel_dossier
