// The overall box of a panel.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/model/properties.h"
#include "core/api/support/geometry.h"
#include "core/intake/panels/part_reader.h"
#include "core/intake/panels/shape_reader.h"

namespace panel_dossier {

/// Where the overall box of a panel comes from.
struct OverallBox {
  Box3 box;  ///< in the frame asked for
  enum class Source { body, parts, quantities } source = Source::body;
};

/// The body's box, else that of the parts, in `frame` (given in the world's); none when there is no geometry.
/// `body` and the shapes of the parts stand in the world's frame.
std::optional<OverallBox> overall_box(const Shape& body, const std::vector<PlacedPart>& parts, const Frame& frame);

/// A box at the origin from Qto_WallBaseQuantities, with the total of the layers where no Width is stated.
std::optional<OverallBox> stated_box(const Properties& properties, double layers_total_m);

/// Warns where Qto_WallBaseQuantities states another size than the panel has. Parts that reach far beyond the stated
/// size are reported as an error at the part that stands farthest from the others. The parts stand in the panel's
/// frame.
void compare_with_quantities(const ReadContext& context, const Element& entity, const Panel& panel,
                             const std::vector<PlacedPart>& parts, OverallBox::Source source);

}  // namespace panel_dossier
