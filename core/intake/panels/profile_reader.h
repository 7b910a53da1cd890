// Profiles of the export -> closed outlines in metres.
#pragma once

#include <optional>

#include "core/api/support/geometry.h"
#include "core/intake/panels/placement.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// The outline of a profile in its plane, without the first point repeated. Faults are reported; none then. A profile
/// form that is not read gives none without a report: see `is_read_profile`.
std::optional<Polygon> read_profile(const ReadContext& context, const PlacementReader& placements, double length_factor,
                                    const Element& profile);

bool is_read_profile(const Element& profile);

}  // namespace panel_dossier
