// The data tables as they are shipped.
#pragma once

#include "plugins/thermal/tables.h"

namespace panel_dossier::test_support {

inline const thermal::Tables& thermal_tables() {
  static const thermal::Tables tables(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  return tables;
}

}  // namespace panel_dossier::test_support
