#include "plugins/fire/evidence/resistance_checks.h"

#include "core/api/finding/finding_builder.h"
#include "plugins/fire/calculation/calculation_beside.h"
#include "plugins/fire/evidence/requirement.h"
#include "plugins/fire/evidence/resistance_evidence.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kResistanceClause =
    "EN 13501-2:2016 7.5 (class); EN 1995-1-2:2004 3.4, 4.2.2, annexes C to E (calculation beside the test)";

}  // namespace

Finding integrity_and_insulation(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables, const Cassette& cassette) {
  FindingBuilder builder("fire.resistance_integrity_insulation", "Fire resistance: integrity and insulation",
                         panel.global_id, kResistanceClause);
  const auto load_bearing = builder.logical("load-bearing", panel.load_bearing(), "Pset_WallCommon.LoadBearing");
  const Requirement required =
      required_resistance(builder, panel, project, settings, tables, load_bearing.value_or(false));
  if (required.asked && required.asked->minutes_for("EI") == 0) {
    builder.missing("the class required states no E and I, or no common period for both");
  }
  if (builder.incomplete()) return builder.not_assessed();
  const ShownResistance shown = shown_resistance(builder, panel, project, *load_bearing);
  add_separating_function(builder, panel, project, cassette, tables);
  return judge_resistance(builder, required, shown, "EI");
}

Finding load_bearing_capacity(const Panel& panel, const Project& project, const Settings& settings,
                              const Tables& tables, const Cassette& cassette) {
  FindingBuilder builder("fire.resistance_load_bearing", "Fire resistance: load-bearing capacity", panel.global_id,
                         kResistanceClause);
  const auto load_bearing = builder.logical("load-bearing", panel.load_bearing(), "Pset_WallCommon.LoadBearing");
  if (!load_bearing) return builder.not_assessed();
  const Requirement required = required_resistance(builder, panel, project, settings, tables, *load_bearing);
  if (builder.incomplete() || !required.asked) return builder.not_assessed();
  const int required_min = required.asked->minutes_for("R");
  if (required_min == 0 && *load_bearing) {
    builder.missing("the panel is load-bearing but the class required states no R");
    return builder.not_assessed();
  }
  if (required_min == 0) {
    const int period_min = required.asked->minutes_for("EI");
    add_studs_in_fire(builder, panel, project, settings, cassette, tables, period_min, false);
    builder.note("The panel carries no load of the building, so no class R is asked of it.");
    return builder.inform_text("not required");
  }
  const ShownResistance shown = shown_resistance(builder, panel, project, *load_bearing);
  add_studs_in_fire(builder, panel, project, settings, cassette, tables, required_min, *load_bearing);
  return judge_resistance(builder, required, shown, "R");
}

}  // namespace panel_dossier::fire
