// Carbon for each m² of wall, and that up to the finished wall.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/plugin.h"
#include "plugins/carbon/account/account.h"
#include "plugins/carbon/account/open_finding.h"

namespace panel_dossier::carbon {

/// What is divided by the area.
struct PerArea {
  std::string_view name;
  std::string_view symbol;
  std::string_view formula;  ///< in the symbols and columns of the finding; may be empty
};

inline constexpr PerArea kWholeLife{"A–C, GWP-total", "ΣA–C", "ΣA–C = sum(A–C)"};

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

extern const CheckDeclaration kTotalPerAreaCheck;

/// A1–A5 per m² of net wall area, judged by the project's targets for A1–A3 and A1–A5. The three are the findings of
/// the same panel.
Finding check_total_per_area(const PanelAccount& account, const Finding& a1_a3, const Finding& a4, const Finding& a5);

/// The same for all panels, weighed by their net area, and for each type.
Finding total_per_area_of_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::carbon
