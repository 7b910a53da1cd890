// Shapes that the export gives as one body less others -> bodies in metres.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/intake/panels/placement.h"
#include "core/intake/panels/shapes/extrusion_reader.h"
#include "core/intake/panels/shapes/polyhedron.h"
#include "core/intake/panels/shapes/unread_shapes.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// IfcBooleanClippingResult and IfcBooleanResult.
bool is_boolean_type(std::string_view type);

/// A convex region of space that a body is cut by.
using ConvexRegion = std::vector<HalfSpace>;

/// Belongs to one run on one thread.
class BooleanReader {
 public:
  BooleanReader(const ReadContext& context, const PlacementReader& placements, ExtrusionReader& extrusions,
                UnreadShapes& unread)
      : context_(context), placements_(placements), extrusions_(extrusions), unread_(unread) {}

  /// What stands at the bottom of the chain of first operands: the body that all the others are taken from; empty,
  /// counted, when an operator other than DIFFERENCE is among them.
  Element base_of(const Element& item);

  /// The bodies less all second operands of the chain. Forms that are not read are counted, faults reported; none then.
  std::optional<std::vector<Polyhedron>> less_operands(const Element& item, std::vector<Polyhedron> bodies);

 private:
  const ReadContext& context_;
  const PlacementReader& placements_;
  ExtrusionReader& extrusions_;
  UnreadShapes& unread_;

  /// Regions that make up the operand together; none as for `less_operands`.
  std::optional<std::vector<ConvexRegion>> regions_of(const Element& operand);
  std::optional<HalfSpace> half_space(const Element& operand);
  std::optional<std::vector<ConvexRegion>> bounded_half_space(const Element& operand);
  std::optional<std::vector<ConvexRegion>> extruded_solid(const Element& operand);
  bool cut(const Element& item, const std::vector<ConvexRegion>& regions, std::vector<Polyhedron>& bodies);
};

}  // namespace panel_dossier
