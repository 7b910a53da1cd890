#include "plugins/structural/racking/strips.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/tolerances.h"

namespace panel_dossier::structural {

double shape_factor(double width_m, double height_m) {
  if (width_m < height_m / 4.0) return 0.0;
  return std::min(1.0, width_m / (height_m / 2.0));
}

double racking_method_a_n(double fastener_n, double width_m, double height_m, double spacing_m) {
  constexpr double kEdgeFasteners = 1.2;
  return kEdgeFasteners * fastener_n * width_m * shape_factor(width_m, height_m) / spacing_m;
}

MethodB racking_method_b(double fastener_n, double diameter_m, double density_kg_per_m3, double width_m,
                         double height_m, double spacing_m, double vertical_n_per_m, double weaker_share) {
  constexpr double kWidest_m = 4.8;
  constexpr double kReference_m = 2.4;
  MethodB result;
  result.basic_spacing_m = 9700.0 * diameter_m / density_kg_per_m3;
  result.dimension_factor =
      width_m <= height_m ? width_m / height_m : std::pow(std::min(width_m, kWidest_m) / height_m, 0.4);
  const double q = vertical_n_per_m / 1e3;
  result.load_factor = 1.0 + (0.083 * q - 0.0008 * q * q) * std::pow(kReference_m / width_m, 0.4);
  result.spacing_factor = 1.0 / (0.86 * spacing_m / result.basic_spacing_m + 0.57);
  result.sheathing_factor = 1.0 + 0.5 * weaker_share;
  result.resistance_n = fastener_n * width_m / result.basic_spacing_m * result.dimension_factor * result.load_factor *
                        result.spacing_factor * result.sheathing_factor;
  return result;
}

namespace {

struct Column {
  double from_m = 0.0;
  double to_m = 0.0;
  double covered_m = 0.0;
  std::vector<double> edges_m;

  double width_m() const { return to_m - from_m; }
};

/// Sheets above one another of one width, over the whole height and clear of openings.
std::vector<Column> columns_of(const Panel& panel, const SheathingFace& face) {
  std::vector<Column> columns;
  for (const std::size_t i : face.sheets) {
    const Box3& box = *panel.parts[i].bounds;
    auto same = std::find_if(columns.begin(), columns.end(), [&](const Column& c) {
      return std::abs(c.from_m - box.min.x) < tolerance::kSameLine_m &&
             std::abs(c.to_m - box.max.x) < tolerance::kSameLine_m;
    });
    if (same == columns.end())
      same = columns.insert(columns.end(), {box.min.x, box.max.x, 0.0, {box.min.x, box.max.x}});
    same->covered_m += box.size().z;
  }
  std::erase_if(columns, [&](const Column& column) {
    const bool pierced = std::any_of(panel.openings.begin(), panel.openings.end(), [&](const Opening& opening) {
      return opening.x_min_m < column.to_m - tolerance::kSameLine_m &&
             opening.x_max_m > column.from_m + tolerance::kSameLine_m;
    });
    return pierced || column.covered_m < kWholeLength * panel.height_m.value;
  });
  std::sort(columns.begin(), columns.end(), [](const Column& a, const Column& b) { return a.from_m < b.from_m; });
  return columns;
}

/// Columns that meet are one wall for method B. A sheet narrower than a quarter of the height does not
/// count, 9.2.4.3.1, so that it makes no wall longer either.
std::vector<Column> joined(const std::vector<Column>& columns, double height_m) {
  std::vector<Column> walls;
  for (const Column& column : columns) {
    if (shape_factor(column.width_m(), height_m) == 0.0) continue;
    if (!walls.empty() && std::abs(walls.back().to_m - column.from_m) < tolerance::kSameLine_m) {
      walls.back().to_m = column.to_m;
      walls.back().edges_m.push_back(column.to_m);
    } else {
      walls.push_back(column);
    }
  }
  return walls;
}

bool alike(const SheathingFace& a, const SheathingFace& b) {
  const auto same = [](double first_m, double second_m) { return std::abs(first_m - second_m) < kSameSize_m; };
  return a.product == b.product && a.screws == b.screws && same(a.thickness_m, b.thickness_m) &&
         same(a.diameter_m, b.diameter_m) && same(a.length_m, b.length_m) && same(a.spacing_m, b.spacing_m);
}

class Wall {
 public:
  Wall(const Panel& panel, const std::vector<SheathingFace>& faces, double vertical_n_per_m)
      : faces_(faces), height_m_(panel.height_m.value), vertical_n_per_m_(vertical_n_per_m) {
    for (const SheathingFace& face : faces) columns_.push_back(columns_of(panel, face));
  }

