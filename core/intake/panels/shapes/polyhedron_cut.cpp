// Cutting a body by a plane: faces are cut edge by edge, so that neighbours share the new vertices exactly.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "core/intake/panels/shapes/polyhedron.h"

namespace panel_dossier {

namespace {

// What is thinner than a body of a hair's thickness is rounding, m³.
constexpr double kNoVolume_m3 = 1e-12;
// Ends of chains closer than this may come in either order; far below the smallest edge, m.
constexpr double kSamePlace_m = 1e-7;

using DirectedEdge = std::pair<std::size_t, std::size_t>;

enum class Side { below, in_plane, above };

/// A piece of a face's boundary below the plane, from where it leaves the plane to where it comes back.
struct Chain {
  FaceLoop vertices;
  std::size_t next = 0;  ///< the chain that the boundary goes on with
};

/// An end of a chain, by its place along the line in which face and plane meet.
struct ChainEnd {
  double along_m;
  bool is_exit;  ///< the boundary comes back to the plane here
  std::size_t chain;
};

class PlaneCut {
 public:
  PlaneCut(const Polyhedron& body, const HalfSpace& half) : body_(body), half_(half) {
    rest_.vertices = body.vertices;
    sides_.reserve(body.vertices.size());
    for (const Vec3& vertex : body.vertices) sides_.push_back(side_of(vertex));
  }

  /// Cuts all faces; false when they do not enclose a body.
  bool cut() {
    for (const BodyFace& face : body_.faces) {
      if (!cut_face(face)) return false;
    }
    return close();
  }

  /// The new face in the plane; no loops when the plane only touches.
  const BodyFace& cap() const { return cap_; }

  Polyhedron take() {
    if (!cap_.loops.empty()) rest_.faces.push_back(cap_);
    drop_unused_vertices();
    return std::move(rest_);
  }

  const Vec3& vertex(std::size_t index) const { return rest_.vertices[index]; }

 private:
  const Polyhedron& body_;
  HalfSpace half_;
  std::vector<Side> sides_;
  Polyhedron rest_;
  std::map<DirectedEdge, std::size_t> crossings_;  ///< by the edge, lower index first
  std::map<DirectedEdge, int> cap_edges_;          ///< lower index first; how often forwards less how often backwards
  BodyFace cap_;

  Side side_of(const Vec3& vertex) const {
    const double distance_m = half_.distance_m(vertex);
    if (std::abs(distance_m) <= kSamePoint_m) return Side::in_plane;
    return distance_m > 0.0 ? Side::above : Side::below;
  }

  bool has(const FaceLoop& loop, Side side) const {
    return std::any_of(loop.begin(), loop.end(), [&](std::size_t i) { return sides_[i] == side; });
  }

  bool has(const BodyFace& face, Side side) const {
    return std::any_of(face.loops.begin(), face.loops.end(), [&](const FaceLoop& loop) { return has(loop, side); });
  }

  void add_cap_edge(std::size_t from, std::size_t to) {
    if (from == to) return;
    if (from < to) {
      ++cap_edges_[{from, to}];
    } else {
      --cap_edges_[{to, from}];
    }
  }

  /// What was bounded by this face along the plane is from now on bounded by the new one.
  void hand_over_edges_in_plane(const BodyFace& face) {
    for (const FaceLoop& loop : face.loops) {
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const std::size_t a = loop[i];
        const std::size_t b = loop[(i + 1) % loop.size()];
        if (sides_[a] == Side::in_plane && sides_[b] == Side::in_plane) add_cap_edge(a, b);
      }
    }
  }

  std::size_t crossing(std::size_t a, std::size_t b) {
    const DirectedEdge edge = std::minmax(a, b);
    const auto [found, is_new] = crossings_.try_emplace(edge, rest_.vertices.size());
    if (is_new) {
      const Vec3& from = body_.vertices[edge.first];
      const Vec3& to = body_.vertices[edge.second];
      const double d = half_.distance_m(from);
      rest_.vertices.push_back(from + (to - from) * (d / (d - half_.distance_m(to))));
    }
    return found->second;
  }

  bool cut_face(const BodyFace& face) {
    const bool is_above = has(face, Side::above);
    const bool is_below = has(face, Side::below);
    if (!is_above && (is_below || dot(area_vector(body_, face), half_.normal) > 0.0)) {
      rest_.faces.push_back(face);
      return true;
    }
    hand_over_edges_in_plane(face);
    return !is_below || cut_mixed_face(face);
  }

