#include "sample_project/generator/panel_parts.h"

#include <algorithm>

#include "sample_project/generator/fasteners.h"
#include "sample_project/generator/framing.h"

namespace sample_export {

namespace {

constexpr double kSlabHeight_mm = 1200.0;
/// Offcuts below this are not worth a part.
constexpr double kSmallestPiece_mm = 5.0;

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

void add_boards(const PlacedPanel& panel, const LayerSpec& layer, double y_min, PartRole role, Parts& parts) {
  for (const Rectangle& cell : cells_of(panel.face(), kSheetWidth_mm, kSheetHeight_mm)) {
    const Outline outline = cut_outline(cell, panel.opening_faces());
    if (!outline.empty()) {
      const Box box = box_of(cell, y_min, y_min + layer.thickness_mm);
      parts.push_back({role, std::string(layer.name), layer.material_key, box, Axis::y, outline});
      continue;
    }
    for (const Rectangle& piece : minus(cell, panel.opening_faces())) {
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

/// Upright battens over the studs, cut at openings and at floors.
void add_battens(const PlacedPanel& panel, const LayerSpec& layer, double y_min, Parts& parts) {
  for (const double centre : stud_centres(panel.width_mm)) {
    const Rectangle line{centre - kStudWidth_mm / 2.0, centre + kStudWidth_mm / 2.0, 0.0, panel.height_mm};
    for (const Rectangle& whole : cells_of(line, kStudWidth_mm, kStoreyHeight_mm)) {
      for (const Rectangle& piece : minus(whole, panel.opening_faces())) {
        if (piece.width() < kStudWidth_mm) continue;
        const Box box = box_of(piece, y_min, y_min + layer.thickness_mm);
        parts.push_back({PartRole::batten, "Batten", "softwood", box, Axis::z});
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

void add_slabs(const Rectangle& face, std::string_view material, double y_min, double y_max, Parts& parts) {
  for (const double z : steps(face.z_min, face.z_max - kSmallestPiece_mm, kSlabHeight_mm)) {
    const Rectangle piece{face.x_min, face.x_max, z, std::min(z + kSlabHeight_mm, face.z_max)};
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

void add_cassette(const PlacedPanel& panel, const LayerSpec& layer, double y_min, Parts& parts) {
  const Parts frame = frame_parts(panel, y_min, y_min + layer.thickness_mm);
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
