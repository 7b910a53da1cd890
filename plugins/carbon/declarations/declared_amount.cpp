#include "plugins/carbon/declarations/declared_amount.h"

#include <array>

#include "core/api/support/units.h"

namespace panel_dossier::carbon {

namespace {

struct Spelling {
  std::string_view written;
  UnitWord word;
};

constexpr std::array<Spelling, 15> kSpellings{{{"kg", {"kg"}},
                                               {"t", {"kg", units::kKilogramPerTonne}},
                                               {"tonne", {"kg", units::kKilogramPerTonne}},
                                               {"m3", {"m3"}},
                                               {"m³", {"m3"}},
                                               {"m^3", {"m3"}},
                                               {"m2", {"m2"}},
                                               {"m²", {"m2"}},
                                               {"m^2", {"m2"}},
                                               {"piece", {"piece"}},
                                               {"pieces", {"piece"}},
                                               {"pcs", {"piece"}},
                                               {"pcs.", {"piece"}},
                                               {"unit", {"piece"}},
                                               {"item", {"piece"}}}};

std::optional<double> mass_of(const MaterialAmount& amount, const UnitFacts& facts) {
  if (amount.mass_kg || !amount.volume_m3 || !facts.density_kg_per_m3) return amount.mass_kg;
  return *amount.volume_m3 * *facts.density_kg_per_m3;
}

std::optional<double> volume_of(const MaterialAmount& amount, const UnitFacts& facts) {
  if (amount.volume_m3 || !amount.mass_kg || !facts.density_kg_per_m3) return amount.volume_m3;
  return *amount.mass_kg / *facts.density_kg_per_m3;
}

}  // namespace

std::optional<UnitWord> unit_word(std::string_view written) {
  for (const Spelling& spelling : kSpellings) {
    if (spelling.written == written) return spelling.word;
  }
  return std::nullopt;
}

DeclaredAmount declared_amount(const MaterialAmount& amount, std::string_view unit, const UnitFacts& facts) {
  if (unit == "kg") {
    const auto mass = mass_of(amount, facts);
    if (!mass)
      return {std::nullopt, "is declared per kg but has no mass; give a Pset_MaterialCommon.MassDensity above 0"};
    return {mass, {}};
  }
  if (unit == "m3" || unit == "m2") {
    const auto volume = volume_of(amount, facts);
    if (!volume) return {std::nullopt, "is declared per " + std::string(unit) + " but a part of it has no volume"};
    if (unit == "m3") return {volume, {}};
    if (!facts.thickness_m || *facts.thickness_m <= 0.0) {
      return {std::nullopt,
              "is declared per m2 but has no Panel_EnvironmentalDeclaration.DeclaredThickness; give the thickness of "
              "that m2"};
    }
    return {*volume / *facts.thickness_m, {}};
  }
  if (unit == "piece") {
    if (!amount.pieces) return {std::nullopt, "is declared per piece but is not measured in pieces"};
    return {amount.pieces, {}};
  }
  return {std::nullopt, "has Panel_EnvironmentalDeclaration.DeclaredUnit '" + std::string(unit) +
                            "', which is none of kg, m3, m2 and piece"};
}

}  // namespace panel_dossier::carbon
