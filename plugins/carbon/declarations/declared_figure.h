// One declared figure of an indicator and module, from the file or the export, per one kg, m3, m2 or piece, and amounts
// in the declared unit.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/origin.h"
#include "plugins/carbon/account/account.h"
#include "plugins/carbon/declarations/declared_material.h"

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

/// How declarations name an indicator, and the units they may state it in. No unit is converted.
struct DeclaredIndicator {
  std::vector<std::string> names;  ///< the abbreviation of EN 15804:2012+A2:2019 first
  std::vector<std::string> units;  ///< what is asked for first; never empty
};

/// True when both write the same unit: case, spaces, dots, hyphens, brackets, raised and lowered digits do not count,
/// nor how `eq.` is spelt (`e`, `equiv.`, `equivalent`, `Äq.`).
bool same_unit(std::string_view a, std::string_view b);

/// The scenarios that `Panel_EnvironmentalDeclaration.Scenario` names, separated there by `;`.
std::vector<std::string> named_scenarios(const Material& material);

/// The file's figure, in the first of the indicator's units. A1–A3 may stand as three modules, or beside them, of which
/// it must then be the sum. Of several scenarios those count that the export names, else the default. None when there
/// is no file or it lacks the figure. An evidence gap are several scenarios of which neither picks one, and a unit that
/// is absent or none of the indicator's.
std::optional<Sourced<double>> figure_in_file(const DeclaredMaterial& declared, const DeclaredIndicator& indicator,
                                              Module module, OpenFinding& finding);

/// The figure of a property of the export, which is for one `DeclaredUnit`.
std::optional<Sourced<double>> figure_in_export(const DeclaredMaterial& declared, std::string_view property);

/// True when the file states the figure, be it usable or not; of the scenario named, where one is.
bool is_in_file(const DeclaredMaterial& declared, const DeclaredIndicator& indicator, Module module);

}  // namespace panel_dossier::carbon
