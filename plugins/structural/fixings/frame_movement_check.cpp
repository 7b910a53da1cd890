#include "plugins/structural/fixings/frame_movement_check.h"

#include <algorithm>
#include <optional>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "plugins/structural/fixings/fastener_parts.h"

namespace panel_dossier::structural {

namespace {

/// The least adjustment of the panel's brackets, m.
std::optional<double> read_adjustment(const Panel& panel, FindingBuilder& builder) {
  std::optional<double> least;
  for (const Part* part : fasteners(panel, holds_panel)) {
    const auto adjustment = builder.positive("adjustment of '" + part->name + "'", "Δ_max", "m",
                                             part->properties.number("Panel_Fastener", "Adjustment"),
                                             "'" + part->name + "' has no Panel_Fastener.Adjustment");
    if (adjustment) least = std::min(*adjustment, least.value_or(*adjustment));
  }
  if (!least && !builder.incomplete()) {
    builder.missing("the panel has no brackets (IfcMechanicalFastener with BRACKET in its ObjectType)");
  }
  return least;
}

}  // namespace

Finding frame_movement(const Panel& panel, const Settings& settings) {
  FindingBuilder builder("structural.frame_movement", "Movement and tolerance of the frame against joint and brackets",
                         panel.global_id, "Settings of the project and the bracket as declared (common practice)");
  const auto setting = [&](const char* name, const char* symbol, const char* key) {
    const std::string full = std::string("structural.frame.") + key;
    return builder.number(name, symbol, "m", settings.number(full), "setting '" + full + "' is missing");
  };
  const auto deflection = setting("movement of the frame after the panel is fixed", "δ", "deflection_m");
  const auto allowance = setting("movement that the head fixing and joint allow", "δ_max", "head_movement_m");
  const auto tolerance = setting("tolerance of the frame", "Δ", "tolerance_m");
  const auto adjustment = read_adjustment(panel, builder);
  if (allowance && !(*allowance > 0.0)) {
    builder.missing("setting 'structural.frame.head_movement_m' must be above 0");
  }
  if ((deflection && *deflection < 0.0) || (tolerance && *tolerance < 0.0)) {
    builder.missing("settings 'structural.frame.deflection_m' and 'tolerance_m' must not be below 0");
  }
  if (builder.incomplete() || !deflection || !allowance || !tolerance || !adjustment) return builder.not_assessed();
  const double movement = *deflection / *allowance;
  const double tolerances = *tolerance / *adjustment;
  builder.step("share of the movement", "δ/δ_max", movement, "")
      .step("share of the adjustment", "Δ/Δ_max", tolerances, "");
  const auto load_bearing = panel.load_bearing();
  if (load_bearing && load_bearing->value) {
    builder.note(
        "The head of a load-bearing panel moves with what it carries; the movement counts for its fixing alone.");
  }
  builder.note("The movement is that of the frame's long-term deflection after the panel is fixed, from its engineer.");
  return builder.judge(std::max(movement, tolerances), "", Relation::at_most, 1.0,
                       movement > tolerances ? "the frame moves more than joint and fixing at the head allow"
                                             : "the frame's tolerance is more than the brackets can take up");
}

}  // namespace panel_dossier::structural
