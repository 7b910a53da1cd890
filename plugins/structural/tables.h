// The data tables of the structural checks.
#pragma once

#include <filesystem>

#include "core/api/support/data_table.h"

namespace panel_dossier::structural {

/// Read once when the plugin is made; immutable, so safe to share between threads.
struct Tables {
  /// Throws std::runtime_error naming file and line when a table is absent or broken.
  explicit Tables(const std::filesystem::path& data_dir);

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