  /// The pieces of one boundary below the plane, in its order.
  void add_chains(const FaceLoop& loop, std::vector<Chain>& chains) {
    const std::size_t count = loop.size();
    const auto at = [&](std::size_t i) { return loop[i % count]; };
    for (std::size_t start = 0; start < count; ++start) {
      if (sides_[at(start)] == Side::below || sides_[at(start + 1)] != Side::below) continue;
      Chain chain;
      chain.vertices.push_back(sides_[at(start)] == Side::in_plane ? at(start) : crossing(at(start), at(start + 1)));
      std::size_t i = start + 1;
      for (; sides_[at(i)] == Side::below; ++i) chain.vertices.push_back(at(i));
      chain.vertices.push_back(sides_[at(i)] == Side::in_plane ? at(i) : crossing(at(i - 1), at(i)));
      chains.push_back(std::move(chain));
    }
  }

  bool cut_mixed_face(const BodyFace& face) {
    BodyFace kept;
    std::vector<Chain> chains;
    std::vector<std::size_t> in_plane;
    for (const FaceLoop& loop : face.loops) {
      if (!has(loop, Side::above) && !has(loop, Side::in_plane)) {
        kept.loops.push_back(loop);
        continue;
      }
      add_chains(loop, chains);
      std::copy_if(loop.begin(), loop.end(), std::back_inserter(in_plane),
                   [&](std::size_t i) { return sides_[i] == Side::in_plane; });
    }
    if (!join_along_plane(face, in_plane, chains)) return false;
    add_joined_loops(chains, kept);
    if (!kept.loops.empty()) rest_.faces.push_back(std::move(kept));
    return true;
  }

  /// Along the line in which face and plane meet, with the kept part on the left, the boundary comes back to the plane
  /// and leaves it in turns: each coming back is joined to the leaving that follows.
  bool join_along_plane(const BodyFace& face, std::vector<std::size_t>& in_plane, std::vector<Chain>& chains) {
    Vec3 along = cross(area_vector(body_, face), half_.normal);
    const double size = length(along);
    if (!(size > 0.0)) return chains.empty();
    along = along * (1.0 / size);
    std::vector<ChainEnd> ends;
    for (std::size_t i = 0; i < chains.size(); ++i) {
      ends.push_back({dot(vertex(chains[i].vertices.front()), along), false, i});
      ends.push_back({dot(vertex(chains[i].vertices.back()), along), true, i});
    }
    std::sort(ends.begin(), ends.end(), [](const ChainEnd& a, const ChainEnd& b) { return a.along_m < b.along_m; });
    if (!put_in_turns(ends)) return false;
    std::sort(in_plane.begin(), in_plane.end(),
              [&](std::size_t a, std::size_t b) { return dot(vertex(a), along) < dot(vertex(b), along); });
    for (std::size_t i = 0; i + 1 < ends.size(); i += 2) join(ends[i], ends[i + 1], along, in_plane, chains);
    return true;
  }

  static bool put_in_turns(std::vector<ChainEnd>& ends) {
    for (std::size_t i = 0; i < ends.size(); ++i) {
      const bool wants_exit = i % 2 == 0;
      std::size_t k = i;
      while (k < ends.size() && ends[k].is_exit != wants_exit) ++k;
      if (k == ends.size() || ends[k].along_m > ends[i].along_m + kSamePlace_m) return false;
      std::rotate(ends.begin() + static_cast<std::ptrdiff_t>(i), ends.begin() + static_cast<std::ptrdiff_t>(k),
                  ends.begin() + static_cast<std::ptrdiff_t>(k + 1));
    }
    return true;
  }

  /// The new edge passes every vertex of the face that lies on it, so that no neighbour meets it half-way.
  void join(const ChainEnd& exit, const ChainEnd& entry, const Vec3& along, const std::vector<std::size_t>& in_plane,
            std::vector<Chain>& chains) {
    Chain& from = chains[exit.chain];
    from.next = entry.chain;
    const std::size_t last = chains[entry.chain].vertices.front();
    std::size_t at = from.vertices.back();
    const auto go_to = [&](std::size_t to) {
      add_cap_edge(to, at);
      at = to;
    };
    for (const std::size_t between : in_plane) {
      const double place_m = dot(vertex(between), along);
      if (place_m <= exit.along_m || place_m >= entry.along_m || between == last || between == at) continue;
      go_to(between);
      from.vertices.push_back(between);
    }
    go_to(last);
  }

