// Cutting plans of bars as tables and charts.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding.h"
#include "plugins/quantities/cutting/stock_plan.h"

namespace panel_dossier::quantities {

/// The plan of one section, for example `softwood`, `45 × 220`.
struct SectionPlan {
  std::string material;
  std::string section;
  std::size_t pieces = 0;
  Micrometres used = 0;  ///< length of the pieces
  StockPlan plan;
};

/// One row a section: bars to buy, and how close the plan is to the bound.
Table stock_table(const std::vector<SectionPlan>& sections);
/// One row a distinct pattern: how many bars, cut into what, and what is left of each.
Table pattern_table(const std::vector<SectionPlan>& sections, const StockRules& rules);
/// The most used patterns of the section as bars, pieces longest first and the offcut last.
BarChart pattern_chart(const SectionPlan& section, const StockRules& rules);

/// Number of bars of the plan.
std::size_t bars_of(const StockPlan& plan);

}  // namespace panel_dossier::quantities
