// Declared figures of global warming potential, by indicator and module, per one declared unit.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "core/api/origin.h"
#include "plugins/carbon/account.h"
#include "plugins/carbon/gwp.h"
#include "plugins/carbon/open_finding.h"

namespace panel_dossier::carbon {

/// The file's figure of an indicator by its abbreviation, per one kg, m3, m2 or piece, in the unit the file states.
/// A1–A3 may stand as three modules. None when there is no file or it lacks the figure; several scenarios of which
/// `Panel_EnvironmentalDeclaration.Scenario` picks none are an evidence gap.
std::optional<Sourced<double>> figure_in_file(const Project& project, const Material& material,
                                              std::string_view indicator, Module module, OpenFinding& finding);

/// A1–A3: all three indicators must be declared. Where GWP-total is too, it must be their sum (EN 15804:2012+A2:2019
/// annex C) but for rounding.
std::optional<Gwp> read_product_gwp(const Project& project, const Material& material, OpenFinding& finding);

/// Any other module: the three indicators, else GWP-total, which counts as fossil. None, with a gap when `required`,
/// where neither is declared.
std::optional<Gwp> read_module_gwp(const Project& project, const Material& material, Module module, bool required,
                                   OpenFinding& finding);

/// C1 to C4. Where C3 and C4 are declared by GWP-total alone, the biogenic carbon that A1–A3 took up is taken out of
/// them in proportion to the two. Less than 95 % given back is an evidence gap.
std::optional<std::array<Gwp, kEndOfLife.size()>> read_end_of_life_gwp(const Project& project, const Material& material,
                                                                       OpenFinding& finding);

}  // namespace panel_dossier::carbon
