#include "plugins/structural/racking/sheathing_spacing.h"

#include <algorithm>

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
  // 8.3.1.3(2) is for plywood; other boards would take table 8.2.
  const std::string sheet_edge = face.product == "plywood" ? "8.3.1.3(2): 3 d"
                                                           : "3 d, common practice; table 8.2 (a_4,c) would ask for " +
                                                                 std::string(dense ? "7" : "5") + " d";
  const double largest_m = face.screws ? 0.200 : 0.150;
  std::vector<DistanceRule> rules{
      {"spacing along the edge, least", "table 8.2 (a_1), 8.3.1.3(1)", face.spacing_m, kPanelToTimber * along * d,
       true},
      {"spacing along the edge, largest", "10.8.2", face.spacing_m, largest_m, false},
      {"distance from the edge of the sheet", sheet_edge, face.edge_distance_m, 3.0 * d, true},
      {"distance from the edge of the stud", "table 8.2 (a_4,c)", in_timber_m, edge * d, true},
      {"penetration into the timber", "8.3.1.2, 8.7.1", face.plane.penetration_m,
       (face.smooth && !face.screws ? 8.0 : 6.0) * d, true}};
  if (face.intermediate_spacing_m) {
    constexpr double kLargestBetween_m = 0.300;
    rules.push_back({"spacing on studs between the edges, largest", "10.8.2", *face.intermediate_spacing_m,
                     std::min(2.0 * face.spacing_m, kLargestBetween_m), false});
  }
  return rules;
}

}  // namespace panel_dossier::structural
