// Names of many parts in one short cell.
#pragma once

#include <string>
#include <vector>

namespace panel_dossier::quantities {

/// The names in their order, separated by `; `. A run of names that differ only by an ending number that goes up by one
/// and keeps its digits is shortened: `Stud 01 to 05`.
std::string part_names(const std::vector<std::string>& names);

}  // namespace panel_dossier::quantities
