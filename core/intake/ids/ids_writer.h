// The program's own requirements as a file of the form IDS 1.0, made from the lists of properties.
#pragma once

#include <string>
#include <vector>

#include "core/intake/graph/property_list.h"

namespace panel_dossier {

/// What the rows ask of an export: first what it must hold, one specification for each kind of entity, then what is of
/// use where it is there, one for each kind of entity and property set. Text in UTF-8.
std::string ids_text(const std::vector<PropertyRow>& rows);

}  // namespace panel_dossier
