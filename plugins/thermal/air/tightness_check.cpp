#include "plugins/thermal/air/tightness_check.h"

#include "core/api/finding/finding_builder.h"
#include "core/api/support/fixed_text.h"
#include "plugins/thermal/transmittance/u_value_limit.h"

namespace panel_dossier::thermal {

Finding check_air_permeability(const Panel& panel, const Settings& settings, const Tables& tables) {
  FindingBuilder builder("thermal.air_permeability", "Measured air permeability of the panel at 50 Pa", panel.global_id,
                         "EN ISO 9972:2015");
  builder.basis(Basis::test_evidence);
  const auto property = panel.properties.number("Panel_Air", "PermeabilityQ50");
  if (!property) {
    return builder.needs_evidence(
        "no measured air permeability (Panel_Air.PermeabilityQ50); test the panel or one of its type");
  }
  const auto measured = builder.positive("measured air permeability at 50 Pa", "q_50", "m³/(h·m²)", property, {});
  const auto area = builder.positive("area of the panel with its openings", "A", "m²",
                                     Sourced<double>{panel.gross_area_m2(), panel.origin}, {});
  const auto design = settings.number("thermal.design_q50_m3_per_hm2");
  const auto limit =
      design ? builder.positive("air permeability that the design asks for", "q_50,d", "m³/(h·m²)", design, {})
             : find_limit(tables.air_permeability_limits, kAirPermeabilityLimit, settings, builder);
  if (!measured || !area || !limit) return builder.not_assessed();
  builder.step("air flow through the panel at 50 Pa", "V_50", *measured * *area, "m³/h", "q_50 · A");
  builder.note(design
                   ? "The design value comes from the project settings. The whole building is still to be tested."
                   : "The limit is one for the whole building, joints included: a panel must stay well below it. The "
                     "whole building is still to be tested.");
  return builder.judge(*measured, "m³/(h·m²)", Relation::at_most, *limit,
                       "measured " + fixed_text(*measured, 2) + " m³/(h·m²) is above " + fixed_text(*limit, 2) +
                           "; find and seal the leaks, then test again");
}

}  // namespace panel_dossier::thermal
