// The settings that the structural and fire checks of a cassette panel ask for.
#pragma once

#include <string>

#include "core/api/model/settings.h"

namespace panel_dossier::testing {

/// Settings with everything the structural and fire checks ask for.
inline Settings cassette_settings() {
  Settings settings;
  settings.set("project.jurisdiction", std::string("England"));
  settings.set("project.use", std::string("office"));
  settings.set("building.top_storey_height_m", 7.2);
  settings.set("building.height_m", 10.0);
  settings.set("building.fire_resistance_minutes", 60.0);
  settings.set("structural.national_annex", std::string("recommended"));
  settings.set("structural.service_class", 2.0);
  settings.set("structural.deflection_limit_ratio", 300.0);
  settings.set("structural.wind.basic_velocity_m_per_s", 22.5);
  settings.set("structural.wind.terrain_category", std::string("III"));
  settings.set("structural.wind.external_pressure_coefficient", 1.4);
  settings.set("fire.load_ratio_in_fire", 0.6);
  return settings;
}

}  // namespace panel_dossier::testing
