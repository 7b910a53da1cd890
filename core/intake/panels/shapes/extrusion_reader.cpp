#include "core/intake/panels/shapes/extrusion_reader.h"

#include <cmath>
#include <utility>

namespace panel_dossier {

namespace {

// A direction this close to the plane of the profile gives a solid without volume.
constexpr double kMinRise = 1e-6;

}  // namespace

std::optional<PrismForm> ExtrusionReader::read(const Element& item) {
  const Element profile = context_.graph.entity(item, "SweptArea");
  if (!profile) {
    context_.report.error(item, "has no SweptArea", "export the profile with the solid");
    return std::nullopt;
  }
  auto area = profiles_.area(profile);
  const auto position = placements_.axis_placement(context_.graph.entity(item, "Position"));
  const Element direction_entity = context_.graph.entity(item, "ExtrudedDirection");
  const auto direction = direction_entity ? placements_.direction(direction_entity) : Vec3{0.0, 0.0, 1.0};
  const auto depth = required_number(context_, item, "Depth");
  if (!area || !position || !direction || !depth) return std::nullopt;
  if (*depth <= 0.0) {
    context_.report.error(item, "Depth is not greater than zero", "give the length of the extrusion");
    return std::nullopt;
  }
  if (std::abs(direction->z) < kMinRise) {
    context_.report.error(item, "ExtrudedDirection lies in the plane of the profile", "let it point out of the plane");
    return std::nullopt;
  }
  return PrismForm{{std::move(area->outline), *position, *direction, *depth * units_.length_factor()},
                   std::move(area->holes)};
}

}  // namespace panel_dossier
