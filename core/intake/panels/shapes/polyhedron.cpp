#include "core/intake/panels/shapes/polyhedron.h"

#include <algorithm>
#include <array>

namespace panel_dossier {

namespace {

/// Adds the two ends of one boundary and its sides. `is_outer`: anticlockwise seen from the end of the extrusion.
void add_boundary(const Extrusion& solid, Polygon outline, bool is_outer, Polyhedron& body) {
  const bool turns_left = signed_area_m2(outline) > 0.0;
  // Extruded against the normal of its plane, what is anticlockwise in the plane is clockwise from the far end.
  if (turns_left != (is_outer == (solid.direction.z > 0.0))) std::reverse(outline.begin(), outline.end());
  const std::size_t first = body.vertices.size();
  const std::size_t count = outline.size();
  for (const double along_m : {0.0, solid.depth_m}) {
    for (const Vec2& corner : outline) {
      body.vertices.push_back(solid.frame.to_parent(Vec3{corner.x, corner.y, 0.0} + solid.direction * along_m));
    }
  }
  FaceLoop near;
  FaceLoop far;
  for (std::size_t i = 0; i < count; ++i) {
    near.push_back(first + count - 1 - i);
    far.push_back(first + count + i);
  }
  body.faces[0].loops.push_back(std::move(near));
  body.faces[1].loops.push_back(std::move(far));
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t a = first + i;
    const std::size_t b = first + (i + 1) % count;
    body.faces.push_back({{{a, b, b + count, a + count}}});
  }
}

}  // namespace

double signed_area_m2(const Polygon& outline) {
  double twice = 0.0;
  for (std::size_t i = 1; i + 1 < outline.size(); ++i) {
    const Vec2 a{outline[i].x - outline[0].x, outline[i].y - outline[0].y};
    const Vec2 b{outline[i + 1].x - outline[0].x, outline[i + 1].y - outline[0].y};
    twice += a.x * b.y - a.y * b.x;
  }
  return twice / 2.0;
}

Vec3 area_vector(const Polyhedron& body, const BodyFace& face) {
  Vec3 sum;
  if (face.loops.empty() || face.loops.front().empty()) return sum;
  const Vec3 base = body.vertices[face.loops.front().front()];
  for (const FaceLoop& loop : face.loops) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Vec3 a = body.vertices[loop[i]] - base;
      const Vec3 b = body.vertices[loop[(i + 1) % loop.size()]] - base;
      sum = sum + cross(a, b) * 0.5;
    }
  }
  return sum;
}

double Polyhedron::volume_m3() const {
  double sum = 0.0;
  for (const BodyFace& face : faces) {
    if (face.loops.empty() || face.loops.front().empty()) continue;
    // About the first vertex: far from the origin, products of large coordinates would lose the digits that matter.
    sum += dot(vertices[face.loops.front().front()] - vertices.front(), area_vector(*this, face)) / 3.0;
  }
  return sum;
}

Box3 Polyhedron::bounds() const {
  Box3 box{vertices.front(), vertices.front()};
  for (const Vec3& vertex : vertices) box = united(box, {vertex, vertex});
  return box;
}

Polyhedron polyhedron_of(const Extrusion& solid, const std::vector<Polygon>& holes) {
  Polyhedron body;
  body.faces.resize(2);
  add_boundary(solid, solid.outline, true, body);
  for (const Polygon& hole : holes) add_boundary(solid, hole, false, body);
  return body;
}

Polyhedron polyhedron_of(const Box3& box) {
  const Vec3 size = box.size();
  return polyhedron_of(Extrusion{rectangle(0.0, 0.0, size.x, size.y),
                                 {box.min, {1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}},
                                 {0.0, 0.0, 1.0},
                                 size.z});
}

std::vector<HalfSpace> sides_of(const Extrusion& convex) {
  const Polyhedron body = polyhedron_of(convex);
  std::vector<HalfSpace> sides;
  for (const BodyFace& face : body.faces) {
    const Vec3 normal = area_vector(body, face);
    const double size_m2 = length(normal);
    if (!(size_m2 > 0.0)) continue;
    sides.push_back({body.vertices[face.loops.front().front()], normal * (1.0 / size_m2)});
  }
  return sides;
}

std::vector<HalfSpace> sides_of(const Box3& box) {
  return {{box.min, {-1.0, 0.0, 0.0}}, {box.max, {1.0, 0.0, 0.0}},  {box.min, {0.0, -1.0, 0.0}},
          {box.max, {0.0, 1.0, 0.0}},  {box.min, {0.0, 0.0, -1.0}}, {box.max, {0.0, 0.0, 1.0}}};
}

}  // namespace panel_dossier
