#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/cutting_problem.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/programme/order.h"
#include "plugins/quantities/sheets/planned_loss.h"
#include "plugins/quantities/sheets/sheet_layouts.h"
#include "plugins/quantities/sheets/sheet_nesting.h"
#include "plugins/quantities/sheets/sheet_pieces.h"

namespace panel_dossier::quantities {

const CheckDeclaration kSheetYieldCheck{
    .id = "quantities.sheet_yield",
    .title = "Yield of sheets and insulation slabs",
    .project_title = {},
    .sentence =
        "All sheets, slabs and cladding boards of each batch can be cut from edge to edge from the sheets of the "
        "plan; the yield is their net area over the area bought, beside an area that no plan can save.",
    .clause =
        "Guillotine cutting by best fit; bound by dual feasible functions, Fekete and Schepers, 2004 (from memory)",
    .units = {"%"},
    .kind = CheckKind::figure,
    .scope = CheckScope::project,
    .inputs = with_model(
        {setting("quantities.saw_kerf_m"), setting("quantities.sheet_sizes_m.*.material"),
         setting("quantities.sheet_sizes_m.*.width"), setting("quantities.sheet_sizes_m.*.length"),
         optional_setting("quantities.sheet_sizes_m.*.may_turn"), optional_setting("quantities.insulation_oversize_m"),
         optional_setting("quantities.panels_per_batch"), optional_setting("quantities.sheet_layouts_listed"),
         optional_property("Panel_Identity.Batch"), optional_property("Panel_Identity.ErectionOrder"),
         optional_property("Panel_Member.Holes"), optional_property("Panel_EnvironmentalDeclaration.WasteRateA5")}),
    .limits = {"Membranes and tapes, their laps and waste.",
               "Offcuts that fall out of openings or are kept for another batch.", "Sheets already in store.",
               "Cuts that do not go from edge to edge: the plan may lie above what such cuts could reach."},
    .role = {},
    .for_workshop = true};

namespace {

/// For example `12 × 1200 × 2400 mm`.
std::string sheets_in_words(const std::map<std::pair<Micrometres, Micrometres>, int>& counts) {
  std::string words;
  for (const auto& [size, count] : counts) {
    words += (words.empty() ? "" : ", ") + std::to_string(count) + " × " + size_text({size.first, size.second}) + " mm";
  }
  return words;
}

/// Sums over several plans.
struct Sum {
  std::size_t pieces = 0;
  int sheets = 0;
  ExactSum net_m2;
  ExactSum bought_m2;
  ExactSum bound_m2;
  std::map<std::pair<Micrometres, Micrometres>, int> sizes;

