// Whether the parts of a panel can stand where the model puts them.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/panel.h"

namespace panel_dossier {

/// What is wrong with the places of the parts, one text each, naming both things concerned: a part that is there twice,
/// framing members that take up the same room, boards or slabs of one layer in one place, a member that stands outside
/// of the panel or runs through an opening, a single fastener that hangs in an opening and touches no edge of it.
/// Other fasteners and parts without a shape are left out. Empty when all can stand together.
std::vector<std::string> parts_out_of_place(const Panel& panel);

}  // namespace panel_dossier
