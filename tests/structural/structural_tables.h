// The structural plugin's own data tables, read once.
#pragma once

#include <filesystem>

#include "plugins/structural/tables.h"

namespace panel_dossier::testing {

inline const structural::Tables& structural_tables() {
  static const structural::Tables tables(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/structural/data");
  return tables;
}

}  // namespace panel_dossier::testing
