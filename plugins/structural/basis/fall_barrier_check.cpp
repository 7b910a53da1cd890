#include "plugins/structural/basis/fall_barrier_check.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "plugins/structural/basis/design_basis.h"
#include "plugins/structural/basis/printed_unit.h"
#include "plugins/structural/wind/facade.h"

namespace panel_dossier::structural {

namespace {

/// What stands lower than this above a floor holds nobody back.
constexpr double kLeastGuard_m = 0.8;

constexpr const char* kBarrierCategory = "Panel_Structure.BarrierLoadCategory";

/// Whether the panel has what only outer walls have, whatever it states.
bool looks_outward(const Panel& panel) {
  return !panel.openings.empty() || std::any_of(panel.layers.begin(), panel.layers.end(), [](const Layer& layer) {
    return layer.is_ventilated.value_or(false) || layer.category == "cladding";
  });
}

/// Why nobody need say whether the panel is a barrier, by what it is; empty where somebody must. Of a panel whose
/// arrangement is not stated, somebody must.
std::string why_no_barrier(const Panel& panel) {
  const auto external = panel.properties.logical("Pset_WallCommon", "IsExternal");
  if (external && !external->value && !looks_outward(panel)) return "no outer wall";
  const auto arrangement = panel.properties.text("Panel_Identity", "Arrangement");
  const bool outside = arrangement && arrangement->value == "OVERSAIL";
  if (outside && panel.openings.empty()) return "outside of the floor's edge and without an opening";
  return {};
}

}  // namespace

bool guards_a_drop(const Panel& panel, const Project& project, double ground_m) {
  const double foot_m = panel.frame.origin.z;
  const double top_m = foot_m + panel.height_m.value;
  if (foot_m - ground_m > kGuardedDrop_m) return true;
  return std::any_of(project.storeys.begin(), project.storeys.end(), [&](const Storey& storey) {
    if (!storey.elevation_m || storey.building != panel.building) return false;
    const double floor_m = storey.elevation_m->value;
    return floor_m - ground_m > kGuardedDrop_m && floor_m > foot_m && floor_m + kLeastGuard_m < top_m;
  });
}

const CheckDeclaration kFallBarrierCheck{
    .id = "structural.fall_barrier",
    .title = "Barrier against falling",
    .project_title = {},
    .sentence =
        "Of an outer wall panel above ground, somebody says whether it stops persons from falling: the category of use "
        "behind it, whose load the checks of studs and rails then hold, or NONE.",
    .clause = "EN 1991-1-1:2002 6.4",
    .kind = CheckKind::evidence,
    .inputs = {property("Panel_Structure.BarrierLoadCategory"), optional_property("Panel_Structure.BarrierLineLoad"),
               optional_property("Pset_WallCommon.IsExternal"), optional_property("Panel_Identity.Arrangement"),
               optional_setting("building.ground_level_m")},
    .limits = {"Height, gaps and glazing of a barrier are not judged.",
               "Panels outside of the floor's edge without an opening are not asked about."}};

Finding fall_barrier(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder builder(kFallBarrierCheck, panel.global_id);
  builder.basis(Basis::declared);
  const auto category = panel.properties.text("Panel_Structure", "BarrierLoadCategory");
  const auto load = panel.properties.number("Panel_Structure", "BarrierLineLoad");
  if (category && category->value == kNoBarrier && load) {
    builder.text("category of use behind the barrier", category, {});
    builder.number("characteristic horizontal load of persons on the barrier", "q_k", kKilonewtonPerMetre.name,
                   kKilonewtonPerMetre.of(load), {});
    return builder.not_assessed(std::string(kBarrierCategory) + " NONE (" + describe(category->origin) +
                                ") contradicts Panel_Structure.BarrierLineLoad (" + describe(load->origin) +
                                "): correct one of them");
  }
  if (category && !category->value.empty()) {
    builder.text("category of use behind the barrier", category, {});
    builder.note(
        "The category is the statement of whoever designs the building; NONE says that the panel stops nobody "
        "from falling, for something else does.");
    if (category->value == kNoBarrier) return builder.inform_text("stated to be no barrier");
    return builder.inform_text("a barrier of category " + category->value);
  }
  builder.note(
      "Asked of outer walls whose foot, or a floor behind them, lies more than 0.6 m above ground (common "
      "practice).");
  if (const std::string why = why_no_barrier(panel); !why.empty()) {
    builder.step_text("not asked about", why);
    return builder.inform_text("not asked about: " + why);
  }
  const auto ground = ground_level(project, settings);
  if (!ground) return builder.not_assessed("setting building.ground_level_m (no storey has an elevation)");
  builder.number("ground level", "", "m", ground->level_m, {});
  if (ground->assumed) builder.note(ground_note(*ground));
  if (!std::isfinite(panel.frame.origin.z + panel.height_m.value)) {
    return builder.not_assessed("placement and height of the panel (" + describe(panel.height_m.origin) + ")");
  }
  builder.step("foot of the panel above ground", "z_f", panel.frame.origin.z - ground->level_m.value, "m");
  if (!guards_a_drop(panel, project, ground->level_m.value)) return builder.inform_text("at ground level");
  return builder.needs_evidence(
      "nobody says whether the panel, which stands before a floor above ground, stops persons from falling: state " +
      std::string(kBarrierCategory) +
      ", the category of use behind it (EN 1991-1-1 table 6.12), or NONE where something "
      "else does");
}

}  // namespace panel_dossier::structural
