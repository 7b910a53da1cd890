#include "core/dossier/parts/panel/elevation.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

#include "core/api/support/fastener_kinds.h"
#include "core/api/support/geometry.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/panel/drawing_caption.h"
#include "core/dossier/parts/panel/panel_facts.h"

namespace panel_dossier {

namespace {

// The outline of a part in the x-z plane: of its solid where that stands square to the plane, else of its box.
Polygon part_outline(const Part& part) {
  if (part.solid) {
    const Extrusion& solid = *part.solid;
    const Vec3 direction = solid.frame.direction_to_parent(solid.direction);
    if (std::fabs(direction.y) > 0.999) {
      Polygon outline;
      for (const Vec2& point : solid.outline) {
        const Vec3 at = solid.frame.to_parent(Vec3{point.x, point.y, 0.0});
        outline.push_back({at.x, at.z});
      }
      return outline;
    }
  }
  const Box3& box = *part.bounds;
  return rectangle(box.min.x, box.min.z, box.max.x, box.max.z);
}

DrawnPolygon framing_polygon(const Part& part) {
  DrawnPolygon polygon;
  polygon.outline = part_outline(part);
  polygon.style = LineStyle::thin;
  const bool heavy = part.kind == PartKind::post || part.kind == PartKind::lintel;
  polygon.hatch = heavy ? Hatch::timber : Hatch::none;
  return polygon;
}

void add_framing(Drawing& drawing, const Panel& panel) {
  for (const Part& part : panel.parts) {
    if (is_framing(part.kind) && part.kind != PartKind::batten && part.bounds)
      drawing.polygons.push_back(framing_polygon(part));
  }
}

void add_fixings(Drawing& drawing, const Panel& panel) {
  for (const Part& part : panel.parts) {
    if (!has_place(part)) continue;
    DrawnPolygon polygon;
    polygon.outline = part_outline(part);
    polygon.hatch = Hatch::metal;
    drawing.polygons.push_back(std::move(polygon));
  }
}

struct Span {
  double low;
  double high;
};

// What is left of the span outside the cuts.
std::vector<Span> without(Span span, std::vector<Span> cuts) {
  std::sort(cuts.begin(), cuts.end(), [](const Span& a, const Span& b) { return a.low < b.low; });
  std::vector<Span> rest;
  for (const Span& cut : cuts) {
    if (cut.low > span.low) rest.push_back({span.low, std::min(cut.low, span.high)});
    span.low = std::max(span.low, cut.high);
    if (span.low >= span.high) return rest;
  }
  rest.push_back(span);
  return rest;
}

std::vector<Span> vertical_joint(const Panel& panel, double x, Span span) {
  std::vector<Span> cuts;
  for (const Opening& opening : panel.openings) {
    if (x > opening.x_min_m && x < opening.x_max_m) cuts.push_back({opening.z_min_m, opening.z_max_m});
  }
  return without(span, std::move(cuts));
}

std::vector<Span> horizontal_joint(const Panel& panel, double z, Span span) {
  std::vector<Span> cuts;
  for (const Opening& opening : panel.openings) {
    if (z > opening.z_min_m && z < opening.z_max_m) cuts.push_back({opening.x_min_m, opening.x_max_m});
  }
  return without(span, std::move(cuts));
}

// Joints inside the panel; the edges of the panel itself are no joints, and none crosses an opening.
void add_sheet_joints(Drawing& drawing, const Panel& panel) {
  constexpr double kJointMetres = 0.006;
  const auto key = [](double length_m) { return std::lround(length_m * 500.0); };
  std::set<std::tuple<long, long, long, long>> drawn;
  const auto add = [&](Vec2 from, Vec2 to) {
    if (drawn.emplace(key(from.x), key(from.y), key(to.x), key(to.y)).second)
      drawing.lines.push_back({from, to, LineStyle::dashed});
  };
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::sheet || !part.bounds) continue;
    const Vec3& low = part.bounds->min;
    const Vec3& high = part.bounds->max;
    for (const double x : {low.x, high.x}) {
      if (x <= kJointMetres || x >= panel.width_m.value - kJointMetres) continue;
      for (const Span& span : vertical_joint(panel, x, {low.z, high.z})) add({x, span.low}, {x, span.high});
    }
    for (const double z : {low.z, high.z}) {
      if (z <= kJointMetres || z >= panel.height_m.value - kJointMetres) continue;
      for (const Span& span : horizontal_joint(panel, z, {low.x, high.x})) add({span.low, z}, {span.high, z});
    }
  }
}

