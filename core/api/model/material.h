// A material of the export and its commonly read properties.
#pragma once

#include <optional>
#include <string>

#include "core/api/model/origin.h"
#include "core/api/model/properties.h"

namespace panel_dossier {

struct Material {
  Material();
  Material(const Material&);
  Material(Material&&) noexcept;
  Material& operator=(const Material&);
  Material& operator=(Material&&) noexcept;
  ~Material();

  std::string name;
  std::string category;  ///< IfcMaterial.Category in lower case (`wood`, `gypsum`, …); may be empty
  Properties properties;
  Origin origin;

  /// Mass density ρ in kg/m³: Pset_MaterialCommon.MassDensity.
  std::optional<Sourced<double>> density_kg_per_m3() const;
  /// Design thermal conductivity λ in W/(m·K): Pset_MaterialThermal.ThermalConductivity.
  std::optional<Sourced<double>> thermal_conductivity_w_per_mk() const;
  /// Specific heat capacity c in J/(kg·K): Pset_MaterialThermal.SpecificHeatCapacity.
  std::optional<Sourced<double>> specific_heat_j_per_kgk() const;
  /// Water vapour resistance factor μ (ratio): Pset_MaterialHygroscopic.UpperVaporResistanceFactor.
  std::optional<Sourced<double>> vapour_resistance_factor() const;
  /// Strength class of structural timber, for example `C24`: Pset_MaterialWood.StrengthGrade, else
  /// Panel_Timber.StrengthClass.
  std::optional<Sourced<std::string>> strength_class() const;
};

}  // namespace panel_dossier
