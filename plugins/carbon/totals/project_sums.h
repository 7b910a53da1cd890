// Sums over the panels of the project.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/panel_values.h"
#include "core/api/model/project.h"
#include "plugins/carbon/account/open_finding.h"
#include "plugins/carbon/totals/per_area.h"

namespace panel_dossier::carbon {

/// The project's finding of a check whose value is the sum of its panels'. A total over some panels only would mislead,
/// so one panel without a value leaves the total without one; the sum of the others is a step.
struct Summed {
  const CheckDeclaration& check;
  /// Symbol and name of the step that sums GWP-biogenic beside the value; null where the panels have none.
  const char* biogenic_symbol = nullptr;
  const char* biogenic_name = nullptr;
};
Finding sum_check(const Summed& summed, const Project& project, const std::vector<PanelFindings>& panels);

/// Records how many panels are in the sum, and notes those without a value as what is missing.
void add_panels(const Project& project, const PanelValues& values, std::string_view check, OpenFinding& finding);

/// Sum of the findings' values of this id. Throws std::runtime_error naming a finding that has none.
double sum_of(const PanelValues& values, std::string_view id, std::string_view unit);
/// None when a finding has no value of this id.
std::optional<double> sum_where_all_have(const PanelValues& values, std::string_view id, std::string_view unit);
/// Areas of the panels with a value.
WallAreas areas_of(const PanelValues& values);

inline constexpr const char* kAllPanels = "all panels";

/// The same values for each panel type, in the order of their names.
std::map<std::string, PanelValues> by_type(const PanelValues& values);
/// How a type is named in tables: `no type` for panels that state none.
std::string type_name(const std::string& type);

}  // namespace panel_dossier::carbon
