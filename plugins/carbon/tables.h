// The data tables of the carbon discipline.
#pragma once

#include <filesystem>

#include "core/api/support/data_table.h"

namespace panel_dossier::carbon {

/// Read once when the plugin is made; immutable and shared by all threads after that.
struct Tables {
  /// Throws std::runtime_error naming file and line when a table cannot be read.
  explicit Tables(const std::filesystem::path& data_dir)
      : biogenic_carbon(data_dir / "biogenic_carbon.csv"), core_indicators(data_dir / "core_indicators.csv") {}

  DataTable biogenic_carbon;
  DataTable core_indicators;
};

}  // namespace panel_dossier::carbon
