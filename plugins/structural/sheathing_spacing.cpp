#include "plugins/structural/sheathing_spacing.h"

namespace panel_dossier::structural {

std::vector<DistanceRule> distance_rules(const SheathingFace& face) {
  const double d = face.diameter_m;
  const bool dense = face.timber_density_kg_per_m3 > 420.0;
  constexpr double kThick_m = 0.005;
  // Table 8.2, a1 along the grain, and a4,c.
  const double along = dense ? 15.0 : d < kThick_m ? 10.0 : 12.0;
  const double edge = dense ? 7.0 : 5.0;
  constexpr double kPanelToTimber = 0.85;  // 8.3.1.3(1)
  const double in_timber_m =
      (face.sheets_meet_on_stud ? face.joint_stud_width_m / 2.0 : face.joint_stud_width_m) - face.edge_distance_m;
  return {{"spacing along the edge, least", "table 8.2 (a_1), 8.3.1.3(1)", face.spacing_m, kPanelToTimber * along * d,
           true},
          {"spacing along the edge, largest", "10.8.2", face.spacing_m, face.screws ? 0.200 : 0.150, false},
          {"distance from the edge of the sheet", "8.3.1.3(2): 3 d", face.edge_distance_m, 3.0 * d, true},
          {"distance from the edge of the stud", "table 8.2 (a_4,c)", in_timber_m, edge * d, true},
          {"penetration into the timber", "8.3.1.2", face.plane.penetration_m,
           (face.smooth && !face.screws ? 8.0 : 6.0) * d, true}};
}

}  // namespace panel_dossier::structural
