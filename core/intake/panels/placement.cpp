#include "core/intake/panels/placement.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <unordered_set>
#include <vector>

#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

// Directions shorter than this, or closer to parallel, give no usable axis in double precision.
constexpr double kMinDirection = 1e-9;
// Scale factors within this of 1 are rounding of the exporter.
constexpr double kScaleTolerance = 1e-6;
constexpr std::size_t kUsualChain = 16;

std::optional<Vec3> normalised(const Vec3& v) {
  const double size = length(v);
  if (!(size > kMinDirection) || !std::isfinite(size)) return std::nullopt;
  return v * (1.0 / size);
}

}  // namespace

std::optional<Frame> PlacementReader::of_object(const Element& object) {
  const Element placement = context_.graph.entity(object, "ObjectPlacement");
  return placement ? world_frame(placement) : Frame{};
}

std::optional<Frame> PlacementReader::world_frame(const Element& placement) {
  // Walk up to the first known frame, then fill in on the way back: chains may be as long as the file.
  std::vector<Element> chain;
  std::unordered_set<const void*> on_chain;
  std::optional<Frame> parent = Frame{};
  for (Element at = placement; at; at = context_.graph.entity(at, "PlacementRelTo")) {
    const auto known = frames_.find(at.key());
    if (known != frames_.end()) {
      parent = known->second;
      break;
    }
    // A chain of a sound export has a handful of links; only a long one is worth a set.
    const bool is_long = chain.size() > kUsualChain;
    if (is_long && on_chain.empty()) {
      for (const Element& link : chain) on_chain.insert(link.key());
    }
    const bool returns =
        is_long ? !on_chain.insert(at.key()).second : std::find(chain.begin(), chain.end(), at) != chain.end();
    if (returns) {
      context_.report.error(at, "PlacementRelTo leads back to itself", "let the chain of placements end at the site");
      parent = std::nullopt;
      break;
    }
    chain.push_back(at);
  }
  for (auto at = chain.rbegin(); at != chain.rend(); ++at) {
    const auto relative = axis_placement(context_.graph.entity(*at, "RelativePlacement"));
    if (parent && relative) {
      parent = parent->to_parent(*relative);
    } else {
      parent = std::nullopt;
    }
    // The placement of a part is asked for once; those it stands in, again and again.
    if (!(*at == placement)) frames_[at->key()] = parent;
  }
  return parent;
}

std::optional<Frame> PlacementReader::axis_placement(const Element& placement) const {
  if (!placement) return Frame{};
  if (ifc_type(placement) == "IfcAxis2Placement2D") return axis_placement_2d(placement);
  const Element location = context_.graph.entity(placement, "Location");
  const auto origin = location ? point(location) : Vec3{};
  const Element axis = context_.graph.entity(placement, "Axis");
  const Element ref_direction = context_.graph.entity(placement, "RefDirection");
  const auto z = axis ? direction(axis) : Vec3{0.0, 0.0, 1.0};
  const auto x = ref_direction ? direction(ref_direction) : Vec3{1.0, 0.0, 0.0};
  if (!origin || !z || !x) return std::nullopt;
  return frame_from_axes(placement, *origin, *z, *x);
}

std::optional<Frame> PlacementReader::axis_placement_2d(const Element& placement) const {
  if (!placement) return Frame{};
  const Element location = context_.graph.entity(placement, "Location");
  const Element ref_direction = context_.graph.entity(placement, "RefDirection");
  const auto origin = location ? point(location) : Vec3{};
  const auto x = ref_direction ? direction(ref_direction) : Vec3{1.0, 0.0, 0.0};
  if (!origin || !x) return std::nullopt;
  return frame_from_axes(placement, {origin->x, origin->y, 0.0}, {0.0, 0.0, 1.0}, *x);
}

bool PlacementReader::scales(const Element& entity) const {
  constexpr std::array kScales{"Scale", "Scale2", "Scale3"};
  return entity && std::any_of(kScales.begin(), kScales.end(), [&](const char* attribute) {
           return std::abs(number(context_, entity, attribute).value_or(1.0) - 1.0) > kScaleTolerance;
         });
}

