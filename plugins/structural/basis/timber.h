// Strength classes of timber and the factors that go with a material family.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/support/data_table.h"
#include "plugins/structural/basis/member_resistance.h"
#include "plugins/structural/tables.h"

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

/// kh of a member bent in the direction of h: that of its depth, 1 for an outline other than a rectangle.
double section_depth_factor(const Section& section, TimberFamily family);

/// kn of EN 1995-1-1:2004 (6.63).
double notch_factor(TimberFamily family);

/// Values of one member's material.
struct MemberMaterial {
  TimberClass timber;
  std::string service_class;  ///< `1`, `2` or `3`
  Sourced<double> partial_factor;
  Sourced<double> deformation_factor;
  std::vector<Input> inputs;
};

/// None, with the reason added to `missing`, when class or service class is absent or unknown.
std::optional<MemberMaterial> member_material(const Material* material, const std::string& member_name,
                                              const Settings& settings, const Tables& tables, const std::string& annex,
                                              std::vector<std::string>& missing);

/// kmod of a timber member, EN 1995-1-1 table 3.1; none when the table has no such load-duration class.
std::optional<Sourced<double>> modification_factor(const Tables& tables, const MemberMaterial& material,
                                                   const std::string& duration);

}  // namespace panel_dossier::structural
