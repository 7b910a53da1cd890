// Carbon for each m² of wall, against a target of the project.
#pragma once

#include <string_view>

#include "core/api/finding.h"
#include "core/api/settings.h"
#include "plugins/carbon/open_finding.h"

namespace panel_dossier::carbon {

/// What is divided by the area, and the setting that limits it.
struct PerArea {
  std::string_view name;
  std::string_view symbol;
  std::string_view formula;
  std::string_view setting;
};

inline constexpr PerArea kUpfront{"A1–A5, without biogenic carbon", "ΣA1–A5", "A1–A3 + A4 + A5",
                                  "carbon.target_a1_a5_kgco2e_per_m2"};
inline constexpr PerArea kWholeLife{"A–C, GWP-total", "ΣA–C", "A1–A3 + A4 + A5 + B1–B5 + C1–C4",
                                    "carbon.target_whole_life_kgco2e_per_m2"};

/// Faces of one panel or of all, in m².
struct WallAreas {
  double gross_m2 = 0.0;
  double openings_m2 = 0.0;
};

/// Judges `sum_kg` over the net wall area against the target, adding the steps; for one panel or for the project. The
/// gross area would count the openings whose windows and doors are not in the sum, and so make a wall with openings
/// look better. Without the setting it is information; not assessed where openings leave no wall.
Finding judge_per_area(OpenFinding& finding, const PerArea& what, const Settings& settings, double sum_kg,
                       const WallAreas& areas);

}  // namespace panel_dossier::carbon
