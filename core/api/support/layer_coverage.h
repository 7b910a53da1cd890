// Whether the parts of a panel fill the layers that it states.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/panel.h"

namespace panel_dossier {

/// What the material layers of a panel say and its parts do not bear out, one text each: a layer that no part, or a
/// part of too little depth, fills over some of the face; an insulated layer without framing. Empty for a panel without
/// parts, whose framing is not known anyway, and for one whose parts have no shape. Layers without material and those
/// of category `air` may be empty. Strips up to 25 mm wide are joints of boards and slabs or room round a window, which
/// models draw or leave out (common practice).
std::vector<std::string> layers_against_parts(const Panel& panel);

}  // namespace panel_dossier