std::optional<Motion> PlacementReader::transformation(const Element& entity) const {
  if (!entity) return Motion{};
  const Element local_origin = context_.graph.entity(entity, "LocalOrigin");
  const Element axis1 = context_.graph.entity(entity, "Axis1");
  const Element axis2 = context_.graph.entity(entity, "Axis2");
  const Element axis3 = context_.graph.entity(entity, "Axis3");
  const auto origin = local_origin ? point(local_origin) : Vec3{};
  const auto x = axis1 ? direction(axis1) : Vec3{1.0, 0.0, 0.0};
  const auto z = axis3 ? direction(axis3) : Vec3{0.0, 0.0, 1.0};
  if (!origin || !x || !z) return std::nullopt;
  const auto frame = frame_from_axes(entity, *origin, *z, *x);
  if (!frame || !axis2) return frame ? std::optional<Motion>({*frame, false}) : std::nullopt;
  const auto y = direction(axis2);
  if (!y) return std::nullopt;
  const double along_y = dot(*y, frame->y_axis);
  if (std::abs(along_y) < kMinDirection) {
    context_.report.error(entity, "Axis2 lies in the plane of Axis1 and Axis3", "let the three axes be perpendicular");
    return std::nullopt;
  }
  return Motion{*frame, along_y < 0.0};
}

std::optional<Frame> PlacementReader::frame_from_axes(const Element& at, const Vec3& origin, const Vec3& z,
                                                      const Vec3& x) const {
  // ISO 16739-1, IfcBuildAxes: the x axis is the given direction less its part along z.
  std::optional<Vec3> x_axis = normalised(x - z * dot(x, z));
  if (!x_axis) {
    // A RefDirection left at its default is no fault when the axis happens to be x: the standard then takes y.
    const bool is_default = std::abs(x.x) == 1.0 && x.y == 0.0 && x.z == 0.0 && !at.child("RefDirection");
    x_axis = is_default ? std::optional<Vec3>(Vec3{0.0, 1.0, 0.0}) : std::nullopt;
  }
  if (!x_axis) {
    context_.report.error(at, "Axis and RefDirection are parallel", "let RefDirection point across the axis");
    return std::nullopt;
  }
  return Frame{origin, *x_axis, cross(z, *x_axis), z};
}

std::optional<Vec3> PlacementReader::point(const Element& entity) const {
  const auto coordinates = numbers(context_, entity, "Coordinates");
  if (!coordinates) return std::nullopt;
  if (coordinates->size() < 2 || coordinates->size() > 3) {
    context_.report.error(entity, "a point has " + std::to_string(coordinates->size()) + " Coordinates",
                          "give 2 or 3 of them");
    return std::nullopt;
  }
  const double z = coordinates->size() == 3 ? (*coordinates)[2] : 0.0;
  return Vec3{(*coordinates)[0], (*coordinates)[1], z} * length_factor_;
}

std::optional<Vec3> PlacementReader::direction(const Element& entity) const {
  const auto ratios = numbers(context_, entity, "DirectionRatios");
  if (!ratios) return std::nullopt;
  const bool has_size = ratios->size() == 2 || ratios->size() == 3;
  const auto unit = has_size ? normalised({(*ratios)[0], (*ratios)[1], ratios->size() == 3 ? (*ratios)[2] : 0.0})
                             : std::optional<Vec3>();
  if (!unit) {
    context_.report.error(entity, "DirectionRatios give no direction", "give 2 or 3 numbers that are not all zero");
  }
  return unit;
}

double to_nanometre(double value_m) {
  constexpr double kNanometrePerMetre = 1e9;
  // Adding zero turns a negative zero into a positive one.
  return std::round(value_m * kNanometrePerMetre) / kNanometrePerMetre + 0.0;
}

Vec3 to_nanometre(const Vec3& point_m) {
  return {to_nanometre(point_m.x), to_nanometre(point_m.y), to_nanometre(point_m.z)};
}

Box3 to_nanometre(const Box3& box_m) {
  return {to_nanometre(box_m.min), to_nanometre(box_m.max)};
}

}  // namespace panel_dossier
