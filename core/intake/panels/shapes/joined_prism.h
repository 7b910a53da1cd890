// Pieces of a body that together are one prism.
#pragma once

#include <optional>
#include <vector>

#include "core/intake/panels/shapes/polyhedron.h"
#include "core/intake/panels/shapes/prism_form.h"

namespace panel_dossier {

/// The prism that pieces without overlap make up, as the rest of a wall does out of which a notch was cut; none when
/// they make up none, or leave something between them.
std::optional<PrismForm> joined_prism(const std::vector<Polyhedron>& pieces);

}  // namespace panel_dossier
