#include "plugins/structural/basis/member_section.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "core/api/support/tolerances.h"
#include "core/api/support/words.h"

namespace panel_dossier::structural {

namespace {

constexpr double kFull = 0.995;      ///< share of a box that planed edges and rounding of coordinates leave
constexpr double kSameWay = 0.9999;  ///< cosine of directions that are one
constexpr double kSkew = 0.01;       ///< share of the product moment of area up to which bending is not oblique
constexpr double kEndCut_m = 0.030;  ///< length over which an end may be sawn off at a slant (common practice)
constexpr double kHoleShare = 0.25;  ///< common practice
constexpr double kHolesApart = 3.0;  ///< diameters, common practice

std::string mm_text(double length_m) {
  return shortest_text(std::round(length_m * 1e4) / 10.0) + " mm";
}

/// Sums over an outline, about the origin.
struct Moments {
  double area = 0.0;
  double x = 0.0;
  double y = 0.0;
  double xx = 0.0;
  double yy = 0.0;
  double xy = 0.0;
};

/// Green's theorem, edge by edge.
Moments moments_of(const Polygon& outline) {
  Moments sum;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2& a = outline[i];
    const Vec2& b = outline[(i + 1) % outline.size()];
    const double twice = a.x * b.y - b.x * a.y;
    sum.area += twice / 2.0;
    sum.x += twice * (a.x + b.x) / 6.0;
    sum.y += twice * (a.y + b.y) / 6.0;
    sum.xx += twice * (a.x * a.x + a.x * b.x + b.x * b.x) / 12.0;
    sum.yy += twice * (a.y * a.y + a.y * b.y + b.y * b.y) / 12.0;
    sum.xy += twice * (a.x * b.y + 2.0 * a.x * a.y + 2.0 * b.x * b.y + b.x * a.y) / 24.0;
  }
  if (sum.area >= 0.0) return sum;
  return {-sum.area, -sum.x, -sum.y, -sum.xx, -sum.yy, -sum.xy};
}

/// Where a line across the outline at this first coordinate lies inside: the second coordinates in pairs, ascending.
std::vector<double> crossings(const Polygon& outline, double at) {
  std::vector<double> found;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2& a = outline[i];
    const Vec2& b = outline[(i + 1) % outline.size()];
    if ((a.x <= at) == (b.x <= at)) continue;
    found.push_back(a.y + (at - a.x) / (b.x - a.x) * (b.y - a.y));
  }
  std::sort(found.begin(), found.end());
  return found;
}

/// First coordinates of the corners, ascending, each once.
std::vector<double> stations(const Polygon& outline) {
  std::vector<double> all;
  for (const Vec2& point : outline) all.push_back(point.x);
  std::sort(all.begin(), all.end());
  constexpr double kSame_m = 1e-7;
  all.erase(std::unique(all.begin(), all.end(), [](double a, double b) { return b - a < kSame_m; }), all.end());
  return all;
}

double length_in(const std::vector<double>& pairs) {
  double sum = 0.0;
  for (std::size_t i = 0; i + 1 < pairs.size(); i += 2) sum += pairs[i + 1] - pairs[i];
  return sum;
}

/// The least of I·t/S over lines across the outline at a first coordinate, for shear in that coordinate's direction;
/// `outline` has its centre at the origin and I = ∫x² dA. S is that of the part beyond the line.
double least_shear_thickness(const Polygon& outline, double second_moment) {
  constexpr double kBeside_m = 1e-6;
  // Thickness may step at corners, and the first moment is greatest at the centre.
  std::vector<double> lines;
  for (const double station : stations(outline)) {
    lines.push_back(station - kBeside_m);
    lines.push_back(station + kBeside_m);
  }
  lines.push_back(0.0);
  std::sort(lines.begin(), lines.end());
  double least = 0.0;
  double first_moment = 0.0;
  double last_m = lines.front();
  double last_thickness_m = 0.0;
  for (const double line : lines) {
    const double thickness_m = length_in(crossings(outline, line));
    // Between two lines the thickness is linear, or both lie beside one corner and the step takes no area.
    const double step_m = line - last_m;
    first_moment -= step_m * (last_thickness_m * (2.0 * last_m + line) + thickness_m * (last_m + 2.0 * line)) / 6.0;
    last_m = line;
    last_thickness_m = thickness_m;
    if (!(thickness_m > kBeside_m) || !(first_moment > 0.0)) continue;
    const double value = second_moment * thickness_m / first_moment;
    if (least == 0.0 || value < least) least = value;
  }
  return least;
}

