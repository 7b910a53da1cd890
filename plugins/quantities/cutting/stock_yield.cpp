#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/fixed_text.h"
#include "core/api/support/units.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/bar_packing.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/cutting/stock_report.h"
#include "plugins/quantities/cutting/stock_settings.h"
#include "plugins/quantities/sheets/planned_loss.h"

namespace panel_dossier::quantities {

namespace {

/// More of one kind make a reason unreadable.
constexpr std::size_t kPartsNamed = 5;

/// Material, width and thickness: pieces of one section are cut from the same bars.
using Section = std::tuple<std::string, Micrometres, Micrometres>;
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
  for (const Panel& panel : project.panels) {
    const CutParts cut = cut_parts(panel);
    if (!cut.missing.empty()) finding.missing("panel '" + panel.mark + "': " + cut.missing.front());
    for (const CutPart& piece : cut.parts) {
      const Part& part = panel.parts[piece.part];
      if (!is_framing(part.kind)) continue;
      sections[{material_name(project, part), piece.width, piece.thickness}].push_back(piece.length);
      if (longest == 0 || piece.length <= longest || ++too_long > kPartsNamed) continue;
      finding.missing("part '" + part.name + "' of panel '" + panel.mark +
                      "' is longer than any stock length; add a "
                      "longer one to 'quantities.stock_lengths_m' or joint the member");
    }
  }
  if (too_long > kPartsNamed) {
    finding.missing(std::to_string(too_long - kPartsNamed) + " more parts are longer than any stock length");
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
  FindingBuilder finding("quantities.stock_yield", "Yield of framing from stock bars", "",
                         "Gilmore and Gomory, 1961, column generation with the bound of its linear program; bars: L2 "
                         "of Martello and Toth, 1990, chapter 8 (from memory)");
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
  finding.table(stock_table(sections)).table(loss_table(project, volumes)).table(pattern_table(sections, rules));
  for (const SectionPlan& section : sections) finding.bar_chart(pattern_chart(section, rules));
  finding.note("Cut across all panels of the project as one batch; one saw cut between neighbouring pieces.");
  finding.note(rules.defects > 0
                   ? "What is left of a bar includes the allowance for defects, less the saw cut of its last piece."
                   : "No allowance for defects or for trimming ends: setting "
                     "'quantities.stock_defect_allowance_m' is not given.");
  return finding.inform(units::kPercentPerWhole * metres(totals.used) / metres(totals.bought), "%");
}

}  // namespace panel_dossier::quantities
