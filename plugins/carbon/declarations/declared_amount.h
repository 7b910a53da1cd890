// Amounts in the declared unit of a declaration.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "plugins/carbon/account/amounts.h"

namespace panel_dossier::carbon {

/// The unit of a declaration: one of kg, m3, m2 and piece, and how many of it the unit as written holds (1000 for a
/// tonne).
struct UnitWord {
  std::string_view unit;
  double factor = 1.0;
};

/// `m³`, `m^3`, `t`, `pcs` and the like; none for a unit that does not fit a material.
std::optional<UnitWord> unit_word(std::string_view written);

/// An amount in the declared unit, or why the declaration does not fit it.
struct DeclaredAmount {
  std::optional<double> units;
  std::string gap;  ///< empty when `units` is there
};

/// What a declaration says of its unit; none where it says nothing.
struct UnitFacts {
  std::optional<double> thickness_m;        ///< above 0
  std::optional<double> density_kg_per_m3;  ///< above 0
};

/// Converts to declared units: kg from mass, m3 from volume, m2 from volume and thickness, piece from the count. Where
/// the mass or the volume is not known, the declared density gives it from the other. `unit` is one of these words.
DeclaredAmount declared_amount(const MaterialAmount& amount, std::string_view unit, const UnitFacts& facts);

}  // namespace panel_dossier::carbon