  std::vector<RackingStrip> by_method_a() const {
    std::vector<RackingStrip> strips;
    std::vector<double> totals_n(faces_.size(), 0.0);
    for (std::size_t i = 0; i < faces_.size(); ++i) {
      for (const Column& column : columns_[i]) {
        RackingStrip strip = strip_on(i, column);
        if (strip.shape_factor == 0.0) continue;
        strip.resistance_n =
            racking_method_a_n(faces_[i].resistance_n(), strip.width_m, height_m_, faces_[i].spacing_m);
        totals_n[i] += strip.resistance_n;
        strips.push_back(strip);
      }
    }
    constexpr double kWeakerFace = 0.5;
    if (faces_.size() < 2 || alike(faces_[0], faces_[1])) return strips;
    const std::size_t stronger = index_of_largest(totals_n);
    for (RackingStrip& strip : strips) {
      if (strip.face == stronger) continue;
      strip.share = kWeakerFace;
      strip.resistance_n *= kWeakerFace;
    }
    return strips;
  }

  std::vector<RackingStrip> by_method_b() const {
    std::vector<double> totals_n;
    for (std::size_t i = 0; i < faces_.size(); ++i) totals_n.push_back(method_b_n(i, joined(columns_[i], height_m_)));
    const std::size_t stronger = index_of_largest(totals_n);
    std::vector<RackingStrip> strips;
    for (const Column& column : joined(columns_[stronger], height_m_)) {
      RackingStrip strip = strip_on(stronger, column);
      const double other_n = faces_.size() < 2 ? 0.0 : behind_n(1 - stronger, column);
      const double alone_n = method_b(stronger, strip.width_m, 0.0).resistance_n;
      strip.method_b = method_b(stronger, strip.width_m, std::min(1.0, other_n / alone_n));
      strip.resistance_n = strip.method_b->resistance_n;
      strips.push_back(strip);
    }
    return strips;
  }

 private:
  const std::vector<SheathingFace>& faces_;
  double height_m_;
  double vertical_n_per_m_;
  std::vector<std::vector<Column>> columns_;

  static std::size_t index_of_largest(const std::vector<double>& values) {
    return static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin());
  }

  RackingStrip strip_on(std::size_t face, const Column& column) const {
    RackingStrip strip;
    strip.face = face;
    strip.from_m = column.from_m;
    strip.width_m = column.width_m();
    strip.edges_m = column.edges_m;
    strip.shape_factor = shape_factor(strip.width_m, height_m_);
    return strip;
  }

  MethodB method_b(std::size_t index, double width_m, double weaker_share) const {
    const SheathingFace& face = faces_[index];
    return racking_method_b(face.resistance_n(), face.diameter_m, face.timber_density_kg_per_m3, width_m, height_m_,
                            face.spacing_m, vertical_n_per_m_, weaker_share);
  }

  double method_b_n(std::size_t face, const std::vector<Column>& walls) const {
    double sum_n = 0.0;
    for (const Column& wall : walls) {
      if (shape_factor(wall.width_m(), height_m_) > 0.0) sum_n += method_b(face, wall.width_m(), 0.0).resistance_n;
    }
    return sum_n;
  }

  /// Of a face, what lies behind a wall of the other.
  double behind_n(std::size_t face, const Column& front) const {
    std::vector<Column> overlaps;
    for (const Column& wall : joined(columns_[face], height_m_)) {
      const double from_m = std::max(wall.from_m, front.from_m);
      const double shared_m = overlap_m({wall.from_m, wall.to_m}, {front.from_m, front.to_m});
      if (shared_m > 0.0) overlaps.push_back({from_m, from_m + shared_m, wall.covered_m, {}});
    }
    return method_b_n(face, overlaps);
  }
};

}  // namespace

std::vector<RackingStrip> racking_strips(const Panel& panel, const std::vector<SheathingFace>& faces, bool method_a,
                                         double vertical_n_per_m) {
  if (faces.empty()) return {};
  const Wall wall(panel, faces, vertical_n_per_m);
  return method_a ? wall.by_method_a() : wall.by_method_b();
}

}  // namespace panel_dossier::structural