  static void add_joined_loops(const std::vector<Chain>& chains, BodyFace& kept) {
    std::vector<bool> is_done(chains.size(), false);
    for (std::size_t start = 0; start < chains.size(); ++start) {
      FaceLoop loop;
      for (std::size_t i = start; !is_done[i]; i = chains[i].next) {
        is_done[i] = true;
        for (const std::size_t at : chains[i].vertices) {
          if (loop.empty() || loop.back() != at) loop.push_back(at);
        }
      }
      while (loop.size() > 1 && loop.front() == loop.back()) loop.pop_back();
      if (loop.size() > 2) kept.loops.push_back(std::move(loop));
    }
  }

  /// Joins the edges in the plane to the boundaries of the new face; false when they do not close.
  bool close() {
    std::multimap<std::size_t, std::size_t> next;
    for (const auto& [edge, times] : cap_edges_) {
      for (int i = 0; i < std::abs(times); ++i) {
        next.emplace(times > 0 ? edge.first : edge.second, times > 0 ? edge.second : edge.first);
      }
    }
    while (!next.empty()) {
      FaceLoop loop;
      const std::size_t start = next.begin()->first;
      std::size_t at = start;
      do {
        const auto step = next.find(at);
        if (step == next.end()) return false;
        loop.push_back(at);
        at = step->second;
        next.erase(step);
      } while (at != start);
      if (loop.size() > 2) cap_.loops.push_back(std::move(loop));
    }
    return true;
  }

  void drop_unused_vertices() {
    constexpr std::size_t kUnused = static_cast<std::size_t>(-1);
    std::vector<std::size_t> place(rest_.vertices.size(), kUnused);
    std::vector<Vec3> used;
    for (BodyFace& face : rest_.faces) {
      for (FaceLoop& loop : face.loops) {
        for (std::size_t& index : loop) {
          if (place[index] == kUnused) {
            place[index] = used.size();
            used.push_back(rest_.vertices[index]);
          }
          index = place[index];
        }
      }
    }
    rest_.vertices = std::move(used);
  }
};

}  // namespace

std::optional<Polyhedron> cut_to(const Polyhedron& body, const HalfSpace& half) {
  PlaneCut cut(body, half);
  if (!cut.cut()) return std::nullopt;
  Polyhedron rest = cut.take();
  if (!rest.is_empty() && !(rest.volume_m3() > kNoVolume_m3)) return Polyhedron{};
  return rest;
}

std::optional<std::vector<Polyhedron>> cut_away(const Polyhedron& body, const std::vector<HalfSpace>& cutter) {
  std::vector<Polyhedron> pieces;
  Polyhedron inside = body;
  for (const HalfSpace& side : cutter) {
    auto outside = cut_to(inside, side.complement());
    auto rest = cut_to(inside, side);
    if (!outside || !rest) return std::nullopt;
    if (rest->is_empty()) return std::vector<Polyhedron>{body};
    if (!outside->is_empty()) pieces.push_back(std::move(*outside));
    inside = std::move(*rest);
  }
  return pieces;
}

std::optional<double> common_volume_m3(const Polyhedron& body, const std::vector<HalfSpace>& cutter) {
  Polyhedron inside = body;
  for (const HalfSpace& side : cutter) {
    auto rest = cut_to(inside, side);
    if (!rest) return std::nullopt;
    if (rest->is_empty()) return 0.0;
    inside = std::move(*rest);
  }
  return inside.volume_m3();
}

std::optional<std::vector<Polygon>> section(const Polyhedron& body, const Frame& frame) {
  PlaneCut cut(body, {frame.origin, frame.z_axis});
  if (!cut.cut()) return std::nullopt;
  std::vector<Polygon> outlines;
  for (const FaceLoop& loop : cut.cap().loops) {
    Polygon outline;
    for (const std::size_t index : loop) {
      const Vec3 at = frame.to_local(cut.vertex(index));
      outline.push_back({at.x, at.y});
    }
    outlines.push_back(std::move(outline));
  }
  return outlines;
}

}  // namespace panel_dossier
