#include "sample_project/generator/fasteners.h"

#include <cmath>

#include "sample_project/generator/framing.h"

namespace sample_export {

namespace {

constexpr double kEdgeSpacing_mm = 150.0;
/// Frame brackets along the head and along the sole.
constexpr double kBracketSpacing_mm = 900.0;

/// Distances through the panel between the faces of the layer with this role.
Box layer_zone(const PlacedPanel& panel, LayerRole role) {
  double y = 0.0;
  for (const LayerSpec& layer : panel.type->layers) {
    if (layer.role == role) return box_of(panel.face(), y, y + layer.thickness_mm);
    y += layer.thickness_mm;
  }
  return box_of(panel.face(), 0.0, y);
}

/// At the edge spacing round each piece and at twice the edge spacing along its middle.
int screws_of(const PanelPart& sheet) {
  const double edges = 2.0 * (sheet.box.width() + sheet.box.height());
  return static_cast<int>(std::ceil(edges / kEdgeSpacing_mm + sheet.box.height() / (2.0 * kEdgeSpacing_mm)));
}

FastenerGroup screws(const PlacedPanel& panel, const std::vector<PanelPart>& parts, LayerRole role,
                     const std::string& name, double length_mm, double mass_each_kg) {
  const Box zone = layer_zone(panel, role);
  int count = 0;
  for (const PanelPart& part : parts) {
    if (part.axis == Axis::y && part.box.min.y == zone.min.y && part.box.max.y == zone.max.y) count += screws_of(part);
  }
  return {name,
          "screw",
          {},
          "Sheathing screw 4.2 x " + std::to_string(static_cast<int>(length_mm)),
          4.2,
          length_mm,
          kEdgeSpacing_mm,
          count,
          mass_each_kg,
          zone};
}

/// Hung on the studs nearest the quarter points, so that the panel hangs level.
FastenerGroup lifting_loop(const PlacedPanel& panel, double x, const std::string& name) {
  const Box cassette = layer_zone(panel, LayerRole::cassette);
  const double middle = (cassette.min.y + cassette.max.y) / 2.0;
  const Box zone{{x - 40.0, middle - 20.0, panel.height_mm - 300.0}, {x + 40.0, middle + 20.0, panel.height_mm}};
  return {name, "userdefined", "LIFTING LOOP", "Lifting loop, working load limit 10 kN", 12.0, 300.0, 0.0, 1,
          0.9,  zone};
}

FastenerGroup brackets(const PlacedPanel& panel) {
  const int a_row = static_cast<int>(std::ceil(panel.width_mm / kBracketSpacing_mm)) + 1;
  const int rows = 1 + static_cast<int>(std::ceil(panel.height_mm / kStoreyHeight_mm));
  return {"Frame brackets",
          "userdefined",
          "FRAME BRACKET",
          "Angle bracket 90 x 90 x 3, adjustable",
          12.0,
          90.0,
          kBracketSpacing_mm,
          a_row * rows,
          0.55,
          layer_zone(panel, LayerRole::cassette)};
}

}  // namespace

std::vector<FastenerGroup> fasteners(const PlacedPanel& panel, const std::vector<PanelPart>& parts) {
  return {screws(panel, parts, LayerRole::inner_sheathing, "Inner sheathing screws", 45.0, 0.0031),
          screws(panel, parts, LayerRole::outer_sheathing, "Outer sheathing screws", 45.0, 0.0031),
          screws(panel, parts, LayerRole::lining, "Lining screws", 35.0, 0.0022),
          lifting_loop(panel, panel.width_mm * 0.25, "Lifting loop 1"),
          lifting_loop(panel, panel.width_mm * 0.75, "Lifting loop 2"),
          brackets(panel)};
}

}  // namespace sample_export
