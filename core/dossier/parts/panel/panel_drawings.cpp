#include "core/dossier/parts/panel/panel_drawings.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <set>
#include <string_view>
#include <utility>

#include "core/api/support/geometry.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/text_layout.h"

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

// A fixing that the export gives a place, such as a lifting point or a bracket. A larger box is that of many, such as
// the screws of a sheet.
bool has_place(const Part& part) {
  constexpr double kLargest = 0.5;
  return part.kind == PartKind::fastener && part.bounds && part.bounds->max.x - part.bounds->min.x < kLargest &&
         part.bounds->max.z - part.bounds->min.z < kLargest;
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

void add_horizontal_chain(Drawing& drawing, const std::vector<double>& edges, double offset_m) {
  for (std::size_t i = 0; i + 1 < edges.size(); ++i)
    drawing.dimensions.push_back({{edges[i], 0.0}, {edges[i + 1], 0.0}, -offset_m, ""});
}

void add_vertical_chain(Drawing& drawing, const std::vector<double>& edges, double offset_m) {
  for (std::size_t i = 0; i + 1 < edges.size(); ++i)
    drawing.dimensions.push_back({{0.0, edges[i]}, {0.0, edges[i + 1]}, offset_m, ""});
}

void add_dimensions(Drawing& drawing, const Panel& panel, double scale) {
  const double point_m = 1.0 / points_per_metre(scale);
  constexpr double kFirst = 13.0;   // points from the panel to the first dimension line
  constexpr double kSecond = 27.0;  // and to the second
  constexpr double kLeast = 17.0;   // points that a figure needs
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
  if (across.size() > 2) add_horizontal_chain(drawing, readable_edges(across, kLeast * point_m), kFirst * point_m);
  if (upwards.size() > 2) add_vertical_chain(drawing, readable_edges(upwards, kLeast * point_m), kFirst * point_m);
  add_horizontal_chain(drawing, {0.0, width}, kSecond * point_m);
  add_vertical_chain(drawing, {0.0, height}, kSecond * point_m);
}

}  // namespace

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
  const Rect inner{area.left + kDimensionBand, area.bottom + kDimensionBand, area.right, area.top};
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

namespace {

bool crosses(const Box3& box, double height_m) {
  return box.min.z <= height_m && height_m <= box.max.z;
}

bool in_opening(const Panel& panel, double height_m) {
  return std::any_of(panel.openings.begin(), panel.openings.end(), [height_m](const Opening& opening) {
    return opening.z_min_m <= height_m && height_m <= opening.z_max_m;
  });
}

bool is_upright(PartKind kind) {
  return kind == PartKind::stud || kind == PartKind::post;
}

// Counts the members of one orientation that the height meets; those across are cut along their grain and hide the
// layers.
long members_met(const Panel& panel, double height_m, bool upright) {
  return std::count_if(panel.parts.begin(), panel.parts.end(), [height_m, upright](const Part& part) {
    if (!part.bounds || !is_framing(part.kind) || part.kind == PartKind::batten) return false;
    return is_upright(part.kind) == upright && crosses(*part.bounds, height_m);
  });
}

// The height among a few that meets most upright framing, no rail, lintel or blocking and no opening; those only when
// every height meets one.
double cut_height(const Panel& panel) {
  constexpr std::array<double, 11> kShares{0.5, 0.45, 0.55, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9};
  double best = 0.5 * panel.height_m.value;
  long most = std::numeric_limits<long>::min();
  for (const double share : kShares) {
    const double height = share * panel.height_m.value;
    const auto all = static_cast<long>(panel.parts.size()) + 1;
    long met = members_met(panel, height, true) - all * members_met(panel, height, false);
    if (in_opening(panel, height)) met -= all;
    if (met > most) {
      most = met;
      best = height;
    }
  }
  return best;
}

Hatch layer_hatch(const Layer& layer, const Project& project) {
  const Material* material = material_at(project, layer.material);
  if (material == nullptr) return Hatch::air;
  return hatch_for_material(layer.category + " " + material->category, layer.name + " " + material->name);
}

std::string layer_text(const Layer& layer, const Project& project) {
  const Material* material = material_at(project, layer.material);
  std::string text = format_millimetres(layer.thickness_m.value) + " mm ";
  if (material != nullptr) {
    text += material->name;
  } else {
    text += layer.name.empty() ? "air layer" : "air layer (" + layer.name + ")";
  }
  if (layer.is_ventilated.value_or(false)) text += ", ventilated";
  return text;
}

void add_layers(BuildUpSection& section, const Panel& panel, const Project& project) {
  for (const Layer& layer : panel.layers) {
    DrawnPolygon polygon;
    polygon.outline = rectangle(0.0, layer.y_inside_m, section.length_m, layer.y_outside_m);
    polygon.hatch = layer_hatch(layer, project);
    polygon.style = LineStyle::thin;
    section.drawing.polygons.push_back(std::move(polygon));
    section.labels.push_back({(layer.y_inside_m + layer.y_outside_m) / 2.0, layer_text(layer, project)});
  }
}

// Framing over the layers it passes through: each piece with the diagonals that mark cut timber.
void add_framing(BuildUpSection& section, const Panel& panel) {
  for (const Part& part : panel.parts) {
    if (!part.bounds || !is_framing(part.kind) || !crosses(*part.bounds, section.cut_height_m)) continue;
    const double left = std::max(0.0, part.bounds->min.x);
    const double right = std::min(section.length_m, part.bounds->max.x);
    if (right <= left) continue;
    const double low = part.bounds->min.y;
    const double high = part.bounds->max.y;
    DrawnPolygon polygon;
    polygon.outline = rectangle(left, low, right, high);
    polygon.style = LineStyle::heavy;
    section.drawing.polygons.push_back(std::move(polygon));
    const bool whole = part.bounds->max.x <= section.length_m + 1e-9;
    section.drawing.lines.push_back({{left, low}, {right, high}, LineStyle::thin});
    if (whole) section.drawing.lines.push_back({{left, high}, {right, low}, LineStyle::thin});
  }
}

}  // namespace

