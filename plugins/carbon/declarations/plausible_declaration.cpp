#include "plugins/carbon/declarations/plausible_declaration.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/carbon/account/biogenic_storage.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

namespace {

bool is_of_word(char c) {
  // Bytes above ASCII are letters of other alphabets.
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || static_cast<unsigned char>(c) >= 0x80U;
}

/// The words that tell products apart, in lower case: those of three letters and more that are not in every name.
std::set<std::string> telling_words(std::string_view name) {
  static const std::set<std::string> kInEveryName{"and",     "average", "board",  "for",  "from", "material", "panel",
                                                  "product", "type",    "timber", "with", "of",   "the"};
  constexpr std::size_t kShortest = 3;
  std::set<std::string> words;
  std::string word;
  const auto keep = [&] {
    if (word.size() >= kShortest && !kInEveryName.contains(word)) words.insert(word);
    word.clear();
  };
  for (const char c : lower_case(name)) {
    if (is_of_word(c)) {
      word += c;
    } else {
      keep();
    }
  }
  keep();
  return words;
}

/// A telling word of one name is, begins or ends one of the other: `plaster` and `plasterboard`.
bool share_a_word(std::string_view a, std::string_view b) {
  const std::set<std::string> others = telling_words(b);
  for (const std::string& word : telling_words(a)) {
    for (const std::string& other : others) {
      const auto& [shorter, longer] = word.size() < other.size() ? std::tie(word, other) : std::tie(other, word);
      if (longer.starts_with(shorter) || longer.ends_with(shorter)) return true;
    }
  }
  return false;
}

std::optional<Sourced<std::string>> stated_in_export(const Material& material, std::string_view property) {
  auto stated = material.properties.text(kDeclarationSet, property);
  if (stated && trimmed(stated->value).empty()) stated.reset();
  return stated;
}

bool same_words(std::string_view a, std::string_view b) {
  return lower_case(trimmed(a)) == lower_case(trimmed(b));
}

/// `'B' (file, line 5)`.
std::string quoted(const Sourced<std::string>& text) {
  return "'" + text.value + "' (" + describe(text.origin) + ")";
}

void check_name(const DeclaredMaterial& declared, OpenFinding& finding) {
  const auto& product = declared.file->product;
  if (!product || trimmed(product->value).empty()) return;
  const Material& material = *declared.material;
  const auto stated = stated_in_export(material, "Product");
  if (stated && same_words(stated->value, product->value)) return;
  if (stated) {
    finding.evidence_gap("material '" + material.name + "': the declaration is of " + quoted(*product) +
                         ", but Panel_EnvironmentalDeclaration.Product is '" + stated->value + "'");
  } else if (!share_a_word(material.name, product->value)) {
    finding.evidence_gap("material '" + material.name + "': the declaration is of another product, " +
                         quoted(*product) +
                         "; name the right one in DocumentId, or state Panel_EnvironmentalDeclaration.Product as the "
                         "declaration has it");
  }
}

using Words = std::pair<std::string_view, std::string_view>;

/// Country of a jurisdiction, ISO 3166-1:2020 (from memory).
constexpr std::array<Words, 20> kCountries{
    {{"england", "gb"},        {"wales", "gb"},   {"scotland", "gb"},    {"northern ireland", "gb"},
     {"united kingdom", "gb"}, {"ireland", "ie"}, {"germany", "de"},     {"austria", "at"},
     {"switzerland", "ch"},    {"france", "fr"},  {"netherlands", "nl"}, {"belgium", "be"},
     {"denmark", "dk"},        {"norway", "no"},  {"sweden", "se"},      {"finland", "fi"},
     {"poland", "pl"},         {"italy", "it"},   {"spain", "es"},       {"czech republic", "cz"}}};

/// Regions that hold each of those countries, as data sets name them (from memory).
constexpr std::array<std::string_view, 5> kRegions{"rer", "eu+efta+uk", "eu-27+3", "europe", "glo"};
/// Regions that hold each of those countries but the ones outside of the Union (from memory).
constexpr std::array<std::string_view, 3> kUnion{"eu", "eu-27", "eu-28"};
constexpr std::array<std::string_view, 3> kOutsideUnion{"gb", "ch", "no"};

bool region_holds(std::string_view region, std::string_view country) {
  if (std::find(kRegions.begin(), kRegions.end(), region) != kRegions.end()) return true;
  if (std::find(kUnion.begin(), kUnion.end(), region) == kUnion.end()) return false;
  const bool is_outside = std::find(kOutsideUnion.begin(), kOutsideUnion.end(), country) != kOutsideUnion.end();
  return !is_outside || (region == "eu-28" && country == "gb");
}

void check_geography(const DeclaredMaterial& declared, const Settings& settings, OpenFinding& finding) {
  const auto& geography = declared.file->geography;
  if (!geography || trimmed(geography->value).empty()) return;
  const Material& material = *declared.material;
  const auto stated = stated_in_export(material, "Geography");
  if (stated && same_words(stated->value, geography->value)) return;
  if (stated) {
    finding.evidence_gap("material '" + material.name + "': the declaration holds for " + quoted(*geography) +
                         ", but Panel_EnvironmentalDeclaration.Geography is '" + stated->value + "'");
    return;
  }
  const auto jurisdiction = settings.text("project.jurisdiction");
  if (!jurisdiction) return;
  const std::string place = lower_case(trimmed(geography->value));
  const auto* const country = std::find_if(kCountries.begin(), kCountries.end(), [&](const Words& words) {
    return words.first == lower_case(trimmed(jurisdiction->value));
  });
  const bool is_known = country != kCountries.end();
  if (place == "glo" || (is_known && (country->second == place || region_holds(place, country->second)))) return;
  finding.evidence_gap("material '" + material.name + "': the declaration holds for " + quoted(*geography) +
                       " and project.jurisdiction is '" + jurisdiction->value +
                       "'; state Panel_EnvironmentalDeclaration.Geography if the material comes from there");
}

/// Nominal densities of one product stay within this of each other (common practice); thicknesses of boards of which
/// one declaration speaks within twice of each other.
constexpr double kDensityMayDiffer = 0.15;
constexpr double kThicknessMayDiffer = 2.0;

void check_density(const MaterialAmount& amount, const Material& material, const UnitFacts& facts,
                   OpenFinding& finding) {
  if (!facts.density_kg_per_m3 || !amount.mass_kg || !amount.volume_m3) return;
  if (*amount.mass_kg <= 0.0 || *amount.volume_m3 <= 0.0) return;
  const double built = *amount.mass_kg / *amount.volume_m3;
  if (std::abs(*facts.density_kg_per_m3 / built - 1.0) <= kDensityMayDiffer) return;
  finding.evidence_gap("material '" + material.name + "' is declared for " + fixed_text(*facts.density_kg_per_m3, 0) +
                       " kg/m³ and built in at " + fixed_text(built, 0) +
                       " kg/m³ by the export: more than 15 % apart, so the declaration is that of another product");
}

void check_thickness(const PanelAccount& account, std::size_t row, const UnitFacts& facts, OpenFinding& finding) {
  if (!facts.thickness_m) return;
  for (const Layer& layer : account.panel.layers) {
    if (layer.material != account.index(row) || !(layer.thickness_m.value > 0.0)) continue;
    const double ratio = *facts.thickness_m / layer.thickness_m.value;
    if (ratio <= kThicknessMayDiffer && ratio >= 1.0 / kThicknessMayDiffer) continue;
    finding.evidence_gap("material '" + account.material(row).name + "' is declared per m² of " +
                         fixed_text(units::millimetres_from_metres(*facts.thickness_m), 1) +
                         " mm and built in as layer '" + layer.name + "' of " +
                         fixed_text(units::millimetres_from_metres(layer.thickness_m.value), 1) +
                         " mm: the declaration is that of another product");
    return;
  }
}

/// In kg; none where neither the declaration nor the model gives a density.
std::optional<double> mass_of_a_unit(const MaterialAmount& amount, std::string_view unit, const UnitFacts& facts,
                                     double units) {
  if (unit == "kg") return 1.0;
  if (facts.density_kg_per_m3 && unit == "m3") return facts.density_kg_per_m3;
  if (facts.density_kg_per_m3 && unit == "m2" && facts.thickness_m) {
    return *facts.density_kg_per_m3 * *facts.thickness_m;
  }
  if (!amount.mass_kg || !(*amount.mass_kg > 0.0)) return std::nullopt;
  return *amount.mass_kg / units;
}

/// Kilograms of CO2 or CO2e for each kg of material, between which a figure must lie.
struct Bounds {
  double least = 0.0;
  double largest = 0.0;
};

constexpr double kLeastOfWood = 0.7;
constexpr double kLargestOfWood = 1.15;
constexpr double kDry = 0.0;
constexpr double kWet = 0.3;

std::optional<Bounds> uptake_of_wood(const PanelAccount& account, const Material& material) {
  const auto constants = wood_carbon(account.inputs.tables.biogenic_carbon);
  if (!constants) return std::nullopt;
  const auto stated = moisture_of(material);
  const bool usable = stated && stated->value >= 0.0 && stated->value <= 1.0;
  return Bounds{kLeastOfWood * stored_carbon_dioxide_kg(*constants, 1.0, usable ? stated->value : kWet),
                kLargestOfWood * stored_carbon_dioxide_kg(*constants, 1.0, usable ? stated->value : kDry)};
}

std::string range_in_words(const Bounds& bounds) {
  return fixed_text(bounds.least, 2) + " to " + fixed_text(bounds.largest, 2);
}

void check_uptake(const PanelAccount& account, const Material& material, double taken_up, OpenFinding& finding) {
  const std::string figure = "material '" + material.name + "': its declaration takes up " + fixed_text(taken_up, 3) +
                             " kg CO2e of biogenic carbon a kg in A1–A3";
  if (is_wood(material)) {
    const auto bounds = uptake_of_wood(account, material);
    if (!bounds || (taken_up >= bounds->least && taken_up <= bounds->largest)) return;
    finding.evidence_gap(figure + "; wood of this mass and moisture content holds what corresponds to " +
                         range_in_words(*bounds) + " (EN 16449:2014, formula (1))");
    return;
  }
  const auto largest = account.inputs.tables.plausible_declarations.number(material.category, "uptake_largest");
  if (!largest || taken_up <= largest->value) return;
  finding.evidence_gap(figure + "; a material of category '" + material.category + "' takes up at most " +
                       fixed_text(largest->value, 2) + " (" + describe(largest->origin) + ")");
}

void check_fossil(const PanelAccount& account, const Material& material, double fossil, OpenFinding& finding) {
  const std::string figure = "material '" + material.name + "': its declaration states " + fixed_text(fossil, 3) +
                             " kg CO2e of fossil carbon a kg for A1–A3";
  if (fossil <= 0.0) {
    finding.evidence_gap(figure + "; making a product emits, so the figure is above nothing");
    return;
  }
  const DataTable& table = account.inputs.tables.plausible_declarations;
  const std::string kind = kind_of(material, table);
  const auto least = table.number(kind, "fossil_least");
  const auto largest = table.number(kind, "fossil_largest");
  if (!least || !largest || (fossil >= least->value && fossil <= largest->value)) return;
  finding.evidence_gap(figure + "; usual of category '" + kind + "' are " +
                       range_in_words({least->value, largest->value}) + " (" + describe(least->origin) +
                       "): check the declared unit");
}

}  // namespace

