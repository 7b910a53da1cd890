// Layers that must come off before the one behind them can be replaced.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"

namespace panel_dossier::carbon {

/// One note for each layer whose material is replaced: the layers between it and the face from which it is reached that
/// are not replaced as often themselves. A layer is reached from outside when it lies outside the studs, from inside
/// when inside of them. None for the layer of the studs, and none at all where no layer holds studs. `replacements`
/// counts them by index into `Project::materials`.
std::vector<std::string> layers_in_the_way(const Panel& panel, const Project& project,
                                           const std::map<std::size_t, double>& replacements);

}  // namespace panel_dossier::carbon
