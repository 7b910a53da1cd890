// Shapes that the export gives by their faces -> bodies in metres.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/intake/panels/placement.h"
#include "core/intake/panels/shapes/polyhedron.h"
#include "core/intake/panels/shapes/unread_shapes.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// Corners of a face may lie this far out of its plane, m: two tenths of a millimetre, the rounding of coordinates to
/// 0.1 mm and some. What is bent more has no face that could be measured.
inline constexpr double kFlatFace_m = 2e-4;

/// Faceted breps, triangulated and polygonal face sets, and surface models.
bool is_mesh_type(std::string_view type);

/// Why the faces enclose no body whose volume could be told; empty when they do.
std::string fault_of_body(const Polyhedron& body);

/// Belongs to one run on one thread.
class MeshReader {
 public:
  MeshReader(const ReadContext& context, const PlacementReader& placements, double length_factor, UnreadShapes& unread)
      : context_(context), placements_(placements), length_factor_(length_factor), unread_(unread) {}

  /// The faces of an item of a type that `is_mesh_type` names, with corners in one place made one. Forms that are not
  /// read are counted, faults reported; none then.
  std::optional<Polyhedron> faces(const Element& item);

 private:
  const ReadContext& context_;
  const PlacementReader& placements_;
  double length_factor_;
  UnreadShapes& unread_;

  std::optional<Polyhedron> faces_of_shells(const Element& item, const std::vector<Element>& shells);
  std::optional<Polyhedron> face_set(const Element& item);
  std::optional<std::vector<Vec3>> coordinates(const Element& item);
  std::optional<std::vector<BodyFace>> triangles(const Element& item);
  std::optional<std::vector<BodyFace>> polygons(const Element& item);
  std::optional<Polyhedron> not_read(const Element& at, std::string_view reason = {});
};

}  // namespace panel_dossier