Hatch hatch_for_material(const std::string& category, const std::string& name) {
  const std::string words = lower_case(category + " " + name);
  const auto any = [&words](std::initializer_list<std::string_view> keys) {
    return std::any_of(keys.begin(), keys.end(),
                       [&words](std::string_view key) { return words.find(key) != std::string::npos; });
  };
  if (any({"membrane", "vapour", "vapor", "breather", "foil", "film"})) return Hatch::membrane;
  if (any({"insulation", "wool", "cellulose", "foam"})) return Hatch::insulation;
  if (any({"gypsum", "board", "osb", "plywood", "sheet", "particle", "fibre cement"})) return Hatch::board;
  if (any({"masonry", "brick", "concrete", "stone", "render", "ceramic"})) return Hatch::masonry;
  if (any({"glass"})) return Hatch::glass;
  if (any({"metal", "steel", "aluminium", "zinc", "copper"})) return Hatch::metal;
  if (any({"air", "cavity", "void"})) return Hatch::air;
  if (any({"wood", "timber", "softwood", "hardwood", "larch", "spruce"})) return Hatch::timber;
  return Hatch::none;
}

BuildUpSection build_up_section(const Panel& panel, const Project& project, double length_m) {
  BuildUpSection section;
  section.drawing.title = "Build-up";
  section.length_m = std::min(length_m, panel.width_m.value);
  section.cut_height_m = cut_height(panel);
  add_layers(section, panel, project);
  add_framing(section, panel);
  const double thickness = panel.thickness_m.value;
  const double low = panel.layers.empty() ? 0.0 : panel.layers.front().y_inside_m;
  const double high = panel.layers.empty() ? thickness : panel.layers.back().y_outside_m;
  section.drawing.lines.push_back({{0.0, low}, {section.length_m, low}, LineStyle::normal});
  section.drawing.lines.push_back({{0.0, high}, {section.length_m, high}, LineStyle::normal});
  section.drawing.lines.push_back({{0.0, low}, {0.0, high}, LineStyle::normal});
  const LineStyle right_edge = section.length_m < panel.width_m.value ? LineStyle::centre : LineStyle::normal;
  section.drawing.lines.push_back({{section.length_m, low}, {section.length_m, high}, right_edge});
  return section;
}