void add_openings(Drawing& drawing, const Panel& panel) {
  for (const Opening& opening : panel.openings) {
    DrawnPolygon polygon;
    polygon.outline = rectangle(opening.x_min_m, opening.z_min_m, opening.x_max_m, opening.z_max_m);
    polygon.hatch = opening.filling_entity == "IfcWindow" ? Hatch::glass : Hatch::none;
    polygon.label = !opening.filling_name.empty() ? opening.filling_name : opening.name;
    drawing.polygons.push_back(std::move(polygon));
  }
}

// Cuts `edges` down to those far enough apart to be dimensioned one by one.
std::vector<double> readable_edges(std::vector<double> edges, double least_m) {
  std::sort(edges.begin(), edges.end());
  std::vector<double> kept;
  for (const double edge : edges) {
    if (kept.empty() || edge - kept.back() >= least_m) kept.push_back(edge);
  }
  if (kept.size() > 1) kept.back() = edges.back();
  return kept;
}

// Cuts `edges` down to those whose dimensions can be read in one line: a figure may be somewhat wider than what it
// measures, as long as it keeps clear of its neighbours.
std::vector<double> chain_edges(std::vector<double> edges, double point_m) {
  constexpr double kNarrowestDimension = 12.0;  // points
  constexpr double kHalfDigit = 2.3;
  constexpr double kGap = 2.0;
  std::sort(edges.begin(), edges.end());
  std::vector<double> kept;
  std::vector<double> figure_ends;  // of the figure before each kept edge
  const auto fits_behind = [&](double edge) {
    const double length_m = edge - kept.back();
    if (length_m < kNarrowestDimension * point_m) return false;
    const double half_m = static_cast<double>(format_millimetres(length_m).size()) * kHalfDigit * point_m;
    const double middle = kept.back() + length_m / 2.0;
    if (kept.size() > 1 && middle - half_m < figure_ends.back() + kGap * point_m) return false;
    kept.push_back(edge);
    figure_ends.push_back(middle + half_m);
    return true;
  };
  for (const double edge : edges) {
    if (kept.empty()) {
      kept.push_back(edge);
      figure_ends.push_back(edge);
    } else if (edge < edges.back()) {
      fits_behind(edge);
    }
  }
  while (!kept.empty() && edges.back() > kept.back() && !fits_behind(edges.back()) && kept.size() > 1) {
    kept.pop_back();
    figure_ends.pop_back();
  }
  return kept;
}

void add_horizontal_chain(Drawing& drawing, const std::vector<double>& edges, double offset_m) {
  for (std::size_t i = 0; i + 1 < edges.size(); ++i)
    drawing.dimensions.push_back({{edges[i], 0.0}, {edges[i + 1], 0.0}, -offset_m, ""});
}

void add_vertical_chain(Drawing& drawing, const std::vector<double>& edges, double offset_m) {
  for (std::size_t i = 0; i + 1 < edges.size(); ++i)
    drawing.dimensions.push_back({{0.0, edges[i]}, {0.0, edges[i + 1]}, offset_m, ""});
}

constexpr double kBracketBand = 11.0;  // points that the figures of the brackets take below the elevation
constexpr double kLinesBelow = 34.0;   // that the dimension lines take
constexpr double kLiftingBand = 12.0;  // and those of the lifting points above it
constexpr double kHeightBand = 30.0;   // and the heights of the brackets at its right

std::vector<Vec3> middles_of(const Panel& panel, bool (*does)(const Part&)) {
  std::vector<Vec3> middles;
  for (const Part* part : fasteners_that(panel, does)) {
    if (!has_place(*part)) continue;
    const Vec3 middle = part->bounds->centre();
    // A place outside of the panel has no figure at its edges.
    const bool is_within =
        middle.x >= 0.0 && middle.x <= panel.width_m.value && middle.z >= 0.0 && middle.z <= panel.height_m.value;
    if (is_within) middles.push_back(middle);
  }
  return middles;
}

// Middles of the placed fixings of the lowest row of brackets, from the left edge; empty where none has a place.
std::vector<double> lowest_brackets(const Panel& panel) {
  std::map<long, std::vector<double>> rows;  // by height in cm
  for (const Vec3& middle : middles_of(panel, holds_panel)) rows[std::lround(middle.z * 100.0)].push_back(middle.x);
  return rows.empty() ? std::vector<double>() : rows.begin()->second;
}

