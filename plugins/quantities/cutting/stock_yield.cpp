#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/bar_packing.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/cutting_problem.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/cutting/stock_plan.h"
#include "plugins/quantities/sheets/planned_loss.h"

namespace panel_dossier::quantities {

const CheckDeclaration kStockYieldCheck{
    .id = "quantities.stock_yield",
    .title = "Yield of framing from stock bars",
    .project_title = {},
    .sentence =
        "All framing members of the project can be cut from the bars of the cutting plan; the yield is their length "
        "over the stock length bought, beside a stock length that no plan can save.",
    .clause =
        "Gilmore and Gomory, 1961, column generation with the bound of its linear program; bars: L2 of Martello "
        "and Toth, 1990, chapter 8 (from memory)",
    .units = {"%"},
    .kind = CheckKind::figure,
    .scope = CheckScope::project,
    .inputs = with_model({setting("quantities.stock_lengths_m.*"), setting("quantities.saw_kerf_m"),
                          optional_setting("quantities.stock_defect_allowance_m"),
                          optional_property("Panel_EnvironmentalDeclaration.WasteRateA5")}),
    .limits = {"Where splits and knots lie in a bar: the allowance is taken from its length.",
               "Stock already in store, and offcuts that are kept for another project.",
               "Finger-jointed members: each member is cut from one bar.",
               "Batches: bars are planned for the whole project at once."},
    .role = {},
    .for_workshop = true};

namespace {

/// The plan of one section, for example `softwood`, `45 × 220`.
struct SectionPlan {
  MaterialKey material;
  std::string section;
  std::size_t pieces = 0;
  Micrometres used = 0;  ///< length of the pieces
  StockPlan plan;
};

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

std::size_t bars_of(const StockPlan& plan) {
  std::size_t bars = 0;
  for (const RepeatedPattern& repeated : plan.patterns) bars += static_cast<std::size_t>(repeated.times);
  return bars;
}

/// One row a section: bars to buy, and how close the plan is to the bound.
Table stock_table(const Project& project, const std::vector<SectionPlan>& sections) {
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
    table.rows.push_back({printed_name(project, section.material), section.section, static_cast<double>(section.pieces),
                          metres(section.used), bars_in_words(section.plan), metres(section.plan.bought),
                          metres(section.plan.bound),
                          units::kPercentPerWhole * metres(section.used) / metres(section.plan.bought)});
  }
  return table;
}

/// One row a distinct pattern: how many bars, cut into what, and what is left of each.
Table pattern_table(const Project& project, const std::vector<SectionPlan>& sections, const StockRules& rules) {
  Table table{
      "Cutting plan",
      {{"material", ""}, {"section", "mm"}, {"bars", ""}, {"stock", "m"}, {"cut into", "mm"}, {"left of each", "mm"}},
      {}};
  for (const SectionPlan& section : sections) {
    for (const RepeatedPattern& repeated : section.plan.patterns) {
      table.rows.push_back({printed_name(project, section.material), section.section,
                            static_cast<double>(repeated.times), metres(repeated.pattern.stock),
                            cuts_in_words(repeated.pattern, section.plan.demands),
                            millimetres(offcut(repeated.pattern, section.plan.demands, rules))});
    }
  }
  return table;
}

/// The most used patterns of the section as bars, pieces longest first and the offcut last.
BarChart pattern_chart(const Project& project, const SectionPlan& section, const StockRules& rules) {
  BarChart chart{printed_name(project, section.material) + " " + section.section + " mm",
                 "along the bar",
                 "m",
                 {"piece", "next piece", "offcut"},
                 {}};
  const std::vector<RepeatedPattern>& patterns = section.plan.patterns;
  const std::size_t count = std::min(patterns.size(), kMostBarsDrawn);
  for (std::size_t i = 0; i < count; ++i) chart.bars.push_back(drawn(patterns[i], section.plan.demands, rules));
  if (count < patterns.size()) {
    chart.title += ", the " + std::to_string(count) + " most used of " + std::to_string(patterns.size()) + " patterns";
  }
  return chart;
}

/// More of one kind make a reason unreadable.
constexpr std::size_t kPartsNamed = 5;

/// Material, width and thickness: pieces of one section are cut from the same bars.
using Section = std::tuple<MaterialKey, Micrometres, Micrometres>;
using Lengths = std::vector<Micrometres>;

struct Totals {
  std::size_t pieces = 0;
  std::size_t bars = 0;
  std::size_t fewest_bars = 0;
  Micrometres used = 0;
  Micrometres bought = 0;
  Micrometres bound = 0;
};

/// Framing of all panels by section. Notes panels whose pieces are not known and pieces longer than the longest bar.
std::map<Section, Lengths> framing_by_section(FindingBuilder& finding, const Project& project, Micrometres longest) {
  std::map<Section, Lengths> sections;
  std::size_t too_long = 0;
  Table all{"Parts longer than any stock length", {{"panel", ""}, {"part", ""}, {"length", "m"}}, {}};
  for (const Panel& panel : project.panels) {
    const CutParts cut = cut_parts(panel);
    if (!cut.missing.empty()) finding.missing("panel '" + panel.mark + "': " + cut.missing.front());
    for (const CutPart& piece : cut.parts) {
      const Part& part = panel.parts[piece.part];
      if (!is_framing(part.kind)) continue;
      sections[{material_key(project, part.material), piece.width, piece.thickness}].push_back(piece.length);
      if (longest == 0 || piece.length <= longest) continue;
      all.rows.push_back({panel.mark, part.name, metres(piece.length)});
      if (++too_long > kPartsNamed) continue;
      finding.missing("part '" + part.name + "' of panel '" + panel.mark +
                      "' is longer than any stock length; add a "
                      "longer one to 'quantities.stock_lengths_m' or joint the member");
    }
  }
  if (too_long > kPartsNamed) {
    finding.missing(std::to_string(too_long - kPartsNamed) +
                    " more parts are longer than any stock length, all in the table '" + all.title + "'");
    finding.table(std::move(all));
  }
  return sections;
}

SectionPlan plan_section(const Section& section, const Lengths& lengths, const StockRules& rules) {
  const auto& [material, width, thickness] = section;
  SectionPlan result{material, section_name(thickness, width), lengths.size(), 0, plan_stock(lengths, rules)};
  for (const Micrometres length : lengths) result.used += length;
  return result;
}

void add_to(Totals& totals, const SectionPlan& section, const Lengths& lengths, const StockRules& rules) {
  totals.pieces += section.pieces;
  totals.bars += bars_of(section.plan);
  totals.fewest_bars += fewest_bars(lengths, rules.lengths.back() - rules.defects, rules.kerf);
  totals.used += section.used;
  totals.bought += section.plan.bought;
  totals.bound += section.plan.bound;
}

void add_to(PlannedVolumes& volumes, const Section& section, const SectionPlan& plan) {
  const auto& [material, width, thickness] = section;
  const double section_m2 = metres(width) * metres(thickness);
  volumes[material].built_in_m3 += section_m2 * metres(plan.used);
  volumes[material].bought_m3 += section_m2 * metres(plan.plan.bought);
}

void add_steps(FindingBuilder& finding, const Totals& totals) {
  const double gap = units::kPercentPerWhole * (metres(totals.bought) / metres(totals.bound) - 1.0);
  finding.step("framing pieces", "n", static_cast<double>(totals.pieces), "")
      .step("framing length", "Σl", metres(totals.used), "m")
      .step("stock length bought", "ΣL", metres(totals.bought), "m")
      .step("stock length that every plan needs (proven)", "ΣL_min", metres(totals.bound), "m")
      .step("the plan above that at most", "gap", gap, "%", "gap = ΣL / ΣL_min − 1")
      .step("bars by the cutting plan", "N", static_cast<double>(totals.bars), "")
      .step("bars that no plan can save, all of the longest stock", "N_min", static_cast<double>(totals.fewest_bars),
            "");
}

}  // namespace

