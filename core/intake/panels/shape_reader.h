// Shape representations of the export -> prisms, bodies and boxes in metres.
#pragma once

#include <cstddef>
#include <optional>
#include <unordered_map>
#include <vector>

#include "core/api/support/geometry.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/panels/placement.h"
#include "core/intake/panels/shapes/boolean_reader.h"
#include "core/intake/panels/shapes/extrusion_reader.h"
#include "core/intake/panels/shapes/mesh_reader.h"
#include "core/intake/panels/shapes/motion.h"
#include "core/intake/panels/shapes/polyhedron.h"
#include "core/intake/panels/shapes/unread_shapes.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// What the representation of a product gives, in the frame of its placement until it is moved.
struct Shape {
  std::vector<Extrusion> solids;
  std::vector<Polyhedron> bodies;  ///< solid too, but no prisms without holes
  std::vector<Extrusion> boxes;    ///< bounding boxes; they bound and are no solids
  std::vector<Vec3> corners;       ///< of surfaces that enclose nothing; they bound as well

  bool is_empty() const { return solids.empty() && bodies.empty() && boxes.empty() && corners.empty(); }
  bool is_solid() const { return !solids.empty() || !bodies.empty(); }
  /// Box of everything, along the axes of the frame it stands in; none when empty.
  std::optional<Box3> bounds() const;
  /// The same shape, given in the frame of a product, seen in another frame; both in one parent frame.
  Shape moved(const Frame& from, const Frame& to) const&;
  Shape moved(const Frame& from, const Frame& to) &&;
  /// Sum of the solids in m³.
  double volume_m3() const;
  /// The same shape, given in the frame that the motion starts from, where the motion brings it.
  Shape moved(const Motion& motion) const;
  /// How much there is to move.
  std::size_t corner_count() const;
  /// What of the solids lies in the box, in m³.
  double volume_within_m3(const Box3& box) const;
  /// Area in m² in which the x-y plane of the frame cuts the solids; none when one of them cannot be cut.
  std::optional<double> section_m2(const Frame& frame) const;
};

/// What becomes of surfaces that enclose no body.
enum class OpenSurfaces {
  unread,  ///< counted: a part's volume cannot be told from them
  bound,   ///< their corners tell how far they reach, as that of terrain
};

/// Belongs to one run on one thread.
class ShapeReader {
 public:
  ShapeReader(const ReadContext& context, const PlacementReader& placements, UnitTable& units,
              OpenSurfaces open_surfaces = OpenSurfaces::unread);
  ShapeReader(const ShapeReader&) = delete;
  ShapeReader& operator=(const ShapeReader&) = delete;

  /// Reads the body, else the bounding box; the product's own, else that of its type. Reports sizes that are not
  /// positive. Forms that are not read are counted, and a body of which a piece is not read counts for nothing.
  Shape of_product(const Element& product);

  /// Representation items that are not read.
  const UnreadShapes& unread() const { return unread_; }

 private:
  const ReadContext& context_;
  const PlacementReader& placements_;
  UnitTable& units_;
  OpenSurfaces open_surfaces_;
  UnreadShapes unread_;
  /// What representations hold that many products share, each read once.
  struct Mapped {
    Shape shape;
    bool is_whole = false;
    UnreadShapes unread;
  };
  std::unordered_map<const void*, Mapped> mapped_;
  /// Shapes of products that were asked for: without one after the first time, for most belong to one product only.
  std::unordered_map<const void*, std::optional<Mapped>> definitions_;
  ExtrusionReader extrusions_;
  BooleanReader booleans_;
  MeshReader meshes_;

  Shape of_representations(const std::vector<Element>& representations, const Motion& motion);
  Shape of_types(const Element& product);
  Shape of_definition(const Element& definition);
  /// The shape, with what is not read counted again for this use; none when it cannot be copied within the budget.
  const Shape* use_again(const Mapped& mapped);
  const Mapped& mapped_representation(const Element& representation, int depth);
  // Each of these is false when something is not read, which is counted or reported.
  bool add_representation(const Element& representation, const Motion& motion, int depth, Shape& shape);
  bool add_item(const Element& item, const Motion& motion, int depth, Shape& shape);
  bool add_mapped_item(const Element& item, const Motion& motion, int depth, Shape& shape);
  bool add_extrusion(const Element& item, const Motion& motion, Shape& shape);
  bool add_difference(const Element& item, const Motion& motion, Shape& shape);
  bool add_mesh(const Element& item, const Motion& motion, Shape& shape);
  bool add_bounding_box(const Element& item, const Motion& motion, Shape& shape);
};

}  // namespace panel_dossier
