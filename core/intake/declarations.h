// What the export declares once for all panels: site, buildings and storeys, and the documents it names as evidence.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/evidence/evidence_register.h"
#include "core/intake/graph/property_reader.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// Where an element stands in the building.
struct SpatialPlace {
  std::optional<std::size_t> storey;  ///< index into Project::storeys
  std::string building;
};

/// Belongs to one run on one thread; `project` must outlive it.
class SpatialReader {
 public:
  SpatialReader(const ReadContext& context, UnitTable& units, PropertyReader& properties, Project& project)
      : context_(context), units_(units), properties_(properties), project_(project) {}

  /// The only IfcProject of the file. Reports none and more than one.
  static Element find_project(const ReadContext& context);

  /// Fills everything of the project but materials, evidence and panels.
  void read(const Element& project_entity);

  /// From the containment of the element or of what it is a part of.
  SpatialPlace place_of(const Element& element) const;

 private:
  const ReadContext& context_;
  UnitTable& units_;
  PropertyReader& properties_;
  Project& project_;
  std::unordered_map<const void*, std::size_t> storey_index_;

  void read_storeys();
  std::string building_of(const Element& element) const;
  double true_north(const Element& project_entity) const;
};

/// The spatial element that contains the element, or the whole it is a part of; empty at the top.
Element owner_of(const ReadContext& context, const Element& element);

/// Belongs to one run on one thread; `project` must outlive it.
class EvidenceReader {
 public:
  /// `libraries` are the registers of libraries, an earlier one before a later one.
  EvidenceReader(const ReadContext& context, std::filesystem::path project_dir,
                 std::vector<EvidenceRegister*> libraries, Project& project)
      : context_(context), project_dir_(std::move(project_dir)), libraries_(std::move(libraries)), project_(project) {}

  /// Fills Project::evidence with every IfcDocumentReference of the file, with what its IfcDocumentInformation, the
  /// register beside the export and those of libraries say of it, and looks into the files. Warns of each that is not
  /// there, holds nothing that can be read, or is not what is said of it.
  void read();

  /// Appends the indices of the documents associated with an entity; one may come more than once.
  void add_documents_of(const Element& entity, std::vector<std::size_t>& evidence) const;

 private:
  const ReadContext& context_;
  std::filesystem::path project_dir_;
  std::vector<EvidenceRegister*> libraries_;
  Project& project_;
  std::unordered_map<const void*, std::size_t> index_;
  std::unordered_map<const void*, std::vector<Element>> references_of_information_;
  std::unordered_map<const void*, Element> information_of_reference_;

  void join_information();
  void add_information(const Element& entity, Evidence& evidence) const;
  std::string owner_name(const Element& information) const;
  std::string day(const Element& owner, std::string_view attribute) const;
  void find_repeated();
  void warn(const Element& entity, const Evidence& evidence) const;
};

}  // namespace panel_dossier
