// Strength classes of timber and the factors that go with a material family.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/api/support/data_table.h"

namespace panel_dossier::structural {

enum class TimberFamily { solid, glulam };

/// `solid` or `glulam`: the word used in the keys of the data tables.
std::string_view to_string(TimberFamily family);

/// Characteristic values in Pa and kg/m³; every value carries its row.
struct TimberClass {
  std::string name;
  TimberFamily family = TimberFamily::solid;
  Sourced<double> bending_pa;                    ///< fm,k
  Sourced<double> tension_parallel_pa;           ///< ft,0,k
  Sourced<double> compression_parallel_pa;       ///< fc,0,k
  Sourced<double> compression_perpendicular_pa;  ///< fc,90,k
  Sourced<double> shear_pa;                      ///< fv,k
  Sourced<double> modulus_mean_pa;               ///< E0,mean
  Sourced<double> modulus_fifth_pa;              ///< E0,05
  Sourced<double> shear_modulus_mean_pa;         ///< Gmean
  Sourced<double> density_kg_per_m3;             ///< ρk
  Sourced<double> density_mean_kg_per_m3;        ///< ρmean
};

/// The class of that name, written with or without blanks (`C 24`); none when the table has no complete row for it.
std::optional<TimberClass> timber_class(const DataTable& strength_classes, std::string_view name);

/// βc of EN 1995-1-1:2004 (6.29): straightness of the family.
double straightness_factor(TimberFamily family);

/// kh of EN 1995-1-1:2004 3.2(3) and 3.3(3) for bending; `depth_m` > 0.
double depth_factor(TimberFamily family, double depth_m);

}  // namespace panel_dossier::structural
