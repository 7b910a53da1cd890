// Declared figures of global warming potential, by indicator and module, per one declared unit.
#pragma once

#include <array>
#include <optional>

#include "core/api/model/project.h"
#include "plugins/carbon/account/gwp.h"
#include "plugins/carbon/account/open_finding.h"

namespace panel_dossier::carbon {

/// A1–A3: all three indicators must be declared. Where GWP-total is too, it must be their sum (EN 15804:2012+A2:2019
/// annex C) but for rounding.
std::optional<Gwp> read_product_gwp(const Project& project, const Material& material, OpenFinding& finding);

/// Any other module: the three indicators, else GWP-total, less GWP-biogenic where that is declared too; what is left
/// counts as fossil. None, with a gap when `required`, where neither is declared.
std::optional<Gwp> read_module_gwp(const Project& project, const Material& material, Module module, bool required,
                                   OpenFinding& finding);

/// C1 to C4. The biogenic carbon that A1–A3 took up and no module of C3 and C4 declares as returned is taken out of
/// those of the two that are declared by GWP-total alone, in proportion to them and at most whole. Less than 95 % given
/// back is an evidence gap.
std::optional<std::array<Gwp, kEndOfLife.size()>> read_end_of_life_gwp(const Project& project, const Material& material,
                                                                       OpenFinding& finding);

}  // namespace panel_dossier::carbon
