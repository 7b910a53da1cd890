// The properties of the standard that say the same as one of ours.
#pragma once

#include <vector>

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/property_list.h"

namespace panel_dossier {

/// Gives a property of ours, wherever the export states only the standard's beside it (column `standard` of the lists),
/// that one's value; its origin says where it stood and under which name. Where several of these stand in one place and
/// differ, all of them are withheld and reported, for nobody knows which is meant; ours is withheld too where the
/// standard's is. What the standard states of an element and the program asks of its material is taken from the parts
/// of that material when all of them that state it agree, and withheld when they do not.
/// Called again, it withholds ours where the standard's has been withheld since, and gives what has been added since.
void read_standard_names(Project& project, const std::vector<PropertyRow>& rows, Reporter& report);

}  // namespace panel_dossier
