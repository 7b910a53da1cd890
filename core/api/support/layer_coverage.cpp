#include "core/api/support/layer_coverage.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

#include "core/api/support/tolerances.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr double kJoint_m = 0.025;
/// Less than this is no hole that anybody would have to fill: a hand's breadth both ways.
constexpr double kLeastHole_m2 = 0.01;
/// By what slabs may be thinner than they are sold: the larger of both for classes T1 and T2 of EN 13162:2012 table 1
/// (from memory). Models draw what is sold or what was measured.
constexpr double kThinnerSlab_m = 0.005;
constexpr double kThinnerSlabShare = 0.05;
/// Insulated layers from this depth on are framed; thinner ones are boards fixed through.
constexpr double kFramedFrom_m = 0.06;
constexpr double kDepthRounding_m = 1e-9;  ///< of sums of depths

/// Whether a point in the panel's frame lies within the prism, its surface included.
bool holds(const Extrusion& solid, const Vec3& point) {
  const Vec3 local = solid.frame.to_local(point);
  if (solid.direction.z == 0.0) return false;
  const double along = local.z / solid.direction.z;
  if (along < -tolerance::kModelling_m || along > solid.depth_m + tolerance::kModelling_m) return false;
  const double x = local.x - along * solid.direction.x;
  const double y = local.y - along * solid.direction.y;
  bool inside = false;
  const Polygon& outline = solid.outline;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const bool crosses = (outline[i].y > y) != (outline[j].y > y);
    if (crosses &&
        x < (outline[j].x - outline[i].x) * (y - outline[i].y) / (outline[j].y - outline[i].y) + outline[i].x) {
      inside = !inside;
    }
  }
  return inside;
}

/// Of its box; of a part of several solids or with voids only the volume tells.
double filled_share(const Part& part) {
  if (part.solid || !part.volume_m3) return 1.0;
  const Vec3 size = part.bounds->size();
  const double box_m3 = size.x * size.y * size.z;
  return box_m3 > 0.0 ? std::min(1.0, part.volume_m3->value / box_m3) : 1.0;
}

/// By its category or, where the export gives none, by its parts.
bool is_insulated(const Panel& panel, const Layer& layer) {
  if (!layer.category.empty()) return layer.category == "insulation";
  const std::vector<std::size_t> parts = parts_in_layer(panel, layer);
  return std::any_of(parts.begin(), parts.end(),
                     [&](std::size_t part) { return panel.parts[part].kind == PartKind::insulation; });
}

/// The depth from which on parts fill a layer. Boards are drawn as thick as they are sold, like their layer; of thin
/// layers at least half must be there.
double least_depth_m(const Panel& panel, const Layer& layer) {
  const double thickness_m = layer.thickness_m.value;
  const double thinner_m =
      is_insulated(panel, layer) ? std::max(kThinnerSlab_m, kThinnerSlabShare * thickness_m) : tolerance::kModelling_m;
  return std::max(thickness_m - thinner_m, thickness_m / 2.0) - kDepthRounding_m;
}

std::vector<double> lines_between(double end, std::vector<double> lines) {
  lines.insert(lines.end(), {0.0, end});
  for (double& line : lines) line = std::clamp(line, 0.0, end);
  std::sort(lines.begin(), lines.end());
  std::vector<double> kept{0.0};
  for (const double line : lines) {
    if (line - kept.back() > tolerance::kModelling_m) kept.push_back(line);
  }
  return kept;
}

/// How deep each cell of a grid on the face is filled. The grid runs through all edges of openings and of the parts in
/// the layer, so a cell lies wholly within the box of a part or wholly outside.
class LayerFace {
 public:
  LayerFace(const Panel& panel, const Layer& layer)
      : panel_(panel), layer_(layer), least_depth_m_(least_depth_m(panel, layer)) {
    std::vector<double> x;
    std::vector<double> z;
    for (const Opening& opening : panel.openings) {
      x.insert(x.end(), {opening.x_min_m, opening.x_max_m});
      z.insert(z.end(), {opening.z_min_m, opening.z_max_m});
    }
    for (const Part& part : panel.parts) {
      if (depth_in_layer(part) <= 0.0) continue;
      add_edges(part, x, z);
    }
    x_ = lines_between(panel.width_m.value, std::move(x));
    z_ = lines_between(panel.height_m.value, std::move(z));
    if (columns() == 0 || rows() == 0) return;
    fill();
  }

  /// The largest part of the face that is left empty, with the area of all such parts; none when the layer is filled.
  struct Hole {
    double area_m2 = 0.0;
    double x_min = 0.0, x_max = 0.0, z_min = 0.0, z_max = 0.0;
  };

  std::optional<Hole> hole() const {
    Hole all;
    all.x_min = panel_.width_m.value;
    all.z_min = panel_.height_m.value;
    for (std::size_t row = 0; row < rows(); ++row) {
      for (std::size_t column = 0; column < columns(); ++column) {
        if (!is_empty(column, row) || run_x(column, row) <= kJoint_m || run_z(column, row) <= kJoint_m) continue;
        all.area_m2 += (x_[column + 1] - x_[column]) * (z_[row + 1] - z_[row]);
        all.x_min = std::min(all.x_min, x_[column]);
        all.x_max = std::max(all.x_max, x_[column + 1]);
        all.z_min = std::min(all.z_min, z_[row]);
        all.z_max = std::max(all.z_max, z_[row + 1]);
      }
    }
    return all.area_m2 > kLeastHole_m2 ? std::optional(all) : std::nullopt;
  }

