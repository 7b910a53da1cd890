// Names of parts, materials, sections and storeys as tables show them.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "core/api/model/project.h"
#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

/// The names in their order, separated by `; `. A run of names that differ only by an ending number that goes up by one
/// and keeps its digits is shortened: `Stud 01 to 05`.
std::string part_names(const std::vector<std::string>& names);

/// A material as rows are gathered and sorted: by name, and two of one name apart by their place in the project.
struct MaterialKey {
  std::string name;                  ///< `not stated` without a material
  std::optional<std::size_t> index;  ///< into Project::materials

  bool operator==(const MaterialKey& other) const { return name == other.name && index == other.index; }
  bool operator<(const MaterialKey& other) const { return std::tie(name, index) < std::tie(other.name, other.index); }
};

/// In place of a material: windows and doors that the factory fits.
inline constexpr const char* kFillings = "windows and doors, factory fitted";

MaterialKey material_key(const Project& project, std::optional<std::size_t> material);

/// How many materials of the project bear the name.
std::size_t materials_named(const Project& project, const std::string& name);

/// The name; `softwood (2 of 3 of this name)` where others of the project bear it too, counted in the export's order.
std::string printed_name(const Project& project, const MaterialKey& material);

/// Panel_Fastener.Type, else the name of the part.
std::string fastener_type(const Part& part);

/// Name of the storey, `no storey` for an index beyond the project's storeys.
std::string storey_name(const Project& project, std::size_t index);

/// A length in mm without unit: whole where it is, else with one decimal.
std::string millimetres_text(Micrometres length);

/// Sizes in mm without unit: `45 × 220`, `12.5 × 600`.
std::string section_name(Micrometres thickness, Micrometres width);

}  // namespace panel_dossier::quantities
