#include "sample_project/generator/building.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace sample_export {

namespace {

constexpr double kFeaturePanelHeight_mm = 12000.0;  ///< three storeys and the parapet

/// A place for a panel along an elevation.
struct Slot {
  double from_mm;  ///< from the start of the elevation
  double width_mm;
};

/// Runs from left to right seen from inside.
struct Elevation {
  std::string name;
  Point outer_start;  ///< foot of the outer face of its panels, at the first place
  Point direction;    ///< unit vector
  double panel_height_mm;
  std::vector<Slot> slots;
  /// Type of the panel in each slot, one row a storey from the ground up; empty where no panel stands.
  std::array<std::vector<std::string_view>, kStoreys> type_keys;
};

// The concrete frame. Slab edges run round a rectangle whose south-west corner is the origin. Columns are 400 mm
// square, their outer faces flush with the slab edge at the corners, on grid lines 6 m apart; flat slabs are 275 mm
// deep.
constexpr double kLength_mm = 24000.0;
constexpr double kDepth_mm = 12000.0;

// Infill panels stand on the slab between the columns. Clear height 3325 mm, less 25 mm for tolerance and the slab's
// deflection. They reach 20 mm beyond the slab edge, so that the outer leaf can pass the slab.
constexpr double kInfillHeight_mm = 3300.0;
constexpr double kInfillProjection_mm = 20.0;

// Oversail panels, 344.2 mm thick, hang outside the slab edge, 20 mm clear of it, and meet with 10 mm joints at every
// floor.
constexpr double kOversailHeight_mm = 3590.0;
constexpr double kOversailProjection_mm = 20.0 + 344.2;

/// Two panels with 10 mm joints between the columns of each bay: 5400 mm clear in end bays, 5600 mm in the others.
constexpr double kJoint_mm = 10.0;

std::vector<Slot> infill_slots(double run_mm) {
  std::vector<Slot> slots;
  for (const double grid : steps(0.0, run_mm, 6000.0)) {
    const double from = grid == 0.0 ? 400.0 : grid + 200.0;
    const double to = grid + 6000.0 >= run_mm ? run_mm - 400.0 : grid + 5800.0;
    const double width = (to - from - 3.0 * kJoint_mm) / 2.0;
    slots.push_back({from + kJoint_mm, width});
    slots.push_back({from + 2.0 * kJoint_mm + width, width});
  }
  return slots;
}

std::vector<Slot> oversail_slots(const std::vector<double>& widths_mm, double joint_mm) {
  std::vector<Slot> slots;
  double from = 0.0;
  for (const double width : widths_mm) {
    slots.push_back({from, width});
    from += width + joint_mm;
  }
  return slots;
}

Elevation south() {
  return {"South",
          {kLength_mm, -kInfillProjection_mm, 0.0},
          {-1.0, 0.0, 0.0},
          kInfillHeight_mm,
          infill_slots(kLength_mm),
          // The glazed entrance, by others, takes the fourth place on the ground floor.
          {{{"INF-S", "INF-W", "INF-W", "", "INF-D", "INF-W", "INF-W", "INF-S"},
            {"INF-S", "INF-W", "INF-W", "INF-W", "INF-W", "INF-W", "INF-W", "INF-S"},
            {"INF-S", "INF-W", "INF-W", "INF-W", "INF-W", "INF-W", "INF-W", "INF-S"}}}};
}

/// The roof over the east bay is a timber roof on the second-floor panels instead of a slab.
Elevation east() {
  return {"East",
          {kLength_mm + kInfillProjection_mm, kDepth_mm, 0.0},
          {0.0, -1.0, 0.0},
          kInfillHeight_mm,
          infill_slots(kDepth_mm),
          {{{"INF-W", "INF-D", "INF-S", "INF-W"},
            {"INF-W", "INF-S", "INF-R", "INF-W"},
            {"LBW-W", "LBW-S", "LBW-S", "LBW-W"}}}};
}

/// Runs past the west panels at the corner and so covers their edge.
Elevation north() {
  return {"North",
          {-365.0, kDepth_mm + kOversailProjection_mm, 0.0},
          {1.0, 0.0, 0.0},
          kOversailHeight_mm,
          oversail_slots({4350.0, 4350.0, 2400.0, 4500.0, 4350.0, 4350.0}, kJoint_mm),
          {{{"OVS-W", "OVS-W", "FEA-T", "OVS-W", "OVS-W", "OVS-S"},
            {"OVS-W", "OVS-W", "", "OVS-W", "OVS-W", "OVS-S"},
            {"OVS-W", "OVS-W", "", "OVS-W", "OVS-W", "OVS-S"}}}};
}

Elevation west() {
  return {"West",
          {-kOversailProjection_mm, 0.0, 0.0},
          {0.0, 1.0, 0.0},
          kOversailHeight_mm,
          oversail_slots({3990.0, 3990.0, 3990.0}, 15.0),
          {{{"OVS-W", "OVS-S", "OVS-W"}, {"OVS-W", "OVS-W", "OVS-S"}, {"OVS-W", "OVS-W", "OVS-S"}}}};
}

const std::vector<Elevation>& elevations() {
  static const std::vector<Elevation> table = {south(), east(), north(), west()};
  return table;
}

/// From one wing to the next of a project that is scaled up, both ways.
constexpr double kWingPitch_mm = 40000.0;
constexpr std::size_t kWingsInRow = 10;

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
  const Point corner = wing_corner(wing);
  panel.origin.x += corner.x;
  panel.origin.y += corner.y;
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
  static const std::size_t count = place_wing(0).size();
  return count;
}

