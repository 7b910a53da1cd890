#include "plugins/quantities/cutting/stock_report.h"

#include <algorithm>
#include <map>

#include "core/api/support/fixed_text.h"
#include "core/api/support/units.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

namespace {

/// More bars than these make a chart that no page holds; the table has them all.
constexpr std::size_t kMostBarsDrawn = 14;

/// Parts of the chart. Neighbouring pieces take turns so that the cut between them shows.
constexpr std::size_t kPiece = 0;
constexpr std::size_t kNextPiece = 1;
constexpr std::size_t kOffcut = 2;

/// For example `2 × 4.800 m, 1 × 6.000 m`, short bars first.
std::string bars_in_words(const StockPlan& plan) {
  std::map<Micrometres, int> counts;
  for (const RepeatedPattern& repeated : plan.patterns) counts[repeated.pattern.stock] += repeated.times;
  std::string words;
  for (const auto& [length, count] : counts) {
    words += (words.empty() ? "" : ", ") + std::to_string(count) + " × " + fixed_text(metres(length), 3) + " m";
  }
  return words;
}

std::string cuts_in_words(const CutPattern& pattern, const std::vector<LengthDemand>& demands) {
  std::string words;
  for (const auto& [item, count] : pattern.pieces) {
    words += (words.empty() ? "" : ", ") + std::to_string(count) + " × " + millimetres_text(demands[item].length);
  }
  return words;
}

/// What is left of a bar, the allowance for defects in it; the last cut takes its kerf from it where it can.
Micrometres offcut(const CutPattern& pattern, const std::vector<LengthDemand>& demands, const StockRules& rules) {
  return std::max<Micrometres>(0, pattern.stock - taken_by(pattern, demands, rules.kerf));
}

panel_dossier::Bar drawn(const RepeatedPattern& repeated, const std::vector<LengthDemand>& demands,
                         const StockRules& rules) {
  panel_dossier::Bar bar{std::to_string(repeated.times) + " × " + fixed_text(metres(repeated.pattern.stock), 1) + " m",
                         {}};
  Micrometres at = 0;
  for (const auto& [item, count] : repeated.pattern.pieces) {
    for (int i = 0; i < count; ++i) {
      const Micrometres end = at + demands[item].length;
      bar.pieces.push_back({bar.pieces.size() % 2 == 0 ? kPiece : kNextPiece, metres(at), metres(end)});
      at = end + rules.kerf;
    }
  }
  if (at < repeated.pattern.stock) bar.pieces.push_back({kOffcut, metres(at), metres(repeated.pattern.stock)});
  return bar;
}

}  // namespace

std::size_t bars_of(const StockPlan& plan) {
  std::size_t bars = 0;
  for (const RepeatedPattern& repeated : plan.patterns) bars += static_cast<std::size_t>(repeated.times);
  return bars;
}

Table stock_table(const std::vector<SectionPlan>& sections) {
  Table table{"Stock bars by section",
              {{"material", ""},
               {"section", "mm"},
               {"pieces", ""},
               {"framing length", "m"},
               {"bars to buy", ""},
               {"bought", "m"},
               {"no plan below", "m"},
               {"yield", "%"}},
              {}};
  for (const SectionPlan& section : sections) {
    table.rows.push_back({section.material, section.section, static_cast<double>(section.pieces), metres(section.used),
                          bars_in_words(section.plan), metres(section.plan.bought), metres(section.plan.bound),
                          units::kPercentPerWhole * metres(section.used) / metres(section.plan.bought)});
  }
  return table;
}

Table pattern_table(const std::vector<SectionPlan>& sections, const StockRules& rules) {
  Table table{
      "Cutting plan",
      {{"material", ""}, {"section", "mm"}, {"bars", ""}, {"stock", "m"}, {"cut into", "mm"}, {"left of each", "mm"}},
      {}};
  for (const SectionPlan& section : sections) {
    for (const RepeatedPattern& repeated : section.plan.patterns) {
      table.rows.push_back({section.material, section.section, static_cast<double>(repeated.times),
                            metres(repeated.pattern.stock), cuts_in_words(repeated.pattern, section.plan.demands),
                            millimetres(offcut(repeated.pattern, section.plan.demands, rules))});
    }
  }
  return table;
}

BarChart pattern_chart(const SectionPlan& section, const StockRules& rules) {
  BarChart chart{
      section.material + " " + section.section + " mm", "along the bar", "m", {"piece", "next piece", "offcut"}, {}};
  const std::vector<RepeatedPattern>& patterns = section.plan.patterns;
  const std::size_t count = std::min(patterns.size(), kMostBarsDrawn);
  for (std::size_t i = 0; i < count; ++i) chart.bars.push_back(drawn(patterns[i], section.plan.demands, rules));
  if (count < patterns.size()) {
    chart.title += ", the " + std::to_string(count) + " most used of " + std::to_string(patterns.size()) + " patterns";
  }
  return chart;
}

}  // namespace panel_dossier::quantities
