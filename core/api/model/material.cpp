#include "core/api/model/material.h"

namespace panel_dossier {

// Many members: compiled here once instead of in every source that holds one.
Material::Material() = default;
Material::Material(const Material&) = default;
Material::Material(Material&&) noexcept = default;
Material& Material::operator=(const Material&) = default;
Material& Material::operator=(Material&&) noexcept = default;
Material::~Material() = default;

std::optional<Sourced<double>> Material::density_kg_per_m3() const {
  return properties.number("Pset_MaterialCommon", "MassDensity");
}

std::optional<Sourced<double>> Material::thermal_conductivity_w_per_mk() const {
  return properties.number("Pset_MaterialThermal", "ThermalConductivity");
}

std::optional<Sourced<double>> Material::specific_heat_j_per_kgk() const {
  return properties.number("Pset_MaterialThermal", "SpecificHeatCapacity");
}

std::optional<Sourced<double>> Material::vapour_resistance_factor() const {
  return properties.number("Pset_MaterialHygroscopic", "UpperVaporResistanceFactor");
}

std::optional<Sourced<std::string>> Material::strength_class() const {
  auto grade = properties.text("Pset_MaterialWood", "StrengthGrade");
  return grade ? grade : properties.text("Panel_Timber", "StrengthClass");
}

}  // namespace panel_dossier
