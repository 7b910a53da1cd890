#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/fastener_kinds.h"
#include "plugins/structural/fixings/fixings_checks.h"

namespace panel_dossier::structural {

namespace {

/// The least adjustment of the panel's brackets, m.
struct Adjustment {
  double least_m = 0.0;
  std::string expression;  ///< of it, in the symbols of the inputs
};

/// One bracket of each adjustment, and each that states none.
std::vector<const Part*> kinds_of_brackets(const Panel& panel) {
  std::vector<const Part*> kinds;
  for (const Part* part : fasteners_that(panel, holds_panel)) {
    const auto stated = part->properties.number("Panel_Fastener", "Adjustment");
    const bool is_known = stated && std::any_of(kinds.begin(), kinds.end(), [&](const Part* kind) {
                            const auto other = kind->properties.number("Panel_Fastener", "Adjustment");
                            return other && other->value == stated->value;
                          });
    if (!is_known) kinds.push_back(part);
  }
  return kinds;
}

std::optional<Adjustment> read_adjustment(const Panel& panel, FindingBuilder& builder) {
  const std::vector<const Part*> brackets = kinds_of_brackets(panel);
  std::optional<Adjustment> found;
  for (std::size_t i = 0; i < brackets.size(); ++i) {
    const Part& part = *brackets[i];
    const std::string symbol = brackets.size() == 1 ? "Δ_max" : "Δ_max," + std::to_string(i + 1);
    const auto adjustment = builder.positive("adjustment of '" + part.name + "'", symbol, "m",
                                             part.properties.number("Panel_Fastener", "Adjustment"),
                                             "'" + part.name + "' has no Panel_Fastener.Adjustment");
    if (!adjustment) continue;
    found = found ? Adjustment{std::min(*adjustment, found->least_m), found->expression + "; " + symbol}
                  : Adjustment{*adjustment, symbol};
  }
  if (!found && !builder.incomplete()) {
    builder.missing("the panel has no brackets (IfcMechanicalFastener with BRACKET in its ObjectType)");
  }
  if (found && brackets.size() > 1) found->expression = "min(" + found->expression + ")";
  return found;
}

}  // namespace

const CheckDeclaration kFrameMovementCheck{
    .id = "structural.frame_movement",
    .title = "Movement and tolerance of the frame against joint and brackets",
    .project_title = {},
    .sentence =
        "The movement of the frame at the head is at most what fixing and joint allow there, and its tolerance at "
        "most the least adjustment of the brackets.",
    .clause = "Settings of the project and the bracket as declared (common practice)",
    .kind = CheckKind::limit,
    .inputs = {setting("structural.frame.deflection_m"), setting("structural.frame.head_movement_m"),
               setting("structural.frame.tolerance_m"), property("Panel_Fastener.Adjustment"),
               optional_property("Pset_WallCommon.LoadBearing")},
    .limits = {"The movement is that of the frame's long-term deflection after the panel is fixed, from its engineer.",
               "Movement along the wall and of the panel itself is left out."}};

Finding frame_movement(const Panel& panel, const Settings& settings) {
  FindingBuilder builder(kFrameMovementCheck, panel.global_id);
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
    builder.missing("settings 'structural.frame.deflection_m' and 'structural.frame.tolerance_m' must not be below 0");
  }
  if (builder.incomplete() || !deflection || !allowance || !tolerance || !adjustment) return builder.not_assessed();
  const double movement = *deflection / *allowance;
  const double tolerances = *tolerance / adjustment->least_m;
  builder.step("share of the movement", "η_δ", movement, "", "η_δ = δ / δ_max")
      .step("share of the adjustment", "η_Δ", tolerances, "", "η_Δ = Δ / " + adjustment->expression);
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