void check_product(const DeclaredMaterial& declared, const Settings& settings, OpenFinding& finding) {
  if (declared.file == nullptr) return;
  check_name(declared, finding);
  check_geography(declared, settings, finding);
  const Material& material = *declared.material;
  for (const std::string& scenario : named_scenarios(material)) {
    const auto& values = declared.file->values;
    if (std::any_of(values.begin(), values.end(),
                    [&](const DeclaredValue& value) { return value.scenario == scenario; })) {
      continue;
    }
    finding.evidence_gap("material '" + material.name + "': Panel_EnvironmentalDeclaration.Scenario names '" +
                         scenario + "', which is no scenario of its declaration");
  }
}

void check_plausible(const PanelAccount& account, std::size_t row, std::string_view unit, const UnitFacts& facts,
                     double units, OpenFinding& finding) {
  const MaterialAmount& amount = account.amounts.materials[row];
  const Material& material = account.material(row);
  check_density(amount, material, facts, finding);
  check_thickness(account, row, facts, finding);
  std::string unknown = unknown_kind(material, account.inputs.tables.plausible_declarations);
  if (!unknown.empty()) {
    finding.missing_once(std::move(unknown));
    return;
  }
  const auto gwp = product_gwp_of(account.declared(row));
  const auto mass_kg = mass_of_a_unit(amount, unit, facts, units);
  if (!gwp || !mass_kg || !std::isfinite(*mass_kg) || *mass_kg <= 0.0) return;
  if (std::isfinite(gwp->fossil)) check_fossil(account, material, gwp->fossil / *mass_kg, finding);
  if (std::isfinite(gwp->biogenic)) check_uptake(account, material, -gwp->biogenic / *mass_kg, finding);
}

}  // namespace panel_dossier::carbon
