// The ILCD flow data set beside a declaration, which says what its amount is an amount of.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "core/api/model/origin.h"

namespace panel_dossier {

/// The unit of the reference flow property: `kg` of mass, `m3` of volume, `m2` of area, `m` of length, `piece` of a
/// number of pieces. None for another property, for one that is not 1 by itself, and for anything that is no readable
/// flow data set.
std::optional<Sourced<std::string>> read_flow_unit(std::string text, const std::string& location,
                                                   const std::string& document);

/// The same for the file that the declaration at `location` refers to by `uri`, a path relative to it such as
/// `../flows/UUID.xml`. None when it is not there or not inside `project_dir`; nothing outside is opened.
std::optional<Sourced<std::string>> read_flow_unit_beside(const std::filesystem::path& project_dir,
                                                          const std::string& location, const std::string& uri,
                                                          const std::string& document);

}  // namespace panel_dossier
