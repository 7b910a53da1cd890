#include "plugins/quantities/sheets/planned_loss.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier::quantities {

namespace {

/// Half of the last decimal printed.
constexpr double kRounding_percent = 0.05;

Value declared_percent(const Project& project, const MaterialKey& key) {
  const Material* material = material_at(project, key.index);
  if (material == nullptr) return {};
  const auto rate = material->properties.number("Panel_EnvironmentalDeclaration", "WasteRateA5");
  if (!rate || !(rate->value >= 0.0 && rate->value < 1.0)) return {};
  return units::kPercentPerWhole * rate->value;
}

std::string remark(double planned_percent, const Value& declared) {
  const double* percent = std::get_if<double>(&declared);
  if (percent == nullptr) {
    return "no usable rate: state Panel_EnvironmentalDeclaration.WasteRateA5, at least 0 and below 1";
  }
  if (planned_percent <= *percent + kRounding_percent) return "";
  return "carbon.a5 counts less than the plan loses: raise the declared rate or improve the plan";
}

}  // namespace

Table loss_table(const Project& project, const PlannedVolumes& volumes) {
  Table table{"Loss in the plan and waste declared for A5",
              {{"material", ""},
               {"loss in the plan", "%"},
               {"loss declared for A5", "%"},
               {"remark", ""},
               {"built in", "m³"},
               {"bought", "m³"}},
              {},
              std::string(kLossTable)};
  for (const auto& [material, volume] : volumes) {
    const double planned_percent = units::kPercentPerWhole * (1.0 - volume.built_in_m3 / volume.bought_m3);
    const Value declared = declared_percent(project, material);
    table.rows.push_back({printed_name(project, material), planned_percent, declared, remark(planned_percent, declared),
                          volume.built_in_m3, volume.bought_m3});
  }
  return table;
}

const CheckDeclaration kWasteCheck{
    .id = "quantities.waste",
    .title = "Declared waste against the loss of the cutting plans",
    .project_title = {},
    .sentence =
        "The share of each material that its waste rate for A5 declares as lost is at least what the plans of bars and "
        "sheets lose of it, but for one percentage point, and not nothing where they lose some; the value is the most "
        "by which a plan loses more.",
    .clause = "EN 15978:2011, 8.5: waste of the construction process (from memory); tolerance by common practice",
    .units = {"%"},
    .kind = CheckKind::limit,
    .scope = CheckScope::project,
    .inputs = with_model(
        {property("Panel_EnvironmentalDeclaration.WasteRateA5"), optional_setting("quantities.stock_lengths_m.*"),
         optional_setting("quantities.saw_kerf_m"), optional_setting("quantities.stock_defect_allowance_m"),
         optional_setting("quantities.sheet_sizes_m.*.material"), optional_setting("quantities.sheet_sizes_m.*.width"),
         optional_setting("quantities.sheet_sizes_m.*.length"), optional_setting("quantities.sheet_sizes_m.*.may_turn"),
         optional_setting("quantities.insulation_oversize_m"), optional_setting("quantities.panels_per_batch"),
         optional_property("Panel_Identity.Batch"), optional_property("Panel_Identity.ErectionOrder"),
         optional_property("Panel_Member.Holes")}),
    .limits = {"Materials that are neither cut from bars nor from sheets, such as membranes and fixings.",
               "Loss that no plan foresees: breakage, theft and rejects.",
               "A declared rate above the plan's loss, which counts more than is lost."},
    .role = {},
    .for_workshop = true};

