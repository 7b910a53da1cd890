// One declared figure of an indicator and module, from the file or the export, per one kg, m3, m2 or piece.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/origin.h"
#include "plugins/carbon/account/gwp.h"
#include "plugins/carbon/account/open_finding.h"
#include "plugins/carbon/declarations/declared_material.h"

namespace panel_dossier::carbon {

/// How declarations name an indicator, and the units they may state it in. No unit is converted.
struct DeclaredIndicator {
  std::vector<std::string> names;  ///< the abbreviation of EN 15804:2012+A2:2019 first
  std::vector<std::string> units;  ///< what is asked for first; never empty
};

/// True when both write the same unit: case, spaces, dots, hyphens, brackets, raised and lowered digits do not count,
/// nor how `eq.` is spelt (`e`, `equiv.`, `equivalent`, `Äq.`).
bool same_unit(std::string_view a, std::string_view b);

/// The file's figure, in the first of the indicator's units. A1–A3 may stand as three modules. None when there is no
/// file or it lacks the figure. An evidence gap are several scenarios of which
/// `Panel_EnvironmentalDeclaration.Scenario` picks none, and a unit that is absent or none of the indicator's.
std::optional<Sourced<double>> figure_in_file(const DeclaredMaterial& declared, const DeclaredIndicator& indicator,
                                              Module module, OpenFinding& finding);

/// The figure of a property of the export, which is for one `DeclaredUnit`.
std::optional<Sourced<double>> figure_in_export(const DeclaredMaterial& declared, std::string_view property);

/// True when the file states the figure, be it usable or not; of the scenario named, where one is.
bool is_in_file(const DeclaredMaterial& declared, const DeclaredIndicator& indicator, Module module);

}  // namespace panel_dossier::carbon
