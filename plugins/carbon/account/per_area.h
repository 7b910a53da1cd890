// Carbon for each m² of wall.
#pragma once

#include <optional>
#include <string_view>

#include "plugins/carbon/account/open_finding.h"

namespace panel_dossier::carbon {

/// What is divided by the area.
struct PerArea {
  std::string_view name;
  std::string_view symbol;
  std::string_view formula;
};

inline constexpr PerArea kUpfront{"A1–A5, without biogenic carbon", "ΣA1–A5", "A1–A3 + A4 + A5"};
inline constexpr PerArea kWholeLife{"A–C, GWP-total", "ΣA–C", "A1–A3 + A4 + A5 + B1–B5 + C1–C4"};
/// Symbol of the step that holds A1–A3 beside `kUpfront`.
inline constexpr std::string_view kProductStage = "a1_a3";

/// Faces of one panel or of all, in m².
struct WallAreas {
  double gross_m2 = 0.0;
  double openings_m2 = 0.0;

  double net_m2() const { return gross_m2 - openings_m2; }
};

/// `sum_kg` over the net wall area, adding the steps; for one panel or for the project. The gross area would count the
/// openings whose windows and doors are not in the sum, and so make a wall with openings look better. None, noted as
/// missing, where openings leave no wall.
std::optional<double> add_per_area(OpenFinding& finding, const PerArea& what, double sum_kg, const WallAreas& areas);

}  // namespace panel_dossier::carbon
