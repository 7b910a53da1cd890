#include "core/api/model/project.h"

#include <algorithm>

namespace panel_dossier {

// Many members: compiled here once instead of in every source that holds one.
Material::Material() = default;
Material::Material(const Material&) = default;
Material::Material(Material&&) noexcept = default;
Material& Material::operator=(const Material&) = default;
Material& Material::operator=(Material&&) noexcept = default;
Material::~Material() = default;

Project::Project() = default;
Project::Project(const Project&) = default;
Project::Project(Project&&) noexcept = default;
Project& Project::operator=(const Project&) = default;
Project& Project::operator=(Project&&) noexcept = default;
Project::~Project() = default;

const Evidence* find_evidence(const Project& project, std::string_view id) {
  const auto found = std::find_if(project.evidence.begin(), project.evidence.end(),
                                  [id](const Evidence& evidence) { return evidence.id == id; });
  return found == project.evidence.end() ? nullptr : &*found;
}

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
