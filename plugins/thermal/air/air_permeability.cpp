#include "plugins/thermal/air/air_permeability.h"

#include <optional>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/words.h"
#include "plugins/thermal/project_limits.h"

namespace panel_dossier::thermal {

namespace {

constexpr const char* kUnit = "m³/(h·m²)";

/// q_50 in m³/(h·m²) from n_50: both share the flow at 50 Pa, q_50 · A_E = n_50 · V.
std::optional<double> permeability_of(const Sourced<double>& change_rate, const Settings& settings,
                                      FindingBuilder& builder) {
  const auto rate = builder.positive("measured air change rate at 50 Pa", "n_50", "1/h", change_rate,
                                     "Panel_Air.AirChangeRateN50 must be above 0");
  const auto volume =
      builder.positive("internal volume of the building", "V", "m³", settings.number("building.volume_m3"),
                       "setting 'building.volume_m3' is missing");
  const auto area =
      builder.positive("envelope area of the building", "A_E", "m²", settings.number("building.envelope_area_m2"),
                       "setting 'building.envelope_area_m2' is missing");
  if (!rate || !volume || !area) return std::nullopt;
  builder.step("air flow at 50 Pa", "V_50", *rate * *volume, "m³/h", "V_50 = n_50 · V");
  return *rate * *volume / *area;
}

}  // namespace

const CheckDeclaration kAirPermeabilityCheck{
    .id = "thermal.air_permeability",
    .title = "Measured air permeability of the panel at 50 Pa",
    .project_title = "Measured air permeability of the building at 50 Pa",
    .sentence =
        "The measured q_50 of the panel is at most the design value of the settings, or else the limit of the "
        "jurisdiction on the day of assessment; that of the building is at most the limit of the jurisdiction.",
    .clause = "EN ISO 9972:2015",
    .units = {kUnit},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels_and_project,
    .inputs = {property("Panel_Air.PermeabilityQ50"), optional_property("Panel_Air.AirChangeRateN50"),
               optional_setting("thermal.design_q50_m3_per_hm2"), optional_setting("building.volume_m3"),
               optional_setting("building.envelope_area_m2"), optional_setting("project.jurisdiction"),
               optional_setting("project.use"), optional_setting("project.assessment_date"),
               data_table("air_permeability_limits.csv")},
    .limits = {"The joints between panels are not part of a panel's test; only the test of the whole building holds "
               "them.",
               "The result is taken as it stands; the test report is not read."}};

Finding check_air_permeability(const Panel& panel, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kAirPermeabilityCheck, panel.global_id);
  builder.basis(Basis::test_evidence);
  const auto property = panel.properties.number("Panel_Air", "PermeabilityQ50");
  if (!property) {
    return builder.needs_evidence(
        "no measured air permeability (Panel_Air.PermeabilityQ50); test the panel or one of its type");
  }
  const auto measured = builder.positive("measured air permeability at 50 Pa", "q_50", kUnit, property, {});
  const auto area = builder.positive("area of the panel with its openings", "A", "m²",
                                     Sourced<double>{panel.gross_area_m2(), panel.origin}, {});
  const auto design = settings.number("thermal.design_q50_m3_per_hm2");
  const auto limit = design ? builder.positive("air permeability that the design asks for", "q_50,d", kUnit, design, {})
                            : find_limit(tables.air_permeability_limits, kAirPermeabilityLimit, settings, builder);
  if (!measured || !area || !limit) return builder.not_assessed();
  builder.step("air flow through the panel at 50 Pa", "V_50", *measured * *area, "m³/h", "V_50 = q_50 · A");
  builder.note(design
                   ? "The design value comes from the project settings. The whole building is still to be tested."
                   : "The limit is one for the whole building, joints included: a panel must stay well below it. The "
                     "whole building is still to be tested.");
  return builder.judge(*measured, kUnit, Relation::at_most, *limit,
                       "measured " + fixed_text(*measured, 2) + " m³/(h·m²) is above " + fixed_text(*limit, 2) +
                           "; find and seal the leaks, then test again");
}

Finding check_building_air(const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kAirPermeabilityCheck, "");
  builder.basis(Basis::test_evidence);
  const auto permeability = project.properties.number("Panel_Air", "PermeabilityQ50");
  const auto change_rate = project.properties.number("Panel_Air", "AirChangeRateN50");
  if (!permeability && !change_rate) {
    builder.number("panels of the project", "n", "",
                   Sourced<double>{static_cast<double>(project.panels.size()), project.origin}, {});
    builder.step_text("test of the whole building", "not in the export yet");
    builder.note(
        "Put the result on IfcBuilding as Panel_Air.PermeabilityQ50 or AirChangeRateN50 once the building is tested; "
        "panels "
        "tested by themselves stand on their sheets.");
    return builder.inform_text("not measured yet");
  }
  const auto q50 = permeability ? builder.positive("measured air permeability at 50 Pa", "q_50", kUnit, permeability,
                                                   "Panel_Air.PermeabilityQ50 must be above 0")
                                : permeability_of(*change_rate, settings, builder);
  const auto limit = find_limit(tables.air_permeability_limits, kAirPermeabilityLimit, settings, builder);
  if (!q50 || !limit || builder.incomplete()) return builder.not_assessed();
  if (!permeability) builder.step("air permeability of the envelope", "q_50", *q50, kUnit, "q_50 = V_50 / A_E");
  builder.note("The limit is that of the jurisdiction; a design value of panels is held against their own tests.");
  return builder.judge(*q50, kUnit, Relation::at_most, *limit,
                       "measured " + fixed_text(*q50, 2) + " m³/(h·m²) is above " + fixed_text(*limit, 2) +
                           "; find and seal the leaks, then test again");
}

}  // namespace panel_dossier::thermal
