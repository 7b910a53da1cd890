// The timber panel seen by the moisture checks.
#pragma once

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/testing/properties.h"
#include "plugins/thermal/moisture/interstitial.h"
#include "plugins/thermal/moisture/surface.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

namespace panel_dossier::testing {

/// The timber panel seen without its U-value finding, which is another check's business.
struct MoistureModel : HeatedPanel {
  MoistureModel() {
    settings.set("thermal.condensate_limit", std::string("non-absorbent plane"));
    settings.set("thermal.punctured_vapour_control_sd_m", 0.5);
  }

  /// Puts a vapour control layer of this μ · 0.2 mm behind the lining.
  void add_vapour_control(double resistance_factor) {
    Panel fresh = plain_panel(2.4, 2.7);
    const std::size_t membrane = add_material(project, "polyethylene", "plastic", 950.0, 0.33);
    put(project.materials[membrane].properties, "Pset_MaterialHygroscopic", "UpperVaporResistanceFactor",
        resistance_factor);
    add_layer(fresh, "lining", "finish", gypsum, 0.0125);
    add_layer(fresh, "vapour control", "membrane", membrane, 0.0002);
    add_layer(fresh, "cassette", "insulation", wool, 0.140);
    add_layer(fresh, "sheathing", "sheathing", board, 0.012);
    panel().layers = fresh.layers;
    panel().parts.clear();
    panel().thickness_m = fresh.thickness_m;
  }

  thermal::TransmittanceResult transmittance() const {
    FindingBuilder builder(thermal::kUValueCheck, "");
    thermal::TransmittanceResult result;
    Settings with_framing = settings;
    with_framing.set("thermal.assumed_framing_fraction", 0.0);
    with_framing.set("thermal.assumed_framing_conductivity_w_per_mk", 0.13);
    thermal::Transmittance t{
        thermal::read_build_up(project.panels.front(), project, with_framing, thermal_tables(), builder), {}};
    if (builder.incomplete()) {
      result.u_value = builder.not_assessed();
    } else {
      result.transmittance = std::move(t);
    }
    return result;
  }

  Finding interstitial() const {
    return thermal::check_interstitial_condensation(project.panels.front(), project, settings, thermal_tables(),
                                                    transmittance());
  }
  Finding surface() const {
    return thermal::check_surface_condensation(project.panels.front(), settings, thermal_tables(), transmittance());
  }
};

inline std::string step_text(const Finding& finding, const std::string& name) {
  for (const Step& step : finding.steps) {
    if (step.name == name) return std::get<std::string>(step.value);
  }
  return "no step '" + name + "'";
}

inline bool has_note(const Finding& finding, const std::string& words) {
  return std::any_of(finding.notes.begin(), finding.notes.end(),
                     [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

inline void set_months(Settings& settings, const std::string& key, double value, int months) {
  for (int m = 0; m < months; ++m) settings.set(key + "." + std::to_string(m), value);
}

}  // namespace panel_dossier::testing
