#include "sample_project/generator/elevations.h"

namespace sample_export {

namespace {

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

}  // namespace

const std::vector<Elevation>& elevations() {
  static const std::vector<Elevation> table = {south(), east(), north(), west()};
  return table;
}

}  // namespace sample_export
