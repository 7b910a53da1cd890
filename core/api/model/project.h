// The whole project as plugins see it. Immutable once read; safe to share between threads.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/evidence.h"
#include "core/api/model/material.h"
#include "core/api/model/panel.h"

namespace panel_dossier {

struct Storey {
  std::string global_id;
  std::string name;
  std::string building;
  std::optional<Sourced<double>> elevation_m;  ///< of the floor, above the building's own datum
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
  std::vector<Panel> panels;  ///< ordered by mark
  Properties properties;      ///< of IfcProject, IfcSite and IfcBuilding
  Origin origin;
  std::string folder;  ///< absolute path of the folder of the export, in which evidence lies; empty for one in memory
};

/// Material of a part or layer; null when there is none. Precondition: `index` comes from this project.
inline const Material* material_at(const Project& project, std::optional<std::size_t> index) {
  return index ? &project.materials[*index] : nullptr;
}

/// The evidence with this id, or null.
const Evidence* find_evidence(const Project& project, std::string_view id);

}  // namespace panel_dossier