namespace {

/// Plans and rates round, and a plan changes with the last batch.
constexpr double kTolerance_percent = 1.0;

constexpr std::size_t kBuiltInColumn = 4;
constexpr std::size_t kBoughtColumn = 5;

/// Volumes by printed name, as loss tables give them.
using VolumesByName = std::map<std::string, PlannedVolume>;

void add_volumes(const Finding& plan, VolumesByName& volumes) {
  const Table* table = find_table(plan, kLossTable);
  if (table == nullptr) return;
  for (const std::vector<Value>& row : table->rows) {
    PlannedVolume& volume = volumes[std::get<std::string>(row.front())];
    volume.built_in_m3 += std::get<double>(row[kBuiltInColumn]);
    volume.bought_m3 += std::get<double>(row[kBoughtColumn]);
  }
}

/// What the check gathers over the materials.
struct Comparison {
  Table table;
  double most_percent = 0.0;  ///< by which a plan loses more than is declared
  std::string exceeded;
  std::string without_rate;
  std::string nothing;  ///< declared, though within the tolerance of the plan
};

void add_quoted(std::string& names, const std::string& name) {
  names += (names.empty() ? "'" : ", '") + name + "'";
}

void compare(const Project& project, std::size_t index, const PlannedVolume& volume, FindingBuilder& finding,
             Comparison& comparison) {
  const Material& material = project.materials[index];
  const double planned = units::kPercentPerWhole * (1.0 - volume.built_in_m3 / volume.bought_m3);
  const auto rate = material.properties.number("Panel_EnvironmentalDeclaration", "WasteRateA5");
  const std::string name = printed_name(project, material_key(project, index));
  if (!rate || !(rate->value >= 0.0 && rate->value < 1.0)) {
    add_quoted(comparison.without_rate, name);
    comparison.table.rows.push_back({name, planned, Value(), Value()});
    return;
  }
  finding.number("share of '" + name + "' declared as lost", "w", "", rate, {});
  const double declared = units::kPercentPerWhole * rate->value;
  comparison.table.rows.push_back({name, planned, declared, planned - declared});
  comparison.most_percent = std::max(comparison.most_percent, planned - declared);
  if (planned - declared <= kTolerance_percent) {
    // The tolerance is for rounded figures: a rate of 0 was not rounded but left at its first value.
    if (declared <= 0.0 && planned > kRounding_percent) add_quoted(comparison.nothing, name);
    return;
  }
  comparison.exceeded += (comparison.exceeded.empty() ? "" : "; ") + std::string("of '") + name + "' the plan loses " +
                         fixed_text(planned, 1) + " % and Panel_EnvironmentalDeclaration.WasteRateA5 declares " +
                         fixed_text(declared, 1) + " %";
}

}  // namespace

Finding waste_against_plans(const Project& project, const Finding& stock, const Finding& sheets) {
  FindingBuilder finding(kWasteCheck, "");
  finding.decimals(1);
  for (const Finding* plan : {&stock, &sheets}) {
    if (find_table(*plan, kLossTable) == nullptr) finding.missing(plan->check + " has no plan: " + plan->reason);
  }
  if (finding.incomplete()) return finding.not_assessed();
  VolumesByName volumes;
  add_volumes(stock, volumes);
  add_volumes(sheets, volumes);
  Comparison comparison{{"Loss of the plans and declared waste",
                         {{"material", ""}, {"plans lose", "%"}, {"declared", "%"}, {"more than declared", "%"}},
                         {}},
                        0.0,
                        {},
                        {},
                        {}};
  for (std::size_t i = 0; i < project.materials.size(); ++i) {
    const auto volume = volumes.find(printed_name(project, material_key(project, i)));
    if (volume != volumes.end()) compare(project, i, volume->second, finding, comparison);
  }
  finding.table(std::move(comparison.table));
  finding.note("The same share as carbon.a5 reads it: of what is bought. Membranes and fixings have no plan.");
  if (!comparison.exceeded.empty()) {
    return finding.judge(comparison.most_percent, "%", Relation::at_most, kTolerance_percent,
                         comparison.exceeded +
                             "; raise the declared rate, for carbon.a5 counts too little, or improve "
                             "the plan");
  }
  if (!comparison.without_rate.empty()) {
    return finding.needs_evidence("no usable Panel_EnvironmentalDeclaration.WasteRateA5, at least 0 and below 1, of " +
                                  comparison.without_rate);
  }
  if (!comparison.nothing.empty()) {
    return finding.needs_evidence("the plans lose some and Panel_EnvironmentalDeclaration.WasteRateA5 declares 0 of " +
                                  comparison.nothing + "; state what is lost");
  }
  return finding.judge(comparison.most_percent, "%", Relation::at_most, kTolerance_percent, {});
}

}  // namespace panel_dossier::quantities