  void add(const SheetPlan& plan) {
    pieces += plan.pieces;
    net_m2.add(plan.net_m2);
    bought_m2.add(plan.bought_m2);
    bound_m2.add(plan.bound_m2);
    for (const SheetLayout& layout : plan.layouts) {
      sheets += layout.times;
      sizes[{layout.cut.sheet.width, layout.cut.sheet.length}] += layout.times;
    }
  }
};

/// One row a material and thickness, all batches together.
Table sheet_table(const Project& project, const std::vector<SheetPlan>& plans) {
  std::map<FlatGroup, Sum> groups;
  for (const SheetPlan& plan : plans) groups[{plan.material, plan.thickness}].add(plan);
  Table table{"Sheets and slabs by material",
              {{"material", ""},
               {"thickness", "mm"},
               {"pieces", ""},
               {"net area", "m²"},
               {"sheets to buy", ""},
               {"bought", "m²"},
               {"no plan below", "m²"},
               {"yield", "%"}},
              {}};
  for (const auto& [group, sum] : groups) {
    table.rows.push_back({printed_name(project, group.first), millimetres(group.second),
                          static_cast<double>(sum.pieces), sum.net_m2.total(), sheets_in_words(sum.sizes),
                          sum.bought_m2.total(), sum.bound_m2.total(),
                          units::kPercentPerWhole * sum.net_m2.total() / sum.bought_m2.total()});
  }
  return table;
}

/// One row a batch and material.
Table batch_table(const Project& project, const std::vector<SheetPlan>& plans) {
  Table table{"By batch",
              {{"batch", ""}, {"material", ""}, {"thickness", "mm"}, {"pieces", ""}, {"sheets", ""}, {"yield", "%"}},
              {}};
  for (const SheetPlan& plan : plans) {
    Sum sum;
    sum.add(plan);
    table.rows.push_back({plan.batch.empty() ? "not known" : plan.batch, printed_name(project, plan.material),
                          millimetres(plan.thickness), static_cast<double>(plan.pieces),
                          static_cast<double>(sum.sheets), units::kPercentPerWhole * plan.net_m2 / plan.bought_m2});
  }
  return table;
}

/// More of one kind make a reason unreadable.
constexpr std::size_t kCutsNamed = 5;

struct BatchBefore {
  bool operator()(const std::string& a, const std::string& b) const { return batch_before(a, b); }
};
using ByBatch = std::map<std::string, std::vector<FlatPiece>, BatchBefore>;

bool fits_any(const FlatPiece& piece, const SheetRules& rules) {
  return std::any_of(rules.sizes.begin(), rules.sizes.end(),
                     [&](const FlatSize& sheet) { return fits(piece.size, sheet, rules.may_turn); });
}

/// Sizes to nest by; notes a material without sheets and pieces that no sheet holds.
SheetRules rules_for(FindingBuilder& finding, const Project& project, const Settings& settings, const FlatGroup& group,
                     std::vector<FlatPiece>& pieces, Micrometres kerf, Micrometres oversize) {
  const std::optional<SheetRules> listed = sheet_rules(finding, project, settings, group.first, kerf);
  if (!listed) return {};
  SheetRules rules = *listed;
  if (rules.sizes.empty()) {
    finding.missing("setting 'quantities.sheet_sizes_m' has no sheet of '" + group.first.name +
                    "': an entry with its material, width and length");
    return rules;
  }
  std::size_t too_large = 0;
  Table all{
      "Parts that fit no sheet of '" + group.first.name + "', " + fixed_text(millimetres(group.second), 1) + " mm",
      {{"part", ""}, {"size", "mm"}},
      {}};
  for (FlatPiece& piece : pieces) {
    piece.size = cut_size(piece.size, piece.kind, oversize, rules);
    if (fits_any(piece, rules)) continue;
    all.rows.push_back({piece.part_name, section_name(piece.size.width, piece.size.length)});
    if (++too_large > kCutsNamed) continue;
    finding.missing(
        piece.part_name + " (" + section_name(piece.size.width, piece.size.length) + " mm) fits no sheet of '" +
        group.first.name +
        "'; add a larger one to 'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part");
  }
  if (too_large > kCutsNamed) {
    finding.missing(std::to_string(too_large - kCutsNamed) + " more parts fit no sheet of '" + group.first.name +
                    "', all in the table '" + all.title + "'");
    finding.table(std::move(all));
  }
  return rules;
}

SheetPlan plan_batch(const FlatGroup& group, const std::string& batch, const std::vector<FlatPiece>& pieces,
                     const SheetRules& rules) {
  std::vector<FlatSize> sizes;
  std::vector<PieceName> names;
  sizes.reserve(pieces.size());
  names.reserve(pieces.size());
  ExactSum net_m2;
  for (const FlatPiece& piece : pieces) {
    sizes.push_back(piece.size);
    names.push_back({piece.panel, piece.part_mark});
    net_m2.add(piece.net_m2);
  }
  const std::vector<CutSheet> sheets = nest_sheets(sizes, rules);
  return {group.first,
          group.second,
          batch,
          rules.kerf,
          pieces.size(),
          net_m2.total(),
          bought_area_m2(sheets),
          sheet_area_bound_m2(sizes, rules),
          layouts_of(sheets, names)};
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

PlannedVolumes volumes_of(const std::vector<SheetPlan>& plans) {
  PlannedVolumes volumes;
  for (const SheetPlan& plan : plans) {
    volumes[plan.material].built_in_m3 += metres(plan.thickness) * plan.net_m2;
    volumes[plan.material].bought_m3 += metres(plan.thickness) * plan.bought_m2;
  }
  return volumes;
}

/// Setting `quantities.sheet_layouts_listed`; none when it is not given: all are.
std::optional<std::size_t> read_listed(FindingBuilder& finding, const Settings& settings) {
  const std::string key = "quantities.sheet_layouts_listed";
  if (settings.all().count(key) == 0) return std::nullopt;
  const auto listed = finding.number("sheet layouts listed at most", "", "", settings.number(key),
                                     "setting '" + key + "' is not a number");
  if (!listed) return std::nullopt;
  if (*listed < 0.0 || *listed > 1.0e6 || *listed != std::floor(*listed)) {
    finding.missing("setting '" + key + "' must be a whole number of at least 0");
    return std::nullopt;
  }
  return static_cast<std::size_t>(*listed);
}

Finding report(FindingBuilder& finding, const Project& project, const std::vector<SheetPlan>& plans,
               std::optional<std::size_t> listed) {
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
  const double gap = units::kPercentPerWhole * (bought_m2.total() / bound_m2.total() - 1.0);
  finding.step("pieces", "n", static_cast<double>(pieces), "")
      .step("net area of the pieces", "A", net_m2.total(), "m²")
      .step("area of sheets bought", "A_s", bought_m2.total(), "m²")
      .step("area that every plan needs (proven)", "A_min", bound_m2.total(), "m²")
      .step("the plan above that at most", "gap", gap, "%", "gap = A_s / A_min − 1");
  finding.table(sheet_table(project, plans))
      .table(loss_table(project, volumes_of(plans)))
      .table(batch_table(project, plans));
  const Table rest = layout_table(project, plans, listed);
  if (!rest.rows.empty()) finding.table(rest);
  for (Drawing& drawing : layout_drawings(project, plans)) finding.drawing(std::move(drawing));
  finding.note(
      "Cut from edge to edge, across all panels of a batch, so offcuts serve the batch's other panels. Pieces stand "
      "upright as in the panel unless the settings let a material turn. A board around an opening is cut from its "
      "whole rectangle; what falls out of it is not used again.");
  finding.note(
      "On the drawings a piece bears panel and part mark as its label does; '+2': two more parts lie there on the "
      "other "
      "sheets. Plain: for the panel of the largest piece; hatched: for other panels, from its offcut; crossed: left "
      "over.");
  return finding.inform(units::kPercentPerWhole * net_m2.total() / bought_m2.total(), "%");
}

}  // namespace

Finding sheet_yield(const Project& project, const Settings& settings) {
  FindingBuilder finding(kSheetYieldCheck, "");
  finding.decimals(1);
  const Micrometres kerf = read_saw_kerf(finding, settings);
  const Micrometres oversize = read_oversize(finding, settings);
  const auto listed = read_listed(finding, settings);
  FlatGroups groups = flat_pieces(finding, project, settings);
  if (groups.empty()) finding.missing("the export gives no sheets, slabs or cladding boards");
  std::vector<std::pair<FlatGroup, SheetRules>> rules;
  for (auto& [group, pieces] : groups) {
    rules.emplace_back(group, rules_for(finding, project, settings, group, pieces, kerf, oversize));
  }
  if (finding.incomplete()) return finding.not_assessed();
  return report(finding, project, plan_all(rules, groups), listed);
}

}  // namespace panel_dossier::quantities
