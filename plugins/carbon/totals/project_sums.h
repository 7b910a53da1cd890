// Sums over the panels of the project.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "core/api/finding/panel_values.h"
#include "core/api/model/project.h"
#include "plugins/carbon/account/open_finding.h"
#include "plugins/carbon/account/per_area.h"

namespace panel_dossier::carbon {

/// Records how many panels are in the sum, and notes those without a value as what is missing.
void add_panels(const Project& project, const PanelValues& values, std::string_view check, OpenFinding& finding);

double sum_of_values(const PanelValues& values);
/// Sum of the first step of each with this symbol. Throws std::runtime_error naming a finding that has none.
double sum_of_steps(const PanelValues& values, std::string_view symbol);
/// Sum over the findings that have a step with this symbol, for what not every panel has.
double sum_where_stated(const PanelValues& values, std::string_view symbol);
/// True when every finding has a step with this symbol.
bool all_have_step(const PanelValues& values, std::string_view symbol);
/// Areas of the panels with a value.
WallAreas areas_of(const PanelValues& values);

inline constexpr const char* kAllPanels = "all panels";

/// The same values for each panel type, in the order of their names.
std::map<std::string, PanelValues> by_type(const PanelValues& values);
/// How a type is named in tables: `no type` for panels that state none.
std::string type_name(const std::string& type);

}  // namespace panel_dossier::carbon