// Heights of the rows of brackets above the foot.
std::vector<double> bracket_rows(const Panel& panel) {
  std::vector<double> heights;
  for (const Vec3& middle : middles_of(panel, holds_panel)) heights.push_back(middle.z);
  return heights;
}

std::vector<double> lifting_points(const Panel& panel) {
  std::vector<double> places;
  for (const Vec3& middle : middles_of(panel, lifts_panel)) places.push_back(middle.x);
  return places;
}

constexpr double kTickGap = 1.0;  // points between the panel and a tick
constexpr double kTickLength = 3.0;

// To the millimetre, as the words of the fixings tell them.
std::string running_figure(double place_m) {
  return std::to_string(std::lround(place_m * 1000.0));
}

// A tick beside each place and its distance from the left edge, as surveyors write it: from `tick_m` to `tick_end_m`,
// the figure at `text_m`, all above the foot.
void add_running_figures(Drawing& drawing, const std::vector<double>& places, double tick_m, double tick_end_m,
                         double text_m, double point_m) {
  constexpr double kHalfDigit = 2.3;  // points of the width of a figure in a drawing's text
  for (const double place : places) {
    const std::string text = running_figure(place);
    drawing.lines.push_back({{place, tick_m}, {place, tick_end_m}, LineStyle::normal});
    drawing.texts.push_back({{place - static_cast<double>(text.size()) * kHalfDigit * point_m, text_m}, text});
  }
}

// The same for heights above the foot, at the right of the panel.
void add_running_heights(Drawing& drawing, const std::vector<double>& heights, double width_m, double point_m) {
  constexpr double kHalfHeight = 2.8;  // points of the height of a figure
  constexpr double kTextGap = 2.0;
  const double tick_end = width_m + (kTickGap + kTickLength) * point_m;
  for (const double height : heights) {
    drawing.lines.push_back({{width_m + kTickGap * point_m, height}, {tick_end, height}, LineStyle::normal});
    drawing.texts.push_back({{tick_end + kTextGap * point_m, height - kHalfHeight * point_m}, running_figure(height)});
  }
}

void add_dimensions(Drawing& drawing, const Panel& panel, double scale) {
  const double point_m = 1.0 / points_per_metre(scale);
  constexpr double kFirst = 14.0;     // points from the panel to the first dimension line
  constexpr double kBrackets = 25.0;  // to the figures of the brackets, where there are any
  constexpr double kSecond = 28.0;    // to the second line, beside those figures kBracketBand more
  constexpr double kLifting = 6.0;    // to the figures of the lifting points
  constexpr double kLeast = 21.0;     // points that a figure needs
  constexpr double kLine = 9.0;       // points that a line of figures needs
  const double width = panel.width_m.value;
  const double height = panel.height_m.value;
  std::vector<double> across{0.0, width};
  std::vector<double> upwards{0.0, height};
  for (const Opening& opening : panel.openings) {
    across.insert(across.end(), {opening.x_min_m, opening.x_max_m});
    upwards.insert(upwards.end(), {opening.z_min_m, opening.z_max_m});
  }
  if (panel.openings.empty()) {
    for (const Part& part : panel.parts) {
      if (part.kind != PartKind::stud && part.kind != PartKind::post) continue;
      if (part.bounds) across.push_back(part.bounds->centre().x);
    }
  }
  if (across.size() > 2) add_horizontal_chain(drawing, chain_edges(across, point_m), kFirst * point_m);
  if (upwards.size() > 2) add_vertical_chain(drawing, chain_edges(upwards, point_m), kFirst * point_m);
  const std::vector<double> brackets = lowest_brackets(panel);
  add_running_figures(drawing, readable_edges(brackets, kLeast * point_m), -kTickGap * point_m,
                      -(kTickGap + kTickLength) * point_m, -kBrackets * point_m, point_m);
  add_running_figures(drawing, readable_edges(lifting_points(panel), kLeast * point_m), height + kTickGap * point_m,
                      height + (kTickGap + kTickLength) * point_m, height + kLifting * point_m, point_m);
  add_running_heights(drawing, readable_edges(bracket_rows(panel), kLine * point_m), width, point_m);
  add_horizontal_chain(drawing, {0.0, width}, (kSecond + (brackets.empty() ? 0.0 : kBracketBand)) * point_m);
  add_vertical_chain(drawing, {0.0, height}, kSecond * point_m);
}

