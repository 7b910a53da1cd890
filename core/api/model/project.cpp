#include "core/api/model/project.h"

#include <algorithm>
#include <array>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr std::array<std::pair<EvidenceKind, std::string_view>, 11> kEvidenceKinds{{
    {EvidenceKind::not_stated, "document of no stated kind"},
    {EvidenceKind::fire_test_report, "fire test report"},
    {EvidenceKind::classification_report, "classification report"},
    {EvidenceKind::product_declaration, "product declaration"},
    {EvidenceKind::environmental_declaration, "environmental declaration"},
    {EvidenceKind::chain_of_custody_certificate, "chain of custody certificate"},
    {EvidenceKind::air_test_report, "air test report"},
    {EvidenceKind::lifting_certificate, "lifting certificate"},
    {EvidenceKind::factory_production_control, "factory production control"},
    {EvidenceKind::fire_strategy, "fire strategy"},
    {EvidenceKind::other, "other"},
}};

/// `fire test report or classification report`.
std::string either_of(const std::vector<EvidenceKind>& kinds) {
  std::string text;
  for (const EvidenceKind kind : kinds) text += (text.empty() ? "" : " or ") + std::string(to_string(kind));
  return text;
}

std::string kind_fault(EvidenceKind kind, const std::vector<EvidenceKind>& kinds) {
  if (std::find(kinds.begin(), kinds.end(), kind) != kinds.end()) return {};
  if (kind == EvidenceKind::not_stated) {
    return "is of no stated kind; needed: " + either_of(kinds) + " (evidence/evidence.csv, column kind)";
  }
  return "is of the kind '" + std::string(to_string(kind)) + "'; needed: " + either_of(kinds);
}

std::string day_fault(const Evidence& document, std::string_view day) {
  if (day.empty()) {
    return document.expires.empty()
               ? std::string()
               : "is valid until " + document.expires + "; set the day that counts (setting project.assessment_date)";
  }
  const std::string on_the_day = "on the assessment date " + std::string(day) + " (project.assessment_date)";
  if (document.issued > day) return "is not issued " + on_the_day + ": its day is " + document.issued;
  if (!document.expires.empty() && document.expires < day) {
    return "has expired " + on_the_day + ": it was valid until " + document.expires;
  }
  return {};
}

}  // namespace

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

const Delivery* find_delivery(const Project& project, std::string_view number) {
  const auto found =
      std::lower_bound(project.deliveries.begin(), project.deliveries.end(), number,
                       [](const Delivery& delivery, std::string_view wanted) { return delivery.number < wanted; });
  return found == project.deliveries.end() || found->number != number ? nullptr : &*found;
}

const Evidence* find_evidence(const Project& project, std::string_view id) {
  const auto found = std::find_if(project.evidence.begin(), project.evidence.end(),
                                  [id](const Evidence& evidence) { return evidence.id == id; });
  return found == project.evidence.end() ? nullptr : &*found;
}

std::string_view to_string(EvidenceStatus status) {
  switch (status) {
    case EvidenceStatus::present: return "present";
    case EvidenceStatus::missing: return "missing: no file at that place";
    case EvidenceStatus::refused: return "refused: the place lies outside the project folder";
    case EvidenceStatus::empty: return "the file is empty";
    case EvidenceStatus::unreadable: return "the file holds neither text nor pages that can be read";
    case EvidenceStatus::unnamed: break;
  }
  return "the text does not name its number";
}

std::string_view to_string(EvidenceKind kind) {
  const auto* found = std::find_if(kEvidenceKinds.begin(), kEvidenceKinds.end(),
                                   [kind](const auto& entry) { return entry.first == kind; });
  return found == kEvidenceKinds.end() ? kEvidenceKinds.front().second : found->second;
}

std::string_view to_string(NeighbourKind kind) {
  switch (kind) {
    case NeighbourKind::wall: return "wall";
    case NeighbourKind::curtain_wall: return "curtain wall";
    case NeighbourKind::slab: return "slab";
    case NeighbourKind::roof: return "roof";
    case NeighbourKind::footing: return "footing";
    case NeighbourKind::column: return "column";
    case NeighbourKind::beam: return "beam";
    case NeighbourKind::stair: return "stair";
    case NeighbourKind::ground: return "ground";
    case NeighbourKind::other: break;
  }
  return "building element";
}

std::optional<EvidenceKind> parse_evidence_kind(std::string_view words) {
  const std::string lower = lower_case(trimmed(words));
  // The first entry stands for a kind that nobody stated.
  const auto* found = std::find_if(kEvidenceKinds.begin() + 1, kEvidenceKinds.end(),
                                   [&lower](const auto& entry) { return entry.second == lower; });
  if (found == kEvidenceKinds.end()) return std::nullopt;
  return found->first;
}

std::string evidence_fault(const Evidence& document, const std::vector<EvidenceKind>& kinds, std::string_view day) {
  const std::string name = "document '" + document.id + "'";
  if (document.status != EvidenceStatus::present) {
    const std::string number =
        document.status == EvidenceStatus::unnamed ? " '" + document.number + "'" : std::string();
    return name + ": " + std::string(to_string(document.status)) + number + " ('" + document.location + "')";
  }
  if (!document.faults.empty()) return name + ": " + joined(document.faults, "; ");
  if (const std::string fault = kind_fault(document.kind, kinds); !fault.empty()) return name + " " + fault;
  const std::string fault = day_fault(document, day);
  return fault.empty() ? fault : name + " " + fault;
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
