#include "core/intake/panels/shapes/mesh_reader.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <unordered_map>
#include <utility>

#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

constexpr std::array kMeshTypes{"IfcFacetedBrep"sv, "IfcTriangulatedFaceSet"sv, "IfcPolygonalFaceSet"sv,
                                "IfcFaceBasedSurfaceModel"sv, "IfcShellBasedSurfaceModel"sv};

// A part of a panel has tens of faces, a window of a maker's catalogue tens of thousands; more would only serve to blow
// the export up.
constexpr std::size_t kMostCorners = 2'000'000;
// A thousandth of a cubic millimetre: the smallest nail has a thousand times more.
constexpr double kNoBody_m3 = 1e-12;
// Coordinates of more than 1000 km are no building; beyond this the cells of the grid could not be numbered.
constexpr double kFarthestPoint_m = 1e6;

/// Makes points in one place one vertex. Cells are as wide as points that are one may be apart, so that those of a
/// point lie in its own cell or one beside it.
class Vertices {
 public:
  std::size_t index_of(const Vec3& point) {
    const Cell own = cell_of(point);
    for (std::int64_t x = -1; x <= 1; ++x) {
      for (std::int64_t y = -1; y <= 1; ++y) {
        for (std::int64_t z = -1; z <= 1; ++z) {
          const auto found = cells_.find({own.x + x, own.y + y, own.z + z});
          if (found != cells_.end() && length(points_[found->second] - point) <= kSamePoint_m) return found->second;
        }
      }
    }
    const auto [place, is_new] = cells_.try_emplace(own, points_.size());
    if (is_new) points_.push_back(point);
    return place->second;
  }

  std::vector<Vec3> take() { return std::move(points_); }

 private:
  struct Cell {
    std::int64_t x, y, z;
    bool operator==(const Cell& other) const { return x == other.x && y == other.y && z == other.z; }
  };
  struct CellHash {
    std::size_t operator()(const Cell& cell) const {
      std::uint64_t hash = 0;
      for (const std::int64_t part : {cell.x, cell.y, cell.z}) {
        hash = (hash ^ static_cast<std::uint64_t>(part)) * 0x9E3779B97F4A7C15ULL;
        hash ^= hash >> 32;
      }
      return static_cast<std::size_t>(hash);
    }
  };

  std::vector<Vec3> points_;
  std::unordered_map<Cell, std::size_t, CellHash> cells_;

  static Cell cell_of(const Vec3& point) {
    const auto part = [](double value_m) { return static_cast<std::int64_t>(std::floor(value_m / kSamePoint_m)); };
    return {part(point.x), part(point.y), part(point.z)};
  }
};

bool is_near(const Vec3& point) {
  return std::abs(point.x) < kFarthestPoint_m && std::abs(point.y) < kFarthestPoint_m &&
         std::abs(point.z) < kFarthestPoint_m;
}

/// Brings the corners of faces that index `points` to vertices that stand once; edges without length fall away.
std::optional<Polyhedron> welded(const std::vector<Vec3>& points, const std::vector<BodyFace>& faces) {
  if (!std::all_of(points.begin(), points.end(), is_near)) return std::nullopt;
  Vertices vertices;
  std::vector<std::size_t> place;
  place.reserve(points.size());
  for (const Vec3& point : points) place.push_back(vertices.index_of(point));
  Polyhedron body;
  for (const BodyFace& face : faces) {
    BodyFace kept;
    for (const FaceLoop& loop : face.loops) {
      FaceLoop corners;
      for (const std::size_t index : loop) {
        if (corners.empty() || corners.back() != place[index]) corners.push_back(place[index]);
      }
      while (corners.size() > 1 && corners.front() == corners.back()) corners.pop_back();
      if (corners.size() > 2) kept.loops.push_back(std::move(corners));
    }
    if (!kept.loops.empty()) body.faces.push_back(std::move(kept));
  }
  body.vertices = vertices.take();
  return body;
}

