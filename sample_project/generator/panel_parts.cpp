#include "sample_project/generator/panel_parts.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "sample_project/generator/framing.h"
#include "sample_project/generator/ifc_writer.h"

namespace sample_export {

namespace {

/// Slabs of 600 mm by 1200 mm, cut 5 mm larger than their space.
constexpr double kSlabWidth_mm = 600.0;
constexpr double kSlabHeight_mm = 1195.0;
/// Offcuts below this are not worth a part.
constexpr double kSmallestPiece_mm = 5.0;
constexpr double kCableHole_mm = 20.0;
constexpr double kCableHeight_mm = 1050.0;

using Parts = std::vector<PanelPart>;

/// The face cut into cells of at most this size, from the lower left.
Rectangles cells_of(const Rectangle& face, double width, double height) {
  Rectangles cells;
  for (const double x : steps(face.x_min, face.x_max - kSmallestPiece_mm, width)) {
    for (const double z : steps(face.z_min, face.z_max - kSmallestPiece_mm, height)) {
      cells.push_back({x, std::min(x + width, face.x_max), z, std::min(z + height, face.z_max)});
    }
  }
  return cells;
}

/// What openings leave of a cell: whole bands below and above them, and what stands between them.
Rectangles bands_of(const Rectangle& cell, const Rectangles& openings) {
  Rectangle middle{cell.x_min, cell.x_max, cell.z_max, cell.z_min};
  for (const Rectangle& opening : openings) {
    if (!overlap(cell, opening)) continue;
    middle.z_min = std::min(middle.z_min, std::max(opening.z_min, cell.z_min));
    middle.z_max = std::max(middle.z_max, std::min(opening.z_max, cell.z_max));
  }
  if (middle.z_min > middle.z_max) return {cell};
  Rectangles bands = minus(middle, openings);
  bands.push_back({cell.x_min, cell.x_max, cell.z_min, middle.z_min});
  bands.push_back({cell.x_min, cell.x_max, middle.z_max, cell.z_max});
  return bands;
}

/// Middles of the posts, then of the studs, each once.
std::vector<double> upright_centres(const Parts& parts) {
  std::vector<double> centres;
  for (const PartRole role : {PartRole::post, PartRole::stud}) {
    for (const PanelPart& part : parts) {
      const double centre = (part.box.min.x + part.box.max.x) / 2.0;
      if (part.role == role && std::find(centres.begin(), centres.end(), centre) == centres.end()) {
        centres.push_back(centre);
      }
    }
  }
  return centres;
}

/// Boards of cladding meet over a batten, so over an upright: each as wide as the next ones allow.
Rectangles cladding_cells(const Rectangle& face, const Parts& parts) {
  std::vector<double> uprights = upright_centres(parts);
  std::sort(uprights.begin(), uprights.end());
  Rectangles cells;
  for (double left = face.x_min; left < face.x_max;) {
    double right = face.x_max;
    if (right - left > kSheetWidth_mm) {
      right = left + kSheetWidth_mm;
      const auto beyond = std::upper_bound(uprights.begin(), uprights.end(), right);
      if (beyond != uprights.begin() && *std::prev(beyond) > left) right = *std::prev(beyond);
    }
    for (const Rectangle& cell : cells_of({left, right, face.z_min, face.z_max}, right - left, kSheetHeight_mm)) {
      cells.push_back(cell);
    }
    left = right;
  }
  return cells;
}

void add_boards(const PlacedPanel& panel, const LayerSpec& layer, double y_min, PartRole role, Parts& parts) {
  const Rectangles cells = role == PartRole::cladding ? cladding_cells(panel.face(), parts)
                                                      : cells_of(panel.face(), kSheetWidth_mm, kSheetHeight_mm);
  for (const Rectangle& cell : cells) {
    const Outline outline = cut_outline(cell, panel.opening_faces());
    if (!outline.empty()) {
      const Box box = box_of(cell, y_min, y_min + layer.thickness_mm);
      parts.push_back({role, std::string(layer.name), layer.material_key, box, Axis::y, outline});
      continue;
    }
    for (const Rectangle& piece : bands_of(cell, panel.opening_faces())) {
      if (piece.width() < kSmallestPiece_mm || piece.height() < kSmallestPiece_mm) continue;
      parts.push_back({role, std::string(layer.name), layer.material_key,
                       box_of(piece, y_min, y_min + layer.thickness_mm), Axis::y});
    }
  }
}

void add_membrane(const PlacedPanel& panel, const LayerSpec& layer, double y_min, Parts& parts) {
  for (const Rectangle& piece : minus(panel.face(), panel.opening_faces())) {
    parts.push_back({PartRole::membrane, std::string(layer.name), layer.material_key,
                     box_of(piece, y_min, y_min + layer.thickness_mm), Axis::y});
  }
}

/// Side of an upright batten whose foot is cut at 45°, its outer edge the lower, so that water drips off.
Outline bevelled_foot(const Box& box) {
  return {{box.min.y, box.min.z + box.depth()}, {box.max.y, box.min.z}, {box.max.y, box.max.z}, {box.min.y, box.max.z}};
}

/// Over the studs; in the cavity over every upright that there is, for posts stand at the sides of openings and module
/// studs near them are left out.
std::vector<double> batten_centres(const PlacedPanel& panel, const LayerSpec& layer, const Parts& parts) {
  return layer.role == LayerRole::cavity ? upright_centres(parts) : stud_centres(panel.width_mm);
}

/// The openings as they cut a batten: in the cavity one that an opening only touches ends above and below it all the
/// same, in its whole width.
Rectangles cut_outs(const PlacedPanel& panel, const LayerSpec& layer, const Rectangle& batten) {
  Rectangles openings = panel.opening_faces();
  if (layer.role != LayerRole::cavity) return openings;
  for (Rectangle& opening : openings) {
    if (opening.x_min >= batten.x_max || opening.x_max <= batten.x_min) continue;
    opening.x_min = std::min(opening.x_min, batten.x_min);
    opening.x_max = std::max(opening.x_max, batten.x_max);
  }
  return openings;
}

bool is_timber(PartRole role) {
  return role == PartRole::stud || role == PartRole::post || role == PartRole::rail || role == PartRole::lintel ||
         role == PartRole::blocking;
}

/// Whether framing stands behind at least half of the length of an upright batten, over half of its width.
bool has_backing(const Rectangle& batten, const Parts& parts) {
  double backed = 0.0;
  for (const PanelPart& part : parts) {
    if (!is_timber(part.role)) continue;
    const double across = std::min(batten.x_max, part.box.max.x) - std::max(batten.x_min, part.box.min.x);
    if (across < batten.width() / 2.0) continue;
    backed += std::max(0.0, std::min(batten.z_max, part.box.max.z) - std::max(batten.z_min, part.box.min.z));
  }
  return backed >= batten.height() / 2.0;
}

/// Upright battens, cut at openings and at floors; in the cavity with a bevelled foot, and only where framing stands
/// behind them.
void add_battens(const PlacedPanel& panel, const LayerSpec& layer, double y_min, Parts& parts) {
  Rectangles taken;
  for (const double centre : batten_centres(panel, layer, parts)) {
    const Rectangle line{centre - kStudWidth_mm / 2.0, centre + kStudWidth_mm / 2.0, 0.0, panel.height_mm};
    for (const Rectangle& whole : cells_of(line, kStudWidth_mm, kStoreyHeight_mm)) {
      for (const Rectangle& piece : minus(whole, cut_outs(panel, layer, line))) {
        if (piece.width() < kStudWidth_mm) continue;
        const Box box = box_of(piece, y_min, y_min + layer.thickness_mm);
        if (layer.role == LayerRole::cavity) {
          const auto meets = [&](const Rectangle& other) { return overlap(piece, other); };
          if (!has_backing(piece, parts) || std::any_of(taken.begin(), taken.end(), meets)) continue;
          taken.push_back(piece);
          parts.push_back({PartRole::batten, "Batten", "softwood", box, Axis::x, bevelled_foot(box)});
        } else {
          parts.push_back({PartRole::batten, "Batten", "softwood", box, Axis::z});
        }
      }
    }
  }
}

Rectangles shadows(const Parts& parts) {
  Rectangles faces;
  for (const PanelPart& part : parts) {
    faces.push_back({part.box.min.x, part.box.max.x, part.box.min.z, part.box.max.z});
  }
  return faces;
}

/// Between lintels, where the face is wider than a slab, it is shared equally.
void add_slabs(const Rectangle& face, std::string_view material, double y_min, double y_max, Parts& parts) {
  const double width = face.width() / std::ceil(face.width() / kSlabWidth_mm);
  for (const Rectangle& piece : cells_of(face, width, kSlabHeight_mm)) {
    parts.push_back({PartRole::insulation, "Insulation slab", material, box_of(piece, y_min, y_max), Axis::y});
  }
}

void add_insulation(const PlacedPanel& panel, const LayerSpec& layer, double y_min, const Parts& frame, Parts& parts) {
  Rectangles taken = shadows(frame);
  for (const Rectangle& opening : panel.opening_faces()) taken.push_back(opening);
  for (const Rectangle& gap : free_strips(panel.face(), taken, kSmallestPiece_mm)) {
    add_slabs(gap, layer.material_key, y_min, y_min + layer.thickness_mm, parts);
  }
  for (const PanelPart& part : frame) {
    if (part.role != PartRole::lintel || part.box.min.y > y_min) continue;
    const Rectangle face{part.box.min.x, part.box.max.x, part.box.min.z, part.box.max.z};
    add_slabs(face, layer.material_key, y_min + kStudWidth_mm, y_min + layer.thickness_mm - kStudWidth_mm, parts);
  }
}

/// A cable to the outside crosses the studs of a panel with a door, through a hole in the middle of each but the edge
/// studs.
void drill_studs(const PlacedPanel& panel, Parts& frame) {
  for (PanelPart& part : frame) {
    const bool at_edge = part.box.min.x == 0.0 || part.box.max.x == panel.width_mm;
    const bool crossed = part.box.min.z < kCableHeight_mm && part.box.max.z > kCableHeight_mm;
    if (part.role != PartRole::stud || at_edge || !crossed) continue;
    part.holes = mm_text(kCableHole_mm) + "@" + mm_text(kCableHeight_mm - part.box.min.z);
  }
}

void add_cassette(const PlacedPanel& panel, const LayerSpec& layer, double y_min, Parts& parts) {
  Parts frame = frame_parts(panel, y_min, y_min + layer.thickness_mm);
  if (!panel.type->filling_key.empty() && filling_type(panel.type->filling_key).is_door) drill_studs(panel, frame);
  parts.insert(parts.end(), frame.begin(), frame.end());
  add_insulation(panel, layer, y_min, frame, parts);
}

void add_layer(const PlacedPanel& panel, const LayerSpec& layer, double y_min, Parts& parts) {
  switch (layer.role) {
    case LayerRole::lining:
    case LayerRole::inner_sheathing:
    case LayerRole::outer_sheathing: return add_boards(panel, layer, y_min, PartRole::sheet, parts);
    case LayerRole::cladding: return add_boards(panel, layer, y_min, PartRole::cladding, parts);
    case LayerRole::vapour_control:
    case LayerRole::breather: return add_membrane(panel, layer, y_min, parts);
    case LayerRole::service_void:
    case LayerRole::cavity: return add_battens(panel, layer, y_min, parts);
    case LayerRole::cassette: return add_cassette(panel, layer, y_min, parts);
  }
}

/// "Stud" becomes "Stud 01", "Stud 02", … within the panel.
void number_names(Parts& parts) {
  std::vector<std::pair<std::string, int>> counts;
  for (PanelPart& part : parts) {
    auto found = std::find_if(counts.begin(), counts.end(), [&](const auto& c) { return c.first == part.name; });
    if (found == counts.end()) found = counts.insert(counts.end(), {part.name, 0});
    const int number = ++found->second;
    part.name += (number < 10 ? " 0" : " ") + std::to_string(number);
  }
}

}  // namespace

PanelContent panel_content(const PlacedPanel& panel) {
  PanelContent content;
  double y = 0.0;
  for (const LayerSpec& layer : panel.type->layers) {
    add_layer(panel, layer, y, content.parts);
    y += layer.thickness_mm;
  }
  content.fasteners = fasteners(panel, content.parts);
  number_names(content.parts);
  return content;
}

}  // namespace sample_export
