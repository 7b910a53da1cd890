// The fire plugin's own data tables, read once.
#pragma once

#include <filesystem>

#include "plugins/fire/tables.h"

namespace panel_dossier::testing {

inline const fire::Tables& fire_tables() {
  static const fire::Tables tables(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/fire/data");
  return tables;
}

}  // namespace panel_dossier::testing
