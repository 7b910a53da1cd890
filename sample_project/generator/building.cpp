#include "sample_project/generator/building.h"

#include "sample_project/generator/elevations.h"

namespace sample_export {

namespace {

/// Clear distance between the wings of a project that is scaled up.
constexpr double kWingPitch_mm = 40000.0;

std::string two_digits(std::size_t number) {
  return (number < 10 ? "0" : "") + std::to_string(number);
}

/// S1-03: elevation, storey, place from the left seen from inside; W2-S1-03 in the second wing.
std::string mark_of(const Elevation& elevation, std::size_t wing, std::size_t storey, std::size_t slot) {
  std::string mark = elevation.name.substr(0, 1) + std::to_string(storey) + "-" + two_digits(slot + 1);
  return wing == 0 ? mark : "W" + std::to_string(wing + 1) + "-" + mark;
}

/// Fillings stand in the middle of equal shares of the width, and once a storey in a panel over several storeys.
std::vector<PlacedOpening> place_openings(const PlacedPanel& panel) {
  std::vector<PlacedOpening> openings;
  if (panel.type->filling_key.empty()) return openings;
  const FillingSpec& filling = filling_type(panel.type->filling_key);
  const double share = panel.width_mm / panel.type->fillings_per_storey;
  for (const double foot : steps(0.0, panel.height_mm - kStoreyHeight_mm / 2.0, kStoreyHeight_mm)) {
    for (int i = 0; i < panel.type->fillings_per_storey; ++i) {
      const double left = share * (i + 0.5) - filling.width_mm / 2.0;
      const double sill = foot + filling.sill_mm;
      openings.push_back({{left, left + filling.width_mm, sill, sill + filling.height_mm}, &filling});
    }
  }
  return openings;
}

/// Outer faces are flush, so a thinner panel leaves more room inside.
Point inner_corner(const Elevation& elevation, double along_mm, double thickness_mm) {
  const Point& x = elevation.direction;
  const Point outward{-x.y, x.x, 0.0};
  return {elevation.outer_start.x + x.x * along_mm - outward.x * thickness_mm,
          elevation.outer_start.y + x.y * along_mm - outward.y * thickness_mm, 0.0};
}

PlacedPanel place(const Elevation& elevation, std::size_t wing, std::size_t storey, std::size_t slot) {
  const Slot& place = elevation.slots[slot];
  PlacedPanel panel;
  panel.mark = mark_of(elevation, wing, storey, slot);
  panel.type = &panel_type(elevation.type_keys[storey][slot]);
  panel.elevation = elevation.name;
  panel.wing = wing;
  panel.storey = storey;
  panel.direction = elevation.direction;
  panel.origin = inner_corner(elevation, place.from_mm, panel.type->thickness_mm());
  panel.origin.x += static_cast<double>(wing) * kWingPitch_mm;
  panel.origin.z = storeys()[storey].elevation_mm;
  panel.width_mm = place.width_mm;
  panel.height_mm = panel.type->spans_storeys() ? kFeaturePanelHeight_mm : elevation.panel_height_mm;
  panel.openings = place_openings(panel);
  return panel;
}

std::vector<PlacedPanel> place_wing(std::size_t wing) {
  std::vector<PlacedPanel> panels;
  for (std::size_t storey = 0; storey < kStoreys; ++storey) {
    for (const Elevation& elevation : elevations()) {
      for (std::size_t slot = 0; slot < elevation.slots.size(); ++slot) {
        if (!elevation.type_keys[storey][slot].empty()) panels.push_back(place(elevation, wing, storey, slot));
      }
    }
  }
  return panels;
}

}  // namespace

Rectangles PlacedPanel::opening_faces() const {
  Rectangles faces;
  for (const PlacedOpening& opening : openings) faces.push_back(opening.face);
  return faces;
}

const std::vector<Storey>& storeys() {
  static const std::vector<Storey> table = {
      {"Ground floor", 0.0}, {"First floor", kStoreyHeight_mm}, {"Second floor", 2.0 * kStoreyHeight_mm}};
  return table;
}

std::size_t panels_per_wing() {
  return place_wing(0).size();
}

std::vector<PlacedPanel> place_panels(std::size_t count) {
  std::vector<PlacedPanel> panels;
  for (std::size_t wing = 0; panels.size() < count; ++wing) {
    for (PlacedPanel& panel : place_wing(wing)) {
      if (panels.size() == count) break;
      panel.erection_order = static_cast<int>(panels.size()) + 1;
      panels.push_back(std::move(panel));
    }
  }
  return panels;
}

}  // namespace sample_export