Polygon turned(const Polygon& outline) {
  Polygon other;
  for (const Vec2& point : outline) other.push_back({point.y, point.x});
  return other;
}

double farthest(const Polygon& outline) {
  double most = 0.0;
  for (const Vec2& point : outline) most = std::max(most, std::abs(point.x));
  return most;
}

}  // namespace

std::optional<SectionOutline> section_outline(const Polygon& outline) {
  const Moments sum = moments_of(outline);
  if (!(sum.area > 0.0)) return std::nullopt;
  const Vec2 centre{sum.x / sum.area, sum.y / sum.area};
  Polygon centred;
  for (const Vec2& point : outline) centred.push_back({point.x - centre.x, point.y - centre.y});
  const Moments own = moments_of(centred);
  if (std::abs(own.xy) > kSkew * std::sqrt(own.xx * own.yy)) return std::nullopt;
  const Polygon across = turned(centred);
  SectionOutline section;
  section.area_m2 = own.area;
  section.second_moment_m4 = own.yy;
  section.section_modulus_m3 = own.yy / farthest(across);
  section.weak_second_moment_m4 = own.xx;
  section.weak_modulus_m3 = own.xx / farthest(centred);
  section.shear_area_m2 = 1.5 * std::min(least_shear_thickness(across, own.yy), least_shear_thickness(centred, own.xx));
  if (!(section.shear_area_m2 > 0.0)) return std::nullopt;
  return section;
}

std::optional<std::vector<std::pair<double, double>>> drilled_holes(const Part& part) {
  std::vector<std::pair<double, double>> holes;
  const auto text = part.properties.text("Panel_Member", "Holes");
  if (!text) return holes;
  std::string_view rest = text->value;
  while (!rest.empty()) {
    const std::string_view entry = rest.substr(0, rest.find(';'));
    rest.remove_prefix(std::min(rest.size(), entry.size() + 1));
    const std::size_t at = entry.find('@');
    if (at == std::string_view::npos) return std::nullopt;
    const auto diameter = parse_decimal(entry.substr(0, at));
    const auto distance = parse_decimal(entry.substr(at + 1));
    if (!diameter || !distance || !(*diameter > 0.0) || !(*distance > 0.0)) return std::nullopt;
    holes.emplace_back(*diameter / 1e3, *distance / 1e3);
  }
  if (holes.empty()) return std::nullopt;
  return holes;
}

namespace {

class SectionReader {
 public:
  SectionReader(const Part& part, MemberAxis axis) : part_(part), upright_(axis == MemberAxis::upright) {}

  MemberSection read() && {
    read_box();
    if (result_.problem.empty() && part_.solid) read_solid(*part_.solid);
    if (result_.problem.empty() && !part_.solid) read_without_solid();
    if (result_.problem.empty()) read_holes();
    return std::move(result_);
  }

 private:
  const Part& part_;
  bool upright_;
  double length_m_ = 0.0;
  double box_volume_m3_ = 0.0;
  MemberSection result_;

  double along(const Vec3& v) const { return upright_ ? v.z : v.x; }
  double side(const Vec3& v) const { return upright_ ? v.x : v.z; }

  void refuse(const std::string& why) { result_.problem = "'" + part_.name + "' " + why; }
  void doubt(const std::string& what) { result_.doubts.push_back("'" + part_.name + "': " + what); }

  void read_box() {
    if (!part_.bounds) return refuse("has no geometry");
    const Vec3 size = part_.bounds->size();
    if (!(size.x > 0.0) || !(size.y > 0.0) || !(size.z > 0.0)) return refuse("has a zero or negative size");
    result_.section.width_m = side(size);
    result_.section.depth_m = size.y;
    length_m_ = along(size);
    box_volume_m3_ = size.x * size.y * size.z;
  }

