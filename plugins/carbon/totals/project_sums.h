// Carbon for each m² of wall, that up to the finished wall, and sums over the panels of the project.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/panel_values.h"
#include "core/api/model/project.h"
#include "core/api/plugin.h"
#include "plugins/carbon/account/account.h"

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

/// The project's finding of a check whose value is the sum of its panels'. A total over some panels only would mislead,
/// so one panel without a value leaves the total without one; the sum of the others is a step.
struct Summed {
  const CheckDeclaration& check;
  /// Symbol of the step that sums GWP-biogenic beside the value; null where the panels have none.
  const char* biogenic_symbol = nullptr;
};
Finding sum_check(const Summed& summed, const Project& project, const std::vector<PanelFindings>& panels);

/// Records how many panels are in the sum, and notes those without a value as what is missing.
void add_panels(const Project& project, const PanelValues& values, std::string_view check, OpenFinding& finding);

/// Sum of the findings' values of this id. Throws std::runtime_error naming a finding that has none.
double sum_of(const PanelValues& values, std::string_view id, std::string_view unit);
/// None when a finding has no value of this id.
std::optional<double> sum_where_all_have(const PanelValues& values, std::string_view id, std::string_view unit);
/// Text value of a panel's finding: why its targets need a range of uncertainty that is not known.
inline constexpr const char* kRangeNeeded = "range_needed";
/// That of the first panel that has one, with its mark; empty when none does.
std::string range_needed_of(const PanelValues& values);
/// For each m²; none for none.
std::optional<double> over(std::optional<double> kg, double area_m2);
/// Areas of the panels with a value.
WallAreas areas_of(const PanelValues& values);

inline constexpr const char* kAllPanels = "all panels";

/// The same values for each panel type, in the order of their names.
std::map<std::string, PanelValues> by_type(const PanelValues& values);
/// How a type is named in tables: `no type` for panels that state none.
std::string type_name(const std::string& type);

}  // namespace panel_dossier::carbon