// Above the panel, for the figures of its lifting points, and at its right, for the heights of its brackets.
double band_above(const Panel& panel) {
  return lifting_points(panel).empty() ? 0.0 : kLiftingBand;
}

double band_right(const Panel& panel) {
  return bracket_rows(panel).empty() ? 0.0 : kHeightBand;
}

double band_below(const Panel& panel) {
  return kLinesBelow + (lowest_brackets(panel).empty() ? 0.0 : kBracketBand);
}

std::string caption_of(const Panel& panel, double scale) {
  std::string text = "Elevation from inside, scale " + scale_text(scale) + ", in mm.";
  if (std::any_of(panel.parts.begin(), panel.parts.end(),
                  [](const Part& part) { return part.kind == PartKind::sheet; }))
    text += " Dashed: sheet joints.";
  if (std::any_of(panel.parts.begin(), panel.parts.end(), has_place)) text += " Close hatch: fixings.";
  std::vector<std::string> ticks;
  if (band_right(panel) > 0.0) ticks.emplace_back("brackets (below, right)");
  if (band_above(panel) > 0.0) ticks.emplace_back("lifting points (above)");
  if (!ticks.empty()) text += " Ticks: " + joined(ticks) + ".";
  const std::string missing = missing_in_elevation(panel);
  if (!missing.empty()) text += " " + missing;
  return text;
}

}  // namespace

double bands_up(const Panel& panel) {
  return band_below(panel) + band_above(panel);
}

Drawing elevation_drawing(const Panel& panel, double scale) {
  Drawing drawing;
  drawing.title = "Elevation";
  DrawnPolygon outline;
  outline.outline = rectangle(0.0, 0.0, panel.width_m.value, panel.height_m.value);
  drawing.polygons.push_back(outline);
  add_framing(drawing, panel);
  add_openings(drawing, panel);
  add_sheet_joints(drawing, panel);
  add_fixings(drawing, panel);
  const auto& corners = outline.outline;
  for (std::size_t i = 0; i < corners.size(); ++i)
    drawing.lines.push_back({corners[i], corners[(i + 1) % corners.size()], LineStyle::heavy});
  add_dimensions(drawing, panel, scale);
  return drawing;
}

double elevation_scale(const Panel& panel, const Rect& area) {
  const Rect inner{area.left + kDimensionBand, area.bottom + bands_up(panel), area.right - band_right(panel), area.top};
  return choose_scale(panel.width_m.value, panel.height_m.value, inner);
}

std::string missing_in_elevation(const Panel& panel) {
  if (panel.parts.empty()) return "The export gives no parts for this panel: framing and sheets are not drawn.";
  const auto without = std::count_if(panel.parts.begin(), panel.parts.end(),
                                     [](const Part& part) { return !part.bounds && part.kind != PartKind::fastener; });
  if (without == 0) return {};
  return std::to_string(without) + " of " + std::to_string(panel.parts.size()) +
         " parts have no geometry in the export and are not drawn.";
}

bool is_legible(double scale) {
  constexpr double kLegibleScale = 100.0;  // a stud of 45 mm is half a millimetre wide there
  return scale <= kLegibleScale;
}

double draw_elevation(Book& book, const Panel& panel, const Rect& area) {
  Rect inner = area;
  const double scale_guess = elevation_scale(panel, {area.left, area.bottom, area.right, area.top - kCaptionHeight});
  inner.top -= draw_caption(book, caption_of(panel, scale_guess), area) + 4.0;
  const double scale = std::max(scale_guess, elevation_scale(panel, inner));
  const double points = points_per_metre(scale);
  const double width = panel.width_m.value * points + kDimensionBand + band_right(panel);
  const Vec2 origin{inner.left + (inner.width() - width) / 2.0 + kDimensionBand,
                    inner.top - band_above(panel) - panel.height_m.value * points};
  const Tagged tagged(book.pdf, Tag::figure, "Elevation of panel " + panel.mark + ", seen from inside");
  paint_drawing(book.pdf, book.flow.page(), elevation_drawing(panel, scale), {origin, scale});
  return scale;
}

}  // namespace panel_dossier
