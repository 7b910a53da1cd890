// The data tables of the structural checks.
#pragma once

#include <filesystem>

#include "core/api/support/data_table.h"

namespace panel_dossier::structural {

/// Read once when the plugin is made; immutable, so safe to share between threads.
struct Tables {
  /// Throws std::runtime_error naming file and line when a table is absent or broken.
  explicit Tables(const std::filesystem::path& data_dir)
      : strength_classes(data_dir / "strength_classes.csv"),
        modification_factors(data_dir / "modification_factors.csv"),
        deformation_factors(data_dir / "deformation_factors.csv"),
        national_annex(data_dir / "national_annex.csv"),
        panel_products(data_dir / "panel_products.csv"),
        deflection_limits(data_dir / "deflection_limits.csv"),
        jurisdictions(data_dir / "jurisdictions.csv"),
        combination_factors(data_dir / "combination_factors.csv"),
        terrain_categories(data_dir / "terrain_categories.csv"),
        wall_pressure_coefficients(data_dir / "wall_pressure_coefficients.csv"),
        barrier_loads(data_dir / "barrier_loads.csv"),
        lifting_factors(data_dir / "lifting_factors.csv") {}

  DataTable strength_classes;            ///< EN 338, EN 14080
  DataTable modification_factors;        ///< kmod
  DataTable deformation_factors;         ///< kdef
  DataTable national_annex;              ///< partial factors, ξ and kcr
  DataTable panel_products;              ///< EN 12369-1
  DataTable deflection_limits;           ///< span over deflection by finish
  DataTable jurisdictions;               ///< annex that belongs to a jurisdiction
  DataTable combination_factors;         ///< ψ0, ψ1, ψ2 and load-duration class
  DataTable terrain_categories;          ///< z0, zmin
  DataTable wall_pressure_coefficients;  ///< cpe of zones A to E
  DataTable barrier_loads;               ///< qk of persons against a barrier
  DataTable lifting_factors;             ///< force coefficient of a hanging panel
};

}  // namespace panel_dossier::structural
