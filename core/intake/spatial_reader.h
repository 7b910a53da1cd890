// Project, site, buildings and storeys.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>

#include "core/api/model/project.h"
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

}  // namespace panel_dossier