 private:
  const Panel& panel_;
  const Layer& layer_;
  double least_depth_m_;
  std::vector<double> x_;
  std::vector<double> z_;
  std::vector<double> depth_m_;  ///< filled, by cell

  std::size_t columns() const { return x_.size() - 1; }
  std::size_t rows() const { return z_.size() - 1; }
  double middle_x(std::size_t column) const { return (x_[column] + x_[column + 1]) / 2.0; }
  double middle_z(std::size_t row) const { return (z_[row] + z_[row + 1]) / 2.0; }

  double depth_in_layer(const Part& part) const {
    if (!part.bounds || part.kind == PartKind::fastener) return 0.0;
    return std::min(part.bounds->max.y, layer_.y_outside_m) - std::max(part.bounds->min.y, layer_.y_inside_m);
  }

  /// Of the box and, for a board with cut-outs, of its outline.
  static void add_edges(const Part& part, std::vector<double>& x, std::vector<double>& z) {
    x.insert(x.end(), {part.bounds->min.x, part.bounds->max.x});
    z.insert(z.end(), {part.bounds->min.z, part.bounds->max.z});
    if (!part.solid) return;
    for (const Vec2& corner : part.solid->outline) {
      const Vec3 point = part.solid->frame.to_parent(Vec3{corner.x, corner.y, 0.0});
      x.push_back(point.x);
      z.push_back(point.z);
    }
  }

  void fill() {
    depth_m_.assign(columns() * rows(), 0.0);
    for (const Part& part : panel_.parts) {
      const double depth = depth_in_layer(part);
      if (depth <= 0.0) continue;
      const double share = filled_share(part);
      const double y =
          (std::min(part.bounds->max.y, layer_.y_outside_m) + std::max(part.bounds->min.y, layer_.y_inside_m)) / 2.0;
      for (std::size_t row = 0; row < rows(); ++row) {
        const double z = middle_z(row);
        if (z < part.bounds->min.z || z > part.bounds->max.z) continue;
        for (std::size_t column = 0; column < columns(); ++column) {
          const double x = middle_x(column);
          if (x < part.bounds->min.x || x > part.bounds->max.x) continue;
          if (part.solid && !holds(*part.solid, {x, y, z})) continue;
          depth_m_[row * columns() + column] += depth * share;
        }
      }
    }
    for (const Opening& opening : panel_.openings) {
      for (std::size_t row = 0; row < rows(); ++row) {
        for (std::size_t column = 0; column < columns(); ++column) {
          const bool open = middle_x(column) > opening.x_min_m && middle_x(column) < opening.x_max_m &&
                            middle_z(row) > opening.z_min_m && middle_z(row) < opening.z_max_m;
          if (open) depth_m_[row * columns() + column] = layer_.thickness_m.value;
        }
      }
    }
  }

  bool is_empty(std::size_t column, std::size_t row) const {
    return depth_m_[row * columns() + column] < least_depth_m_;
  }

  /// Width of the empty strip through the cell, along x.
  double run_x(std::size_t column, std::size_t row) const {
    std::size_t first = column;
    std::size_t last = column;
    while (first > 0 && is_empty(first - 1, row)) --first;
    while (last + 1 < columns() && is_empty(last + 1, row)) ++last;
    return x_[last + 1] - x_[first];
  }

  double run_z(std::size_t column, std::size_t row) const {
    std::size_t first = row;
    std::size_t last = row;
    while (first > 0 && is_empty(column, first - 1)) --first;
    while (last + 1 < rows() && is_empty(column, last + 1)) ++last;
    return z_[last + 1] - z_[first];
  }
};

bool may_be_empty(const Layer& layer) {
  return !layer.material || layer.category == "air" || layer.thickness_m.value <= 0.0;
}

bool has_framing(const Panel& panel, const Layer& layer) {
  const std::vector<std::size_t> parts = parts_in_layer(panel, layer);
  return std::any_of(parts.begin(), parts.end(), [&](std::size_t part) { return is_framing(panel.parts[part].kind); });
}

std::string hole_text(const Layer& layer, const LayerFace::Hole& hole) {
  return "layer '" + layer.name + "' is " + fixed_text(layer.thickness_m.value * 1000.0, 1) +
         " mm thick, but the parts leave " + fixed_text(hole.area_m2, 2) + " m² of it unfilled (x " +
         fixed_text(hole.x_min, 2) + " to " + fixed_text(hole.x_max, 2) + " m, z " + fixed_text(hole.z_min, 2) +
         " to " + fixed_text(hole.z_max, 2) + " m)";
}

}  // namespace

std::vector<std::string> layers_against_parts(const Panel& panel) {
  std::vector<std::string> found;
  const bool has_shapes =
      std::any_of(panel.parts.begin(), panel.parts.end(), [](const Part& part) { return part.bounds.has_value(); });
  if (!has_shapes) return found;
  for (const Layer& layer : panel.layers) {
    if (may_be_empty(layer)) continue;
    if (const auto hole = LayerFace(panel, layer).hole()) found.push_back(hole_text(layer, *hole));
    if (is_insulated(panel, layer) && layer.thickness_m.value >= kFramedFrom_m && !has_framing(panel, layer)) {
      found.push_back("layer '" + layer.name + "' is insulation without a framing member among the parts");
    }
  }
  return found;
}

}  // namespace panel_dossier
