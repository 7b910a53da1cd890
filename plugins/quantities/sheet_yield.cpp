#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/api/exact_sum.h"
#include "core/api/finding_builder.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/part_names.h"
#include "plugins/quantities/production.h"
#include "plugins/quantities/sheet_bound.h"
#include "plugins/quantities/sheet_pieces.h"
#include "plugins/quantities/sheet_report.h"
#include "plugins/quantities/stock_settings.h"

namespace panel_dossier::quantities {

namespace {

constexpr double kPercent = 100.0;

struct BatchBefore {
  bool operator()(const std::string& a, const std::string& b) const { return batch_before(a, b); }
};
using ByBatch = std::map<std::string, std::vector<FlatPiece>, BatchBefore>;

bool fits_any(const FlatPiece& piece, const SheetRules& rules) {
  return std::any_of(rules.sizes.begin(), rules.sizes.end(),
                     [&](const FlatSize& sheet) { return fits(piece.size, sheet, rules.may_turn); });
}

/// Sizes to nest by; notes a material without sheets and pieces that no sheet holds.
SheetRules rules_for(FindingBuilder& finding, const Settings& settings, const FlatGroup& group,
                     std::vector<FlatPiece>& pieces, Micrometres kerf, Micrometres oversize) {
  SheetRules rules = sheet_rules(finding, settings, group.first, kerf);
  if (rules.sizes.empty()) {
    finding.missing("setting 'quantities.sheet_sizes_m' has no sheet of '" + group.first +
                    "': an entry with its material, width and length");
    return rules;
  }
  for (FlatPiece& piece : pieces) {
    piece.size = cut_size(piece.size, piece.kind, oversize, rules);
    if (fits_any(piece, rules)) continue;
    finding.missing(
        piece.part_name + " (" + section_name(piece.size.width, piece.size.length) + " mm) fits no sheet of '" +
        group.first +
        "'; add a larger one to 'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part");
  }
  return rules;
}

SheetPlan plan_batch(const FlatGroup& group, const std::string& batch, const std::vector<FlatPiece>& pieces,
                     const SheetRules& rules) {
  std::vector<FlatSize> sizes;
  sizes.reserve(pieces.size());
  ExactSum net_m2;
  for (const FlatPiece& piece : pieces) {
    sizes.push_back(piece.size);
    net_m2.add(piece.net_m2);
  }
  const std::vector<CutSheet> sheets = nest_sheets(sizes, rules);
  return {group.first,
          group.second,
          batch,
          pieces.size(),
          net_m2.total(),
          bought_area_m2(sheets),
          sheet_area_bound_m2(sizes, rules),
          layouts_of(sheets)};
}

/// By batch, then by material and thickness.
std::vector<SheetPlan> plan_all(const std::vector<std::pair<FlatGroup, SheetRules>>& rules, FlatGroups& groups) {
  std::map<std::string, std::vector<SheetPlan>, BatchBefore> plans;
  for (const auto& [group, sheets] : rules) {
    ByBatch batches;
    for (FlatPiece& piece : groups[group]) batches[piece.batch].push_back(std::move(piece));
    for (const auto& [batch, pieces] : batches) plans[batch].push_back(plan_batch(group, batch, pieces, sheets));
  }
  std::vector<SheetPlan> all;
  for (auto& [batch, of_batch] : plans) std::move(of_batch.begin(), of_batch.end(), std::back_inserter(all));
  return all;
}

Finding report(FindingBuilder& finding, const std::vector<SheetPlan>& plans) {
  std::size_t pieces = 0;
  ExactSum net_m2;
  ExactSum bought_m2;
  ExactSum bound_m2;
  for (const SheetPlan& plan : plans) {
    pieces += plan.pieces;
    net_m2.add(plan.net_m2);
    bought_m2.add(plan.bought_m2);
    bound_m2.add(plan.bound_m2);
  }
  const double gap = kPercent * (bought_m2.total() / bound_m2.total() - 1.0);
  finding.step("pieces", "n", static_cast<double>(pieces), "")
      .step("net area of the pieces", "A", net_m2.total(), "m²")
      .step("area of sheets bought", "A_s", bought_m2.total(), "m²")
      .step("area that every plan needs (proven)", "A_min", bound_m2.total(), "m²")
      .step("the plan above that at most", "gap", gap, "%", "gap = A_s / A_min − 1");
  finding.table(sheet_table(plans)).table(batch_table(plans));
  const Table rest = layout_table(plans);
  if (!rest.rows.empty()) finding.table(rest);
  for (Drawing& drawing : layout_drawings(plans)) finding.drawing(std::move(drawing));
  finding.note(
      "Cut from edge to edge, across all panels of a batch, so offcuts serve the batch's other panels. Pieces stand "
      "upright as in the panel unless the settings let a material turn. A board around an opening is cut from its "
      "whole rectangle; what falls out of it is not used again.");
  return finding.inform(kPercent * net_m2.total() / bought_m2.total(), "%");
}

}  // namespace

Finding sheet_yield(const Project& project, const Settings& settings) {
  FindingBuilder finding("quantities.sheet_yield", "Yield of sheets and insulation slabs", "",
                         "Guillotine cutting by best fit; bound by dual feasible functions, Fekete and Schepers, 2004 "
                         "(from memory)");
  finding.decimals(1);
  const Micrometres kerf = read_saw_kerf(finding, settings);
  const Micrometres oversize = read_oversize(finding, settings);
  FlatGroups groups = flat_pieces(finding, project, settings);
  if (groups.empty()) finding.missing("the export gives no sheets, slabs or cladding boards");
  std::vector<std::pair<FlatGroup, SheetRules>> rules;
  for (auto& [group, pieces] : groups) {
    rules.emplace_back(group, rules_for(finding, settings, group, pieces, kerf, oversize));
  }
  if (finding.incomplete()) return finding.not_assessed();
  return report(finding, plan_all(rules, groups));
}

}  // namespace panel_dossier::quantities
