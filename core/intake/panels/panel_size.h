// Frame and size of a panel, and sizes and positions that cannot be meant.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/properties.h"
#include "core/api/support/geometry.h"
#include "core/intake/panels/part_reader.h"
#include "core/intake/panels/shape_reader.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// Turns the frame of the panel's placement so that z points up in the world and y goes through the panel. `size` is
/// the panel's extent along the axes of `placement`; `along_x` says that the layers of the panel lie along its x axis.
/// A placement that is already upright keeps its y axis, as the standard's walls have it, unless the panel is longer
/// along y than along x and thicker than any cassette.
Frame upright(const Frame& placement, const Vec3& size, bool along_x);

/// Half a turn about z: brings the outer face from -y to +y.
Frame turned_about(const Frame& frame);

/// `2.5 m` for messages, the same in every locale; at most four decimals, without trailing zeros.
std::string metres(double value_m);

/// A part may stick out of its panel by this much: above the rounding of any exporter (1 mm) and the cutting tolerance
/// of the workshop (2 mm), below the thickness of any part that a check depends on. Common practice.
inline constexpr double kOutsideTolerance_m = 0.005;

/// Boards, membranes and claddings may lap over the next panel or the slab edge by this much. Common practice.
inline constexpr double kLapAllowance_m = 0.3;

/// Reports a panel whose size no factory could make: metres and millimetres were confused. False then.
bool check_panel_size(const ReadContext& context, const Element& entity, const Panel& panel);

/// Reports parts outside the panel's box. The parts and the size of the panel are set.
void check_parts_inside(const ReadContext& context, const Panel& panel, const std::vector<PlacedPart>& placed);

/// True where two measures of one length differ by more than 1 mm and 0.1 %, the rounding of exporters.
bool differs(double a_m, double b_m);

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
