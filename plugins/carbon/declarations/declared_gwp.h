// Declared figures of global warming potential, by indicator and module, per one declared unit.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "plugins/carbon/account/account.h"
#include "plugins/carbon/declarations/declared_material.h"

namespace panel_dossier::carbon {

/// The properties of these modules and what picks among figures, for declarations of checks.
std::vector<CheckInput> declared_gwp_inputs(const std::vector<Module>& modules);

/// A1–A3: all three indicators must be declared. Where GWP-total is too, it must be their sum (EN 15804:2012+A2:2019
/// annex C) but for rounding.
std::optional<Gwp> read_product_gwp(const DeclaredMaterial& declared, OpenFinding& finding);

/// Any other module: the three indicators, else GWP-total, less GWP-biogenic where that is declared too; what is left
/// counts as fossil. None, with a gap when `required`, where neither is declared.
std::optional<Gwp> read_module_gwp(const DeclaredMaterial& declared, Module module, bool required,
                                   OpenFinding& finding);

/// C1 to C4. The biogenic carbon that A1–A3 took up and no module of C3 and C4 declares as returned is taken out of
/// those of the two that are declared by GWP-total alone, in proportion to them and at most whole. Less than 95 % given
/// back is an evidence gap.
std::optional<std::array<Gwp, kEndOfLife.size()>> read_end_of_life_gwp(const DeclaredMaterial& declared,
                                                                       OpenFinding& finding);

}  // namespace panel_dossier::carbon
