// Project totals from the findings of the panels.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"

namespace panel_dossier::quantities {

/// What is added up. With a `merged_title`, the first tables of the panels' findings are merged too: they have text
/// columns first and numeric columns after, and rows of equal text become one row with the numbers added.
struct TotalOf {
  std::string check;
  std::string title;
  std::string clause;
  std::string unit;
  int decimals = 0;
  std::string merged_title;  ///< empty: no merged table
};

/// Adds the panels' values of the check exactly (see core/api/support/exact_sum.h), with a table by storey and panel
/// type. `not assessed`, naming the panels, when any panel has no value.
Finding project_total(const TotalOf& what, const Project& project, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::quantities
