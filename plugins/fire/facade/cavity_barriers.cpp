#include "plugins/fire/facade/cavity_barriers.h"

#include <optional>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "plugins/fire/evidence/requirement.h"
#include "plugins/fire/facade/cavity_limit.h"
#include "plugins/fire/facade/cavity_lines.h"
#include "plugins/fire/facade/layer_classes.h"

namespace panel_dossier::fire {

namespace {

constexpr double kTolerance_m = 0.010;  ///< a line is covered when no more than this is bare: cutting and fitting

void add_row(Table& table, const BarrierLine& line, std::optional<double> provided_m, const char* remark) {
  table.rows.push_back({line.where, std::string(line.horizontal ? "level" : "upright"), line.at_m, line.length_m(),
                        Value{}, std::string(remark)});
  if (provided_m) table.rows.back()[4] = *provided_m;
}

void note_scope(FindingBuilder& builder, const Settings& settings) {
  if (!settings.logical("fire.compartment_floors")) {
    builder.note("Which floors are compartment floors is not given (setting fire.compartment_floors): each is listed.");
  }
  builder.note(
      "Compartment walls are not in the export: their lines are the fire engineer's to add. Each barrier needs its own "
      "evidence of 30 minutes integrity and 15 minutes insulation, fixed as tested (Approved Document B vol. 2 table "
      "B3, "
      "from memory; other jurisdictions as their rules say).");
}

void add_limit(FindingBuilder& builder, const Panel& panel, std::size_t cavity, const Project& project,
               const Settings& settings, const Tables& tables) {
  if (const auto limit = cavity_limit_m(panel, cavity, project, settings, tables)) {
    builder.number("largest undivided length of the cavity", "", "m", limit, {});
    builder.step("largest undivided length of the cavity", "", limit->value, "m", "by the classes of its surfaces");
  } else {
    builder.step_text("largest undivided length of the cavity",
                      "not told: no row for the jurisdiction, or a surface without class (Panel_Fire.ReactionToFire)");
  }
}

}  // namespace

Finding cavity_barriers(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(
      "fire.cavity_barriers", "Cavity barriers", panel.global_id,
      "Approved Document B vol. 2 (2019 edition as amended) section 9 (from memory), or the rules of "
      "the jurisdiction");
  builder.basis(Basis::declared);
  if (!panel.outside_known) return builder.not_assessed(kOutsideUnknown);
  builder.number("width of the panel", "", "m", panel.width_m, {});
  builder.number("height of the panel", "", "m", panel.height_m, {});
  const auto cavity = outer_cavity(panel);
  if (!cavity) {
    builder.step_text("air layer outside the framing", "none in the export");
    builder.note(
        "A cavity that an outer leaf by others makes on site is not in the export; its barriers are not scheduled.");
    return builder.inform_text("no cavity outside");
  }
  builder.number("depth of the cavity '" + panel.layers[*cavity].name + "'", "", "m", panel.layers[*cavity].thickness_m,
                 {});
  const bool compare = has_barriers(panel);
  Table table{"Cavity barriers of the panel",
              {{"where", ""}, {"lies", ""}, {"at", "m"}, {"length", "m"}, {"in the export", "m"}, {"remark", ""}},
              {}};
  ExactSum total_m;
  std::string uncovered;
  for (const BarrierLine& line : barrier_lines(panel, project, settings)) {
    const double found_m = provided_m(panel, line);
    add_row(table, line, compare ? std::optional(found_m) : std::nullopt, "");
    total_m.add(line.length_m());
    if (compare && found_m < line.length_m() - kTolerance_m) uncovered += (uncovered.empty() ? "" : ", ") + line.where;
  }
  for (const BarrierLine& edge : side_edges(panel)) {
    add_row(table, edge, compare ? std::optional(provided_m(panel, edge)) : std::nullopt,
            "only where the cavity ends; not in total");
  }
  builder.table(std::move(table));
  builder.step("length of cavity barriers round openings, at floors, foot and head", "L", total_m.total(), "m", "Σ");
  add_limit(builder, panel, *cavity, project, settings, tables);
  note_scope(builder, settings);
  if (!compare) {
    builder.note("The export holds no cavity barriers (parts of ObjectType CAVITY_BARRIER): this is what is needed.");
  }
  if (!uncovered.empty()) return builder.needs_evidence("cavity barriers of the export do not cover: " + uncovered);
  return builder.inform(total_m.total(), "m");
}

Finding penetration_seals(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder("fire.penetration_seals", "Seals of service penetrations", panel.global_id,
                         "EN 13501-2:2016 7.5.8 (penetration seals); EN 1366-3 by test");
  builder.basis(Basis::declared);
  const auto load_bearing = builder.logical("load-bearing", panel.load_bearing(), "Pset_WallCommon.LoadBearing");
  builder.step("openings of the panel", "", static_cast<double>(panel.openings.size()), "");
  Table table{"Openings that nothing fills", {{"opening", ""}, {"width", "m"}, {"height", "m"}, {"seal", ""}}, {}};
  FindingBuilder requirement("", "", "", "");
  const auto asked =
      required_resistance(requirement, panel, project, settings, tables, load_bearing.value_or(false)).asked;
  const std::string seal = asked ? class_text(*asked, "EI") : std::string("class not known");
  for (const Opening& opening : panel.openings) {
    if (opening.filling_entity.empty()) {
      table.rows.push_back({opening.name, opening.width_m(), opening.height_m(), seal});
    }
  }
  builder.step("of these without window or door: taken as penetrations", "", static_cast<double>(table.rows.size()),
               "");
  builder.note("Penetrations made on site are not in the export; each needs a seal of the panel's class by test.");
  if (builder.incomplete()) return builder.not_assessed();
  if (table.rows.empty()) return builder.inform_text("none in the export");
  const auto count = std::to_string(table.rows.size());
  builder.table(std::move(table));
  return builder.needs_evidence(count + " penetrations need seals of " + seal + " by test (EN 1366-3)");
}

}  // namespace panel_dossier::fire
