#include "plugins/thermal/air/building_check.h"

#include <optional>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/fixed_text.h"
#include "plugins/thermal/transmittance/u_value_limit.h"

namespace panel_dossier::thermal {

namespace {

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
  builder.step("air flow at 50 Pa", "V_50", *rate * *volume, "m³/h", "n_50 · V");
  return *rate * *volume / *area;
}

}  // namespace

Finding check_building_air(const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder("thermal.air_permeability", "Measured air permeability of the building at 50 Pa", "",
                         "EN ISO 9972:2015");
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
  const auto q50 = permeability ? builder.positive("measured air permeability at 50 Pa", "q_50", "m³/(h·m²)",
                                                   permeability, "Panel_Air.PermeabilityQ50 must be above 0")
                                : permeability_of(*change_rate, settings, builder);
  const auto limit = find_limit(tables.air_permeability_limits, kAirPermeabilityLimit, settings, builder);
  if (!q50 || !limit || builder.incomplete()) return builder.not_assessed();
  builder.step("air permeability of the envelope", "q_50", *q50, "m³/(h·m²)", permeability ? "" : "V_50 / A_E");
  builder.note("The limit is that of the jurisdiction; a design value of panels is held against their own tests.");
  return builder.judge(*q50, "m³/(h·m²)", Relation::at_most, *limit,
                       "measured " + fixed_text(*q50, 2) + " m³/(h·m²) is above " + fixed_text(*limit, 2) +
                           "; find and seal the leaks, then test again");
}

}  // namespace panel_dossier::thermal
