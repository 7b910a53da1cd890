// Whether the figures of a declaration can be those of the material that it is said to declare.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "plugins/carbon/account/account.h"
#include "plugins/carbon/declarations/declared_figure.h"

namespace panel_dossier::carbon {

/// Product and geography: the file's product has a word in common with the name of the material, or is the one that
/// `Panel_EnvironmentalDeclaration.Product` names; its geography is the country of setting `project.jurisdiction`, a
/// region that holds it, or the one that `Panel_EnvironmentalDeclaration.Geography` names. What the file does not state
/// is not compared. Misfits are evidence gaps.
void check_product(const DeclaredMaterial& declared, const Settings& settings, OpenFinding& finding);

/// Density and thickness that differ much from what is built in, and figures of A1–A3 for each kg outside of
/// `plausible_declarations.csv`: fossil carbon, and biogenic carbon taken up. Of wood the latter is compared with
/// EN 16449:2014, formula (1), for the mass declared at the moisture content stated: between 0.7 (adhesives, another
/// density) and 1.15 times (packaging of wood), and where no moisture content is stated between those of 0 and 30 %.
/// `units` is the amount in declared units, above 0. Misfits are evidence gaps; a material of which nothing tells what
/// it is, is missing.
void check_plausible(const PanelAccount& account, std::size_t row, std::string_view unit, const UnitFacts& facts,
                     double units, OpenFinding& finding);

}  // namespace panel_dossier::carbon