Finding stock_yield(const Project& project, const Settings& settings) {
  FindingBuilder finding(kStockYieldCheck, "");
  finding.decimals(1);
  const StockRules rules = read_stock_rules(finding, settings);
  const Micrometres longest = rules.lengths.empty() ? 0 : rules.lengths.back() - rules.defects;
  const std::map<Section, Lengths> pieces = framing_by_section(finding, project, longest);
  if (pieces.empty()) finding.missing("the export gives no framing members");
  if (finding.incomplete()) return finding.not_assessed();

  Totals totals;
  PlannedVolumes volumes;
  std::vector<SectionPlan> sections;
  for (const auto& [section, lengths] : pieces) {
    sections.push_back(plan_section(section, lengths, rules));
    add_to(volumes, section, sections.back());
    add_to(totals, sections.back(), lengths, rules);
  }
  add_steps(finding, totals);
  finding.table(stock_table(project, sections))
      .table(loss_table(project, volumes))
      .table(pattern_table(project, sections, rules));
  for (const SectionPlan& section : sections) finding.bar_chart(pattern_chart(project, section, rules));
  finding.note("Cut across all panels of the project as one batch; one saw cut between neighbouring pieces.");
  finding.note(rules.defects > 0
                   ? "What is left of a bar includes the allowance for defects, less the saw cut of its last piece."
                   : "No allowance for defects or for trimming ends: setting "
                     "'quantities.stock_defect_allowance_m' is not given.");
  return finding.inform(units::kPercentPerWhole * metres(totals.used) / metres(totals.bought), "%");
}

}  // namespace panel_dossier::quantities
