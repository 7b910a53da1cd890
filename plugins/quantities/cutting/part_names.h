// Names of parts, materials and sections as tables show them.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

/// The names in their order, separated by `; `. A run of names that differ only by an ending number that goes up by one
/// and keeps its digits is shortened: `Stud 01 to 05`.
std::string part_names(const std::vector<std::string>& names);

/// Name of the part's material, else `not stated`.
std::string material_name(const Project& project, const Part& part);

/// A length in mm without unit: whole where it is, else with one decimal.
std::string millimetres_text(Micrometres length);

/// Sizes in mm without unit: `45 × 220`, `12.5 × 600`.
std::string section_name(Micrometres thickness, Micrometres width);

}  // namespace panel_dossier::quantities