bool is_flat(const Polyhedron& body, const BodyFace& face) {
  const Vec3 area = area_vector(body, face);
  const double size_m2 = length(area);
  // A face without area is a seam: it adds nothing.
  constexpr double kFaceSeam_m2 = kSamePoint_m * kSamePoint_m;
  if (size_m2 < kFaceSeam_m2) return true;
  const Vec3 normal = area * (1.0 / size_m2);
  double least = 0.0;
  double most = 0.0;
  const Vec3 base = body.vertices[face.loops.front().front()];
  for (const FaceLoop& loop : face.loops) {
    for (const std::size_t index : loop) {
      const double out_m = dot(body.vertices[index] - base, normal);
      least = std::min(least, out_m);
      most = std::max(most, out_m);
    }
  }
  return most - least <= kFlatFace_m;
}

/// How often an edge is walked either way.
struct EdgeUse {
  int times = 0;
  int forwards = 0;  ///< less how often backwards
};

}  // namespace

bool is_mesh_type(std::string_view type) {
  return std::find(kMeshTypes.begin(), kMeshTypes.end(), type) != kMeshTypes.end();
}

std::string fault_of_body(const Polyhedron& body) {
  std::map<std::pair<std::size_t, std::size_t>, EdgeUse> edges;
  for (const BodyFace& face : body.faces) {
    if (!is_flat(body, face)) return "a face is not flat";
    for (const FaceLoop& loop : face.loops) {
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const std::size_t a = loop[i];
        const std::size_t b = loop[(i + 1) % loop.size()];
        EdgeUse& use = edges[std::minmax(a, b)];
        ++use.times;
        use.forwards += a < b ? 1 : -1;
      }
    }
  }
  const auto is_open = [](const auto& edge) { return edge.second.times % 2 != 0; };
  const auto is_turned = [](const auto& edge) { return edge.second.forwards != 0; };
  if (std::any_of(edges.begin(), edges.end(), is_open)) return "not closed";
  if (std::any_of(edges.begin(), edges.end(), is_turned)) return "faces look both ways";
  if (body.is_empty() || std::abs(body.volume_m3()) < kNoBody_m3) return "without volume";
  return {};
}

std::optional<Polyhedron> MeshReader::not_read(const Element& at, std::string_view reason) {
  count_unread(unread_, ifc_type(at), reason);
  return std::nullopt;
}

std::optional<Polyhedron> MeshReader::faces(const Element& item) {
  const std::string_view type = ifc_type(item);
  if (type == "IfcFacetedBrep") {
    const Element outer = context_.graph.entity(item, "Outer");
    return faces_of_shells(item, outer ? std::vector<Element>{outer} : std::vector<Element>{});
  }
  if (type == "IfcFaceBasedSurfaceModel") return faces_of_shells(item, context_.graph.entities(item, "FbsmFaces"));
  if (type == "IfcShellBasedSurfaceModel") return faces_of_shells(item, context_.graph.entities(item, "SbsmBoundary"));
  return face_set(item);
}

std::optional<Polyhedron> MeshReader::faces_of_shells(const Element& item, const std::vector<Element>& shells) {
  std::vector<Vec3> points;
  std::vector<BodyFace> faces;
  for (const Element& shell : shells) {
    for (const Element& face : context_.graph.entities(shell, "CfsFaces")) {
      BodyFace corners;
      for (const Element& bound : context_.graph.entities(face, "Bounds")) {
        const Element loop_entity = context_.graph.entity(bound, "Bound");
        if (ifc_type(loop_entity) != "IfcPolyLoop") return not_read(item, "bounded by curves");
        FaceLoop loop;
        const std::vector<Element> polygon = context_.graph.entities(loop_entity, "Polygon");
        if (!context_.budget.take(polygon.size() + 1) || points.size() + polygon.size() > kMostCorners) {
          return not_read(item, "too many corners");
        }
        for (const Element& entity : polygon) {
          const auto point = placements_.point(entity);
          if (!point) return std::nullopt;
          loop.push_back(points.size());
          points.push_back(*point);
        }
        if (parse_logical(context_.graph.text(bound, "Orientation")) == false) std::reverse(loop.begin(), loop.end());
        corners.loops.push_back(std::move(loop));
      }
      faces.push_back(std::move(corners));
    }
  }
  auto body = welded(points, faces);
  return body ? std::move(body) : not_read(item, "far from the origin");
}

