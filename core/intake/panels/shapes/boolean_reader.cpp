#include "core/intake/panels/shapes/boolean_reader.h"

#include <algorithm>
#include <utility>

#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/shapes/convex_pieces.h"

namespace panel_dossier {

namespace {

// A wall under a hipped roof with dormers is cut some ten times; more would only serve to keep the reader busy.
constexpr std::size_t kMostOperands = 200;
constexpr std::size_t kMostPieces = 200;

bool is_half_space_type(std::string_view type) {
  return type == "IfcHalfSpaceSolid" || type == "IfcBoxedHalfSpace" || type == "IfcPolygonalBoundedHalfSpace";
}

}  // namespace

bool is_boolean_type(std::string_view type) {
  return type == "IfcBooleanClippingResult" || type == "IfcBooleanResult";
}

Element BooleanReader::base_of(const Element& item) {
  Element at = item;
  std::size_t operands = 0;
  while (is_boolean_type(ifc_type(at))) {
    if (++operands > kMostOperands || !context_.budget.take(1)) {
      count_unread(unread_, ifc_type(item), "cut too often");
      return {};
    }
    if (enumeration_token(context_.graph.text(at, "Operator")) != "DIFFERENCE") {
      count_unread(unread_, ifc_type(at), "no difference");
      return {};
    }
    const Element first = context_.graph.entity(at, "FirstOperand");
    if (!first) {
      context_.report.error(at, "has no FirstOperand", "export the body that is cut");
      return {};
    }
    at = first;
  }
  return at;
}

std::optional<std::vector<Polyhedron>> BooleanReader::less_operands(const Element& item,
                                                                    std::vector<Polyhedron> bodies) {
  for (Element at = item; is_boolean_type(ifc_type(at)); at = context_.graph.entity(at, "FirstOperand")) {
    const auto regions = regions_of(context_.graph.entity(at, "SecondOperand"));
    if (!regions || !cut(at, *regions, bodies)) return std::nullopt;
  }
  if (bodies.empty()) {
    count_unread(unread_, ifc_type(item), "nothing is left");
    return std::nullopt;
  }
  return bodies;
}

bool BooleanReader::cut(const Element& item, const std::vector<ConvexRegion>& regions,
                        std::vector<Polyhedron>& bodies) {
  for (const ConvexRegion& region : regions) {
    std::vector<Polyhedron> rest;
    for (const Polyhedron& body : bodies) {
      auto pieces = cut_away(body, region);
      if (!pieces || rest.size() + pieces->size() > kMostPieces) {
        count_unread(unread_, ifc_type(item), pieces ? "cut too often" : "cannot be cut");
        return false;
      }
      std::move(pieces->begin(), pieces->end(), std::back_inserter(rest));
    }
    bodies = std::move(rest);
  }
  return true;
}

std::optional<std::vector<ConvexRegion>> BooleanReader::regions_of(const Element& operand) {
  const std::string_view type = ifc_type(operand);
  if (type == "IfcPolygonalBoundedHalfSpace") return bounded_half_space(operand);
  if (is_half_space_type(type)) {
    const auto half = half_space(operand);
    return half ? std::optional(std::vector<ConvexRegion>{{*half}}) : std::nullopt;
  }
  if (type == "IfcExtrudedAreaSolid") return extruded_solid(operand);
  count_unread(unread_, operand ? type : "IfcBooleanResult", operand ? "as a cutter" : "without SecondOperand");
  return std::nullopt;
}

std::optional<HalfSpace> BooleanReader::half_space(const Element& operand) {
  const Element surface = context_.graph.entity(operand, "BaseSurface");
  if (ifc_type(surface) != "IfcPlane") {
    count_unread(unread_, ifc_type(operand), "of no plane");
    return std::nullopt;
  }
  const auto position = placements_.axis_placement(context_.graph.entity(surface, "Position"));
  if (!position) return std::nullopt;
  const auto agrees = parse_logical(context_.graph.text(operand, "AgreementFlag"));
  if (!agrees) {
    context_.report.error(operand, "AgreementFlag is neither true nor false", "say on which side of the plane it lies");
    return std::nullopt;
  }
  // ISO 16739-1, IfcHalfSpaceSolid: where the flag is true, the normal points away from the material.
  return HalfSpace{position->origin, position->z_axis * (*agrees ? 1.0 : -1.0)};
}

std::optional<std::vector<ConvexRegion>> BooleanReader::bounded_half_space(const Element& operand) {
  const auto half = half_space(operand);
  const auto position = placements_.axis_placement(context_.graph.entity(operand, "Position"));
  const auto boundary = extrusions_.profiles().outline(context_.graph.entity(operand, "PolygonalBoundary"), operand);
  if (!half || !position || !boundary) return std::nullopt;
  const auto pieces = convex_pieces(*boundary);
  if (!pieces) {
    count_unread(unread_, ifc_type(operand), "boundary too intricate");
    return std::nullopt;
  }
  std::vector<ConvexRegion> regions;
  for (const Polygon& piece : *pieces) {
    ConvexRegion region{*half};
    for (std::size_t i = 0; i < piece.size(); ++i) {
      const Vec2& a = piece[i];
      const Vec2& b = piece[(i + 1) % piece.size()];
      // The boundary is swept along both ways of the z axis of the position, without end.
      const Vec3 out{b.y - a.y, a.x - b.x, 0.0};
      region.push_back(
          {position->to_parent(Vec3{a.x, a.y, 0.0}), position->direction_to_parent(out * (1.0 / length(out)))});
    }
    regions.push_back(std::move(region));
  }
  return regions;
}

std::optional<std::vector<ConvexRegion>> BooleanReader::extruded_solid(const Element& operand) {
  const auto prism = extrusions_.read(operand);
  if (!prism) return std::nullopt;
  const auto pieces = prism->holes.empty() ? convex_pieces(prism->outer.outline) : std::nullopt;
  if (!pieces) {
    count_unread(unread_, ifc_type(operand), "as a cutter, with holes or too intricate");
    return std::nullopt;
  }
  std::vector<ConvexRegion> regions;
  for (const Polygon& piece : *pieces) {
    Extrusion part = prism->outer;
    part.outline = piece;
    regions.push_back(sides_of(part));
  }
  return regions;
}

}  // namespace panel_dossier
