// The table of material values behind the export.
#pragma once

#include <string_view>
#include <vector>

namespace sample_export {

/// An invented but believable environmental product declaration, kg CO2e per declared unit.
struct EnvironmentalData {
  std::string_view document;
  std::string_view unit;  ///< kg, m3 or m2
  double thickness_mm;    ///< behind a declared unit of m2; else 0
  std::string_view valid_until;
  double fossil_a1_a3;
  double biogenic_a1_a3;
  double luluc_a1_a3;
  double c1;
  double c2;
  double c3;
  double c4;
  double d;
  double waste_rate;
  std::string_view kind = "GENERIC";  ///< SPECIFIC, AVERAGE or GENERIC; the same as in the file where one is read
};

/// Empty text and zero mean that the property does not apply.
struct MaterialData {
  std::string_view key;
  std::string_view name;
  std::string_view category;
  std::string_view manufacturer;
  double density_kg_per_m3;
  double conductivity_w_per_mk;
  double specific_heat_j_per_kgk;
  double vapour_factor_dry;
  double vapour_factor_wet;
  std::string_view strength_class;
  double moisture_content;
  std::string_view product_standard;
  std::string_view reaction_to_fire;
  std::string_view protection_role;
  std::string_view charring_class;
  double transport_km;
  double service_life_years;
  std::string_view custody_claim;
  EnvironmentalData environment;
  /// Declared at 10 °C, where the design value above was converted from one.
  double declared_conductivity_w_per_mk = 0.0;
  /// Row of the table of conversion coefficients.
  std::string_view conversion_class = {};
};

const std::vector<MaterialData>& material_data();

}  // namespace sample_export