std::optional<std::vector<Vec3>> MeshReader::coordinates(const Element& item) {
  const Element list = context_.graph.entity(item, "Coordinates");
  const auto values = list ? numbers(context_, list, "CoordList") : std::nullopt;
  if (!values) return std::nullopt;
  if (values->size() % 3 != 0) {
    context_.report.error(list, "CoordList is no list of points", "give three coordinates a point");
    return std::nullopt;
  }
  if (!context_.budget.take(values->size()) || values->size() > 3 * kMostCorners) {
    not_read(item, "too many corners");
    return std::nullopt;
  }
  std::vector<Vec3> points;
  for (std::size_t i = 0; i < values->size(); i += 3) {
    points.push_back(Vec3{(*values)[i], (*values)[i + 1], (*values)[i + 2]} * length_factor_);
  }
  return points;
}

namespace {

/// Turns indices from 1, into the points or into the list of their indices that PnIndex is, to indices from 0. False
/// when one is out of range.
bool to_point_indices(std::vector<BodyFace>& faces, const std::vector<double>& point_index, std::size_t points) {
  for (BodyFace& face : faces) {
    for (FaceLoop& loop : face.loops) {
      for (std::size_t& index : loop) {
        if (!point_index.empty()) {
          if (index < 1 || index > point_index.size()) return false;
          index = static_cast<std::size_t>(std::max(point_index[index - 1], 0.0));
        }
        if (index < 1 || index > points) return false;
        --index;
      }
    }
  }
  return true;
}

/// Numbers that are no index become 0, which is none.
FaceLoop loop_of(const double* first, std::size_t count) {
  FaceLoop loop;
  loop.reserve(count);
  constexpr double kMostPoints = 1e9;
  for (std::size_t i = 0; i < count; ++i) {
    const bool is_index = first[i] >= 1.0 && first[i] <= kMostPoints;
    loop.push_back(is_index ? static_cast<std::size_t>(first[i]) : 0);
  }
  return loop;
}

}  // namespace

std::optional<std::vector<BodyFace>> MeshReader::triangles(const Element& item) {
  const auto indices = numbers(context_, item, "CoordIndex");
  if (!indices) return std::nullopt;
  if (indices->size() % 3 != 0) {
    context_.report.error(item, "CoordIndex is no list of triangles", "give three points a triangle");
    return std::nullopt;
  }
  if (!context_.budget.take(indices->size()) || indices->size() > kMostCorners) {
    not_read(item, "too many corners");
    return std::nullopt;
  }
  std::vector<BodyFace> faces;
  for (std::size_t i = 0; i < indices->size(); i += 3) faces.push_back({{loop_of(indices->data() + i, 3)}});
  return faces;
}

std::optional<std::vector<BodyFace>> MeshReader::polygons(const Element& item) {
  std::vector<BodyFace> faces;
  std::size_t corners = 0;
  for (const Element& face : context_.graph.entities(item, "Faces")) {
    const auto outer = numbers(context_, face, "CoordIndex");
    const bool has_voids = ifc_type(face) == "IfcIndexedPolygonalFaceWithVoids";
    const auto inner = has_voids ? number_lists(context_, face, "InnerCoordIndices") : std::vector<NumberList>{};
    if (!outer || !inner) return std::nullopt;
    std::size_t count = outer->size();
    BodyFace read{{loop_of(outer->data(), outer->size())}};
    for (const NumberList& list : *inner) {
      count += list.values.size();
      read.loops.push_back(loop_of(list.values.data(), list.values.size()));
    }
    corners += count;
    if (!context_.budget.take(count) || corners > kMostCorners) {
      not_read(item, "too many corners");
      return std::nullopt;
    }
    faces.push_back(std::move(read));
  }
  return faces;
}

std::optional<Polyhedron> MeshReader::face_set(const Element& item) {
  const auto points = coordinates(item);
  if (!points) return std::nullopt;
  auto faces = ifc_type(item) == "IfcTriangulatedFaceSet" ? triangles(item) : polygons(item);
  const auto point_index = numbers(context_, item, "PnIndex");
  if (!faces || !point_index) return std::nullopt;
  if (!to_point_indices(*faces, *point_index, points->size())) {
    context_.report.error(item, "CoordIndex names a point that is not in the list", "count the points from 1");
    return std::nullopt;
  }
  auto body = welded(*points, *faces);
  return body ? std::move(body) : not_read(item, "far from the origin");
}

}  // namespace panel_dossier