  /// Of several solids, or of a box alone.
  void read_without_solid() {
    if (!part_.volume_m3) {
      return refuse("is known by its box alone, which does not show its section: export its solid");
    }
    // A volume, even that of the whole box, does not tell pieces side by side from one piece, nor whether it is gross.
    refuse("is of several solids or known by its box alone, of which its volume fills " +
           fixed_text(100.0 * part_.volume_m3->value / box_volume_m3_, 0) +
           " %, so its section is not known: export one solid");
  }

  void read_solid(const Extrusion& solid) {
    const Vec3 way = solid.frame.direction_to_parent(solid.direction);
    const double size = length(way);
    if (!(size > 0.0) || !std::isfinite(size)) return refuse("is a solid without direction");
    if (std::abs(along(way)) > kSameWay * size) return read_section_outline(solid);
    if (std::abs(side(way)) > kSameWay * size) return read_side(solid, true);
    if (std::abs(way.y) > kSameWay * size) return read_side(solid, false);
    refuse("is drawn neither along the member nor square to a side of it, so its section is not known");
  }

  /// Drawn along the member: the outline is its section.
  void read_section_outline(const Extrusion& solid) {
    Polygon outline;
    for (const Vec2& point : solid.outline) {
      const Vec3 at = solid.frame.to_parent(Vec3{point.x, point.y, 0.0});
      outline.push_back({side(at), at.y});
    }
    read_openings(solid.volume_m3());
    if (area(outline) >= kFull * result_.section.width_m * result_.section.depth_m) return;
    result_.section.outline = section_outline(outline);
    if (!result_.section.outline) {
      refuse(
          "is of a section without an axis of symmetry along or through the wall, whose oblique bending is not "
          "assessed");
    }
  }

  /// Drawn square to a side: the outline is that side, with notches. `through_side`: it shows the depth.
  void read_side(const Extrusion& solid, bool through_side) {
    Polygon outline;
    for (const Vec2& point : solid.outline) {
      const Vec3 at = solid.frame.to_parent(Vec3{point.x, point.y, 0.0});
      outline.push_back({along(at), through_side ? at.y : side(at)});
    }
    read_openings(solid.volume_m3());
    const std::vector<double> all = stations(outline);
    for (std::size_t i = 0; i + 1 < all.size() && result_.problem.empty(); ++i) {
      read_piece(outline, {all[i], all[i + 1]}, {all.front(), all.back()}, through_side);
    }
  }

  /// Between two neighbouring corners of a side both edges are straight.
  void read_piece(const Polygon& side_face, const std::pair<double, double>& piece,
                  const std::pair<double, double>& ends, bool through_side) {
    const double full_m = through_side ? result_.section.depth_m : result_.section.width_m;
    if (!(piece.second - piece.first > tolerance::kModelling_m)) return;
    const double beside_m = std::min(1e-6, (piece.second - piece.first) / 4.0);
    const auto first = crossings(side_face, piece.first + beside_m);
    const auto last = crossings(side_face, piece.second - beside_m);
    if (first.size() != 2 || last.size() != 2) {
      return refuse("is parted lengthwise by a slot or an opening, so its section is not known");
    }
    const double first_m = length_in(first);
    const double last_m = length_in(last);
    const double left_m = std::min(first_m, last_m);
    if (full_m - left_m < tolerance::kModelling_m) return;
    const bool at_foot = piece.first < ends.first + kEndCut_m;
    if (at_foot || piece.second > ends.second - kEndCut_m) {
      const double reach_m = at_foot ? piece.second - ends.first : ends.second - piece.first;
      const bool sawn_off = left_m < tolerance::kModelling_m &&
                            full_m - (at_foot ? last_m : first_m) < tolerance::kModelling_m && reach_m <= kEndCut_m;
      if (!sawn_off) read_end(first_m, last_m, full_m, reach_m, through_side);
      return;
    }
    double& least_m = through_side ? result_.section.notched_depth_m : result_.section.notched_width_m;
    least_m = least_m > 0.0 ? std::min(least_m, left_m) : left_m;
    doubt("a notch between its ends leaves " + mm_text(left_m) + " of " + mm_text(full_m) +
          ", and its stress concentration (EN 1995-1-1 6.5.1(2)) is not verified");
  }

