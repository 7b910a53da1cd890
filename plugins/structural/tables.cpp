#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

Tables::Tables(const std::filesystem::path& data_dir)
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

}  // namespace panel_dossier::structural
