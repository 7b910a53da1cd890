// The ordinary timber panel between a warm room and a cold day.
#pragma once

#include <string>

#include "core/api/testing/panels.h"

namespace panel_dossier::testing {

/// With the settings that the thermal checks ask for.
struct HeatedPanel : TimberPanel {
  HeatedPanel() {
    settings.set("thermal.air_void_level", 0.0);
    settings.set("thermal.internal_temperature_c", 20.0);
    settings.set("thermal.external_temperature_c", -3.0);
    settings.set("thermal.climate", std::string("continental example"));
    settings.set("thermal.humidity_class", std::string("normal occupancy"));
  }
};

}  // namespace panel_dossier::testing
