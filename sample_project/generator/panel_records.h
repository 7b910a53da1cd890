// What the workshop and the site recorded for a panel, invented for the sample.
#pragma once

#include <vector>

#include "sample_project/generator/building.h"
#include "sample_project/generator/properties.h"

namespace sample_export {

/// The property sets of one panel: identity, inspection, as-built sizes and, once erected, its installation.
std::vector<PropertySet> panel_records(const PlacedPanel& panel);

}  // namespace sample_export
