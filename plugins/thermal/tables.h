// The data tables of the thermal discipline.
#pragma once

#include <filesystem>

#include "core/api/support/data_table.h"

namespace panel_dossier::thermal {

/// Read once when the plugin is made; immutable and shared by all threads after that.
struct Tables {
  /// Throws std::runtime_error naming file and line when a table cannot be read.
  explicit Tables(const std::filesystem::path& data_dir)
      : surface_resistances(data_dir / "surface_resistances.csv"),
        air_layers(data_dir / "air_layers.csv"),
        u_value_limits(data_dir / "u_value_limits.csv"),
        window_limits(data_dir / "window_limits.csv"),
        door_limits(data_dir / "door_limits.csv"),
        air_permeability_limits(data_dir / "air_permeability_limits.csv"),
        air_void_levels(data_dir / "air_void_levels.csv"),
        design_values(data_dir / "design_values.csv"),
        design_value_conversions(data_dir / "design_value_conversions.csv"),
        surface_factor_limits(data_dir / "surface_factor_limits.csv"),
        climates(data_dir / "climates.csv"),
        humidity_classes(data_dir / "humidity_classes.csv"),
        condensate_limits(data_dir / "condensate_limits.csv"),
        in_use_limits(data_dir / "in_use_limits.csv") {}

  DataTable surface_resistances;
  DataTable air_layers;
  DataTable u_value_limits;
  DataTable window_limits;
  DataTable door_limits;
  DataTable air_permeability_limits;
  DataTable air_void_levels;
  DataTable design_values;
  DataTable design_value_conversions;
  DataTable surface_factor_limits;
  DataTable climates;
  DataTable humidity_classes;
  DataTable condensate_limits;
  DataTable in_use_limits;
};

}  // namespace panel_dossier::thermal
