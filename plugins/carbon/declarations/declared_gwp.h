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

/// The same where it can be read, without recording or noting anything.
std::optional<Gwp> product_gwp_of(const DeclaredMaterial& declared);

/// Any other module: the three indicators, else GWP-total, less GWP-biogenic where that is declared too; what is left
/// counts as fossil. None, with a gap when `required`, where neither is declared.
std::optional<Gwp> read_module_gwp(const DeclaredMaterial& declared, Module module, bool required,
                                   OpenFinding& finding);

/// What leaves a product again, for one declared unit.
struct ReturnedGwp {
  std::array<Gwp, kEndOfLife.size()> modules;
  /// Biogenic carbon of the packaging, which leaves in A5: at least 0, and of wood at most a tenth of what A1–A3 took
  /// up, for more is no packaging.
  double packaging = 0.0;
};

/// C1 to C4, and the packaging. What A1–A3 took up is given back by C3 and C4 as far as they declare GWP-biogenic, then
/// by the GWP-biogenic of A5; the rest is taken out of those of C3 and C4 that are declared by GWP-total alone, in
/// proportion to them and at most whole. Less than 95 % given back is an evidence gap.
std::optional<ReturnedGwp> read_end_of_life_gwp(const DeclaredMaterial& declared, OpenFinding& finding);

}  // namespace panel_dossier::carbon