namespace {

constexpr TextStyle kDrawingCaption{Face::regular, 8.0, 9.6, kMidGrey};
constexpr TextStyle kDrawingLabel{Face::regular, 8.0, 9.6, kInk};
constexpr double kCaptionHeight = 22.0;

std::vector<std::string> wrapped(const PdfDocument& pdf, std::string_view text, const TextStyle& style, double width) {
  return wrap(text, width, [&](std::string_view piece) { return pdf.text_width(piece, style.face, style.size); });
}

double caption(Book& book, const std::string& text, const Rect& area) {
  const Tagged tagged(book.pdf, Tag::paragraph);
  double y = area.top;
  for (const std::string& line : wrapped(book.pdf, text, kDrawingCaption, area.width())) {
    y -= kDrawingCaption.leading;
    book.pdf.text(book.flow.page(), {area.left, y}, line, kDrawingCaption);
  }
  return area.top - y;
}

double draw_elevation(Book& book, const Panel& panel, const Rect& area) {
  Rect inner = area;
  const double scale_guess = elevation_scale(panel, {area.left, area.bottom, area.right, area.top - kCaptionHeight});
  std::string text = "Elevation, seen from inside, scale " + scale_text(scale_guess) + ". Dimensions in mm.";
  if (std::any_of(panel.parts.begin(), panel.parts.end(),
                  [](const Part& part) { return part.kind == PartKind::sheet; }))
    text += " Dashed: sheet joints.";
  if (std::any_of(panel.parts.begin(), panel.parts.end(), has_place))
    text += " Closely hatched: lifting points and fixings whose place is known.";
  const std::string missing = missing_in_elevation(panel);
  if (!missing.empty()) text += " " + missing;
  inner.top -= caption(book, text, area) + 4.0;
  const double scale = std::max(scale_guess, elevation_scale(panel, inner));
  const double points = points_per_metre(scale);
  const double width = panel.width_m.value * points + kDimensionBand;
  const double height = panel.height_m.value * points + kDimensionBand;
  const Vec2 origin{inner.left + (inner.width() - width) / 2.0 + kDimensionBand, inner.top - height + kDimensionBand};
  const Tagged tagged(book.pdf, Tag::figure, "Elevation of panel " + panel.mark + ", seen from inside");
  paint_drawing(book.pdf, book.flow.page(), elevation_drawing(panel, scale), {origin, scale});
  return scale;
}

void draw_labels(Book& book, const BuildUpSection& section, const DrawingFrame& frame, const Rect& area) {
  const double right_edge = frame.on_page({section.length_m, 0.0}).x;
  std::vector<std::vector<std::string>> texts;
  std::vector<double> wanted;
  std::vector<double> heights;
  for (const LayerLabel& label : section.labels) {
    texts.push_back(wrapped(book.pdf, label.text, kDrawingLabel, area.width()));
    wanted.push_back(frame.on_page({0.0, label.y_m}).y);
    heights.push_back(static_cast<double>(texts.back().size()) * kDrawingLabel.leading + 1.5);
  }
  const auto centres = spread_labels(wanted, heights, area.bottom, area.top);
  const std::size_t page = book.flow.page();
  for (std::size_t i = 0; i < texts.size(); ++i) {
    book.pdf.polyline(page,
                      {{right_edge - 5.0, wanted[i]}, {right_edge + 4.0, wanted[i]}, {area.left - 3.0, centres[i]}},
                      {0.3, kMidGrey, 0, 0});
    double y = centres[i] + (heights[i] - 1.5) / 2.0;
    for (const std::string& line : texts[i]) {
      y -= kDrawingLabel.leading;
      book.pdf.text(page, {area.left, y + 2.0}, line, kDrawingLabel);
    }
  }
}

void draw_build_up(Book& book, const Panel& panel, const Rect& area) {
  constexpr double kLabelShare = 0.54;
  constexpr double kShownLengthMetres = 0.7;
  constexpr double kSideText = 14.0;
  Rect inner = area;
  inner.right = area.left + area.width() * (1.0 - kLabelShare);
  inner.top -= 2.0 * kCaptionHeight;
  const Rect clear{inner.left, inner.bottom + kSideText, inner.right, inner.top - kSideText};
  const double thickness =
      panel.layers.empty()
          ? panel.thickness_m.value
          : std::max(panel.thickness_m.value, panel.layers.back().y_outside_m - panel.layers.front().y_inside_m);
  const double scale = choose_scale(std::min(kShownLengthMetres, panel.width_m.value), thickness, clear);
  const BuildUpSection section =
      build_up_section(panel, book.project(), std::floor(clear.width() / points_per_metre(scale) * 20.0) / 20.0);
  std::string text = "Horizontal section " + format_millimetres(section.cut_height_m) + " mm above the foot, scale " +
                     scale_text(scale) + ", the left " + format_millimetres(section.length_m) + " mm of " +
                     format_millimetres(panel.width_m.value) + " mm.";
  if (panel.layers.empty())
    text += panel.outside_known ? " The export gives no layers for this panel."
                                : " Layers are not drawn: the export does not tell which face is outside.";
  caption(book, text, area);
  const double middle = (clear.bottom + clear.top) / 2.0;
  const DrawingFrame frame{{clear.left, middle - thickness * points_per_metre(scale) / 2.0}, scale};
  const std::size_t page = book.flow.page();
  const Tagged tagged(book.pdf, Tag::figure, "Horizontal section of panel " + panel.mark + " with its layers");
  paint_drawing(book.pdf, page, section.drawing, frame);
  const bool known = panel.outside_known;
  const double top = frame.on_page({0.0, thickness}).y;
  book.pdf.text(page, {clear.left, top + 4.0}, known ? "outside" : "one face", kDrawingCaption);
  book.pdf.text(page, {clear.left, frame.origin.y - 9.0}, known ? "inside" : "other face", kDrawingCaption);
  draw_labels(book, section, frame, {inner.right + 16.0, area.bottom, area.right, inner.top});
}

}  // namespace

