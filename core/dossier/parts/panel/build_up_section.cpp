#include "core/dossier/parts/panel/build_up_section.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <limits>
#include <string_view>
#include <utility>

#include "core/api/support/geometry.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/panel/drawing_caption.h"

namespace panel_dossier {

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

constexpr TextStyle kDrawingLabel{Face::regular, 8.0, 9.6, kInk};

void draw_labels(Book& book, const BuildUpSection& section, const DrawingFrame& frame, const Rect& area) {
  const double right_edge = frame.on_page({section.length_m, 0.0}).x;
  std::vector<std::vector<std::string>> texts;
  std::vector<double> wanted;
  std::vector<double> heights;
  for (const LayerLabel& label : section.labels) {
    texts.push_back(wrapped_lines(book.pdf, label.text, kDrawingLabel, area.width()));
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

void draw_build_up(Book& book, const Panel& panel, const Rect& area) {
  constexpr double kLabelShare = 0.54;
  constexpr double kShownLengthMetres = 0.7;
  constexpr double kSideText = 14.0;
  Rect inner = area;
  inner.right = area.left + area.width() * (1.0 - kLabelShare);
  inner.top -= kCaptionHeight;
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
  draw_caption(book, text, area);
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

}  // namespace panel_dossier