Point wing_corner(std::size_t wing) {
  const std::size_t row = wing / kWingsInRow;
  const std::size_t place = wing % kWingsInRow;
  return {static_cast<double>(place) * kWingPitch_mm, static_cast<double>(row) * kWingPitch_mm, 0.0};
}

Programme programme_of(std::size_t panels) {
  // The workshop starts on 2 March and has made everything twelve weeks later, before the export of 29 May.
  constexpr int kLeastMadeADay = 3;
  constexpr int kDaysOfProduction = 60;
  constexpr int kDaysPerBatch = 4;
  // Two cranes erect some twenty panels a day, 5,000 in a year. What is usual on one site ends at ten cranes.
  constexpr int kPanelsOfTwoCranes = 5000;
  constexpr int kMostCranes = 10;
  const int count = static_cast<int>(panels);
  Programme programme;
  programme.made_a_day = std::max(kLeastMadeADay, (count + kDaysOfProduction - 1) / kDaysOfProduction);
  programme.panels_per_batch = kDaysPerBatch * programme.made_a_day;
  programme.cranes = std::min(kMostCranes, 2 * std::max(1, (count + kPanelsOfTwoCranes - 1) / kPanelsOfTwoCranes));
  // The days on which the panels of the first wing were erected are those of two cranes; where there are more, erection
  // is to come.
  const bool has_begun = programme.cranes == 2;
  programme.erected = has_begun ? static_cast<int>(panels_per_wing()) : 0;
  programme.erection_start = has_begun ? "2026-04-06" : "2026-06-08";
  return programme;
}

void Site::keep_only(std::vector<std::string> marks) {
  marks_ = std::move(marks);
}

std::size_t Site::wings() const {
  std::size_t wings = (panels_ + panels_per_wing() - 1) / panels_per_wing();
  while (!marks_.empty() && wings > 0 && panels_of(wings - 1).empty()) --wings;
  return wings;
}

std::vector<PlacedPanel> Site::panels_of(std::size_t wing) const {
  const std::size_t before = wing * panels_per_wing();
  std::vector<PlacedPanel> panels = place_wing(wing);
  panels.resize(std::min(panels.size(), panels_ - before));
  int order = static_cast<int>(before);
  for (PlacedPanel& panel : panels) {
    panel.made_on_day = order / programme_.made_a_day;
    panel.batch = 1 + order / programme_.panels_per_batch;
    panel.erection_order = ++order;
    panel.erected = order <= programme_.erected;
  }
  if (marks_.empty()) return panels;
  std::erase_if(panels, [this](const PlacedPanel& panel) {
    return std::find(marks_.begin(), marks_.end(), panel.mark) == marks_.end();
  });
  return panels;
}

}  // namespace sample_export