std::vector<double> spread_labels(const std::vector<double>& wanted, const std::vector<double>& heights, double low,
                                  double high) {
  std::vector<double> centres(wanted);
  double floor_y = low;
  for (std::size_t i = 0; i < centres.size(); ++i) {
    centres[i] = std::max(centres[i], floor_y + heights[i] / 2.0);
    floor_y = centres[i] + heights[i] / 2.0;
  }
  double ceiling = std::max(
      high, low + [&] {
        double sum = 0.0;
        for (const double height : heights) sum += height;
        return sum;
      }());
  for (std::size_t i = centres.size(); i-- > 0;) {
    centres[i] = std::min(centres[i], ceiling - heights[i] / 2.0);
    ceiling = centres[i] - heights[i] / 2.0;
  }
  return centres;
}

void write_build_up(Book& book, const Panel& panel, double height) {
  draw_build_up(book, panel, book.flow.take(height));
}

double write_panel_drawings(Book& book, const Panel& panel, double height) {
  constexpr double kTallShare = 0.52;
  // Beside a tall elevation: room for the names of the layers.
  constexpr double kSectionHeight = 225.0;
  constexpr double kHighestSection = 330.0;
  const double build_up_height = std::min(165.0, 0.42 * height);
  const double split = grid::kWidth * kTallShare;
  const double beside_scale = elevation_scale(panel, {0.0, 0.0, split, height - kCaptionHeight});
  const double above_scale =
      elevation_scale(panel, {0.0, 0.0, grid::kWidth, height - build_up_height - kCaptionHeight});
  const bool slender = panel.height_m.value > 3.0 * panel.width_m.value;
  const bool tall = beside_scale < above_scale || (beside_scale == above_scale && slender);
  const double drawn = panel.height_m.value * points_per_metre(tall ? beside_scale : above_scale) + kDimensionBand +
                       2.0 * kCaptionHeight;
  const double used = std::min(height, tall ? std::max(drawn, kSectionHeight) : drawn + build_up_height);
  const Rect area = book.flow.take(used);
  if (tall) {
    draw_build_up(book, panel,
                  {area.left + split + 20.0, std::max(area.bottom, area.top - kHighestSection), area.right, area.top});
    return draw_elevation(book, panel, {area.left, area.bottom, area.left + split, area.top});
  }
  draw_build_up(book, panel, {area.left, area.bottom, area.right, area.bottom + build_up_height});
  return draw_elevation(book, panel, {area.left, area.bottom + build_up_height, area.right, area.top});
}

bool is_legible(double scale) {
  constexpr double kLegibleScale = 100.0;  // a stud of 45 mm is half a millimetre wide there
  return scale <= kLegibleScale;
}

void write_large_elevation(Book& book, const Panel& panel) {
  const double left = book.flow.room();
  draw_elevation(book, panel, book.flow.take(left));
}

}  // namespace panel_dossier
