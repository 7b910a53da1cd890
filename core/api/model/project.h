// The whole project as plugins see it. Immutable once read; safe to share between threads.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/origin.h"
#include "core/api/model/panel.h"
#include "core/api/model/properties.h"
#include "core/api/model/record.h"

namespace panel_dossier {

/// A material of the export and its commonly read properties.
struct Material {
  Material();
  Material(const Material&);
  Material(Material&&) noexcept;
  Material& operator=(const Material&);
  Material& operator=(Material&&) noexcept;
  ~Material();

  std::string name;
  std::string category;  ///< IfcMaterial.Category in lower case (`wood`, `gypsum`, …); may be empty
  /// Of the IfcClassificationReference of the material, else of the element types made of it alone: Identification,
  /// else Name. Empty when there is none, or types of one material have different ones.
  std::string classification;
  /// Pset_ManufacturerTypeInformation.ArticleNumber, found in the same way.
  std::string article_number;
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

enum class EvidenceStatus {
  present,     ///< the file lies inside the project folder, holds text or pages, and a text names its own number
  missing,     ///< no file at that path
  refused,     ///< the path is absolute, a URL, or leads outside the project folder; not followed
  empty,       ///< no byte, or white space alone
  unreadable,  ///< neither UTF-8 text nor pages: a PDF that does not begin with %PDF or is cut off, other bytes
  unnamed,     ///< its text does not name the document's own number
};

/// `present`, `missing: no file at that place`, …: a few words that end a line of a register.
std::string_view to_string(EvidenceStatus status);

/// What a document is; evidence of one thing is none of another.
enum class EvidenceKind {
  not_stated,
  fire_test_report,
  classification_report,
  product_declaration,
  environmental_declaration,
  chain_of_custody_certificate,
  air_test_report,
  lifting_certificate,
  factory_production_control,
  fire_strategy,
  other,
};

/// The words of the register and of reasons: `fire test report`, …, `other`; `document of no stated kind` for
/// `not_stated`.
std::string_view to_string(EvidenceKind kind);
/// The kind of these words, in either case; none for others.
std::optional<EvidenceKind> parse_evidence_kind(std::string_view words);

/// A document the project names as evidence. What it says of itself comes from the export's IfcDocumentInformation and
/// from the register evidence/evidence.csv (schemas/evidence.md); a text is empty where neither gives it.
struct Evidence {
  std::string id;  ///< Identification (ItemReference in IFC2x3) of the IfcDocumentReference
  std::string name;
  std::string location;  ///< relative path as the export or the library gives it
  EvidenceStatus status = EvidenceStatus::missing;
  Origin origin;
  EvidenceKind kind = EvidenceKind::not_stated;  ///< as stated, else as the document's own text says
  std::string number = {};                       ///< printed in the document; the id where no other is given
  std::string issuer = {};                       ///< body, laboratory or programme
  std::string standard = {};                     ///< tested, classified or declared to
  std::string issued = {};                       ///< day, YYYY-MM-DD
  std::string expires = {};                      ///< last day on which it is valid, YYYY-MM-DD
  std::string subject = {};                      ///< product or construction
  std::string scope = {};                        ///< what it covers, in words
  std::string sponsor = {};                      ///< who had it made
  std::string permission = {};                   ///< id of the document by which another than the sponsor may use it
  std::string countries = {};                    ///< in which it may be used, with commas between
  std::string sha256 = {};                       ///< of the file as the register gives it: 64 lower-case digits
  /// Where what is said of the document does not hold or agree, one text each; such a document proves nothing.
  std::vector<std::string> faults = {};
  /// Absolute path of the folder that `location` is relative to, where the file lies in a library; else empty.
  std::string folder = {};
};

/// Who has a part in the project: designer, maker, builder, client …
struct Party {
  std::string role;
  std::string name;  ///< of the person; may be empty where an organisation is given
  std::string organisation;
  std::string address;
  std::string contact;  ///< telephone or address for mail
  Origin origin;
};

struct Storey {
  std::string global_id;
  std::string name;
  std::string building;
  std::optional<Sourced<double>> elevation_m;  ///< of the floor, above the building's own datum
  Origin origin;
};

enum class NeighbourKind {
  wall,  ///< one that is no panel
  curtain_wall,
  slab,
  roof,
  footing,  ///< piles among them
  column,
  beam,
  stair,   ///< ramps among them
  ground,  ///< terrain, where the export gives it a shape
  other,
};

/// The word used in tables and reasons: `curtain wall`, …, `building element` for `other`.
std::string_view to_string(NeighbourKind kind);

/// A piece of the building that is no panel: what panels stand on, carry, meet or lie beside.
struct Neighbour {
  NeighbourKind kind = NeighbourKind::other;
  std::string entity;  ///< IFC entity name, for example `IfcSlab`
  std::string global_id;
  std::string name;
  std::optional<std::size_t> storey;  ///< index into Project::storeys
  std::optional<Box3> bounds;         ///< in the project's world frame, m; none when its shape is not read
  /// Total of its material layers, else of a slab or roof that lies flat the height of its shape; m.
  std::optional<Sourced<double>> thickness_m;
  std::string material;  ///< names of its materials with commas between; empty when the export gives none
  Origin origin;
};

struct Project {
  Project();
  Project(const Project&);
  Project(Project&&) noexcept;
  Project& operator=(const Project&);
  Project& operator=(Project&&) noexcept;
  ~Project();

  std::string global_id;
  std::string name;
  std::string description;
  std::string phase;
  std::string site_name;
  std::vector<std::string> buildings;  ///< names
  /// Angle in radians from the project's y axis to true north, anticlockwise; 0 when the export gives none.
  double true_north_rad = 0.0;
  std::vector<Storey> storeys;  ///< ascending elevation
  std::vector<Material> materials;
  std::vector<Evidence> evidence;
  std::vector<Panel> panels;               ///< ordered by mark
  std::vector<Neighbour> neighbours;       ///< in file order
  std::vector<Delivery> deliveries;        ///< by number
  std::vector<MaterialBatch> batches;      ///< by reference, then by material
  std::vector<PanelRecord> records;        ///< of no panel: deliveries of material, tests of the whole building
  std::vector<StrayRecord> stray_records;  ///< in the order of the tables and of their rows
  Properties properties;                   ///< of IfcProject, IfcSite and IfcBuilding
  std::vector<Party> parties;              ///< as the library names them
  Origin origin;
  std::string folder;  ///< absolute path of the folder of the export, in which evidence lies; empty for one in memory
};

/// Material of a part or layer; null when there is none. Precondition: `index` comes from this project.
inline const Material* material_at(const Project& project, std::optional<std::size_t> index) {
  return index ? &project.materials[*index] : nullptr;
}

/// The delivery of this number, or null.
const Delivery* find_delivery(const Project& project, std::string_view number);

/// The folder in which the file of the document lies and which it may not lead out of.
inline const std::string& folder_of(const Evidence& document, const Project& project) {
  return document.folder.empty() ? project.folder : document.folder;
}

/// The evidence with this id, or null.
const Evidence* find_evidence(const Project& project, std::string_view id);

/// What is wrong with the document as evidence of one of these kinds on `day` (YYYY-MM-DD, the day of assessment; empty
/// when none is set), as a part of a reason that names the document; empty when it serves. A document is expired on the
/// day after its last one. Where it has a last day and no day of assessment is set, that is what is wrong.
std::string evidence_fault(const Evidence& document, const std::vector<EvidenceKind>& kinds, std::string_view day);

}  // namespace panel_dossier