  /// What is cut out of an end up to `reach_m` from it, however short.
  void read_end(double first_m, double last_m, double full_m, double reach_m, bool through_side) {
    const double left_m = std::min(first_m, last_m);
    const bool square = std::abs(first_m - last_m) < tolerance::kModelling_m;
    if (square && through_side) return end_notch(left_m, reach_m);
    doubt("an end cut " + std::string(square ? "back" : "at a slant") + " over " + mm_text(reach_m) +
          ", which leaves " + mm_text(left_m) + " of " + mm_text(full_m) + " there, is not verified");
  }

  void end_notch(double left_m, double notch_m) {
    Section& section = result_.section;
    if (section.end_depth_m > 0.0 && section.end_depth_m <= left_m) {
      section.end_notch_m = std::max(section.end_notch_m, notch_m);
      return;
    }
    section.end_depth_m = left_m;
    section.end_notch_m = std::max(section.end_notch_m, notch_m);
    // A longer one reaches to where the member is bent.
    if (section.end_notch_m > section.depth_m) section.notched_depth_m = left_m;
  }

  /// Openings of the export in the part itself: their place is not kept, so only holes that are listed explain them.
  void read_openings(double solid_m3) {
    if (!part_.volume_m3) return;
    const double taken_m3 = solid_m3 - part_.volume_m3->value;
    double listed_m3 = 0.0;
    for (const auto& [diameter_m, at_m] : drilled_holes(part_).value_or(std::vector<std::pair<double, double>>())) {
      listed_m3 += diameter_m * diameter_m * std::min(result_.section.width_m, result_.section.depth_m);
    }
    // Holes are counted as squares, a little more than their volume; both volumes are those of one solid, so nothing
    // else may be missing but rounding.
    constexpr double kRounding_m3 = 1e-6;
    if (taken_m3 <= listed_m3 + kRounding_m3) return;
    refuse(
        "has openings that take " + fixed_text(100.0 * taken_m3 / solid_m3, 1) +
        " % of its volume at a place that is not known: list them in Panel_Member.Holes, or export the notched solid");
  }

  void read_holes() {
    const auto holes = drilled_holes(part_);
    if (!holes) {
      return refuse("has a Panel_Member.Holes that is not diameter@distance in mm, as '20@300; 20@900'");
    }
    if (holes->empty()) return;
    Section& section = result_.section;
    if (!section.whole()) return refuse("has holes beside a notch or another outline, which is not assessed");
    const bool through_width = section.width_m <= section.depth_m;
    const double across_m = through_width ? section.depth_m : section.width_m;
    double largest_m = 0.0;
    for (const auto& [diameter_m, at_m] : *holes) {
      largest_m = std::max(largest_m, diameter_m);
      weigh_hole(diameter_m, at_m, across_m);
      for (const auto& [other_m, other_at_m] : *holes) {
        const double apart_m = other_at_m - at_m;
        if (apart_m > 0.0 && apart_m < kHolesApart * std::max(diameter_m, other_m)) {
          doubt("holes at " + mm_text(at_m) + " and " + mm_text(other_at_m) +
                " nearer to each other than three diameters (common practice)");
        }
      }
    }
    if (!result_.problem.empty()) return;
    (through_width ? section.depth_hole_m : section.width_hole_m) = largest_m;
  }

  void weigh_hole(double diameter_m, double at_m, double across_m) {
    const std::string hole = "the hole of " + mm_text(diameter_m) + " at " + mm_text(at_m);
    if (at_m >= length_m_ || diameter_m >= across_m) {
      return refuse("cannot hold " + hole + " (Panel_Member.Holes): it is " + mm_text(length_m_) + " long and " +
                    mm_text(across_m) + " deep");
    }
    if (diameter_m > kHoleShare * across_m) {
      doubt(hole + " is larger than a quarter of " + mm_text(across_m) +
            " (common practice): it needs a verification of its own");
    }
    if (std::min(at_m, length_m_ - at_m) < across_m + diameter_m / 2.0) {
      doubt(hole + " is nearer to an end than " + mm_text(across_m) +
            " (common practice): it needs a verification of its own");
    }
  }
};

}  // namespace

MemberSection read_section(const Part& part, MemberAxis axis) {
  return SectionReader(part, axis).read();
}

}  // namespace panel_dossier::structural
