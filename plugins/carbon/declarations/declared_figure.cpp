#include "plugins/carbon/declarations/declared_figure.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/carbon/declarations/declaration_facts.h"

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

namespace {

constexpr std::array<const char*, 3> kPartsOfProductStage{"A1", "A2", "A3"};

void replace_all(std::string& text, std::string_view what, std::string_view by) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
    text.replace(at, what.size(), by);
  }
}

/// A unit without what writers differ in.
std::string bare_unit(std::string_view written) {
  std::string text(written);
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  // The last is the letter in two parts, as some systems write it.
  for (const auto& [what, by] :
       {std::pair{"₂", "2"}, {"²", "2"}, {"₃", "3"}, {"³", "3"}, {"⁺", "+"}, {"Ä", "ä"}, {"a\u0308", "ä"}}) {
    replace_all(text, what, by);
  }
  constexpr std::string_view kIgnored = " .-^_()";
  const auto is_ignored = [&](char c) { return kIgnored.find(c) != std::string_view::npos; };
  text.erase(std::remove_if(text.begin(), text.end(), is_ignored), text.end());
  for (const char* spelling :
       {"equivalents", "equivalent", "equiv", "eqv", "äquivalente", "äquivalent", "äquiv", "äqv", "äq"}) {
    replace_all(text, spelling, "eq");
  }
  if (!text.empty() && text.back() == 'e') text += 'q';  // CO2e
  return text;
}

double factor_of(const std::optional<Sourced<std::string>>& unit) {
  const auto word = unit ? unit_word(unit->value) : std::nullopt;
  return word ? word->factor : 1.0;
}

std::optional<Sourced<std::string>> unit_in_export(const Material& material) {
  auto unit = material.properties.text(kDeclarationSet, "DeclaredUnit");
  if (unit && unit->value.empty()) unit.reset();
  return unit;
}

bool is_default(const Declaration& file, const std::string& scenario) {
  return std::any_of(file.scenarios.begin(), file.scenarios.end(),
                     [&](const DeclaredScenario& one) { return one.is_default && one.name == scenario; });
}

/// How many kg, m3, m2 or pieces the file's figures are for. 1 where file and export name no amount.
double units_behind_file(const Declaration& file, const Material& material) {
  const double amount = file.amount ? file.amount->value : 1.0;
  return amount * factor_of(file.unit ? file.unit : unit_in_export(material));
}

/// How many kg, m3, m2 or pieces the export's figures are for.
double units_behind_export(const Declaration* file, const Material& material) {
  auto unit = unit_in_export(material);
  if (!unit && file != nullptr) unit = file->unit;
  return factor_of(unit);
}

/// All figures of a module in the file. Of several, those of a scenario that the export names, else of one that is the
/// default: a name chooses among the figures of the modules that have it and says nothing of the others.
std::vector<const DeclaredValue*> values_of(const Declaration& file, const Material& material,
                                            const DeclaredIndicator& indicator, std::string_view module) {
  std::vector<const DeclaredValue*> values;
  for (const DeclaredValue& value : file.values) {
    if (value.module != module) continue;
    if (std::find(indicator.names.begin(), indicator.names.end(), value.indicator) == indicator.names.end()) continue;
    values.push_back(&value);
  }
  if (values.size() < 2) return values;
  const std::vector<std::string> named = named_scenarios(material);
  const auto only = [&](const auto& is_chosen) {
    std::vector<const DeclaredValue*> chosen;
    std::copy_if(values.begin(), values.end(), std::back_inserter(chosen),
                 [&](const DeclaredValue* value) { return is_chosen(value->scenario); });
    return chosen;
  };
  auto chosen =
      only([&](const std::string& scenario) { return std::find(named.begin(), named.end(), scenario) != named.end(); });
  if (chosen.empty()) chosen = only([&](const std::string& scenario) { return is_default(file, scenario); });
  return chosen.empty() ? values : chosen;
}

/// `, of scenarios 'S1', 'S2'`; empty where the figures bear no names.
std::string scenarios_of(const std::vector<const DeclaredValue*>& values) {
  std::string names;
  for (const DeclaredValue* value : values) {
    if (!value->scenario.empty()) names += (names.empty() ? ", of scenarios '" : ", '") + value->scenario + "'";
  }
  return names;
}

bool has_fitting_unit(const DeclaredValue& value, const DeclaredIndicator& indicator) {
  return std::any_of(indicator.units.begin(), indicator.units.end(),
                     [&](const std::string& unit) { return same_unit(unit, value.unit); });
}

/// The one figure of a module as the file states it; none with the gap noted when it is not usable.
const DeclaredValue* find_value(const Declaration& file, const Material& material, const DeclaredIndicator& indicator,
                                std::string_view module, OpenFinding& finding) {
  const auto values = values_of(file, material, indicator, module);
  if (values.empty()) return nullptr;
  if (values.size() > 1) {
    finding.evidence_gap("the declaration of material '" + material.name + "' has several figures of " +
                         indicator.names.front() + " for " + std::string(module) + scenarios_of(values) +
                         "; name one scenario in Panel_EnvironmentalDeclaration.Scenario");
    return nullptr;
  }
  const DeclaredValue& value = *values.front();
  if (has_fitting_unit(value, indicator)) return &value;
  finding.evidence_gap(value.value.origin.table + ", the declaration of material '" + material.name + "', states " +
                       value.indicator + (value.unit.empty() ? " without a unit" : " in '" + value.unit + "'") +
                       "; ask the supplier for it in " + indicator.units.front());
  return nullptr;
}

/// A file that states A1–A3 and the three modules must state the same twice, but for the rounding of each.
void check_parts(const Declaration& file, const Material& material, const DeclaredIndicator& indicator,
                 const DeclaredValue& whole, OpenFinding& finding) {
  double sum = 0.0;
  double size = 0.0;
  for (const char* part : kPartsOfProductStage) {
    const auto values = values_of(file, material, indicator, part);
    if (values.size() != 1) return;
    sum += values.front()->value.value;
    size += std::abs(values.front()->value.value);
  }
  if (std::abs(sum - whole.value.value) <= kAgreement * size) return;
  finding.evidence_gap("the declaration of material '" + material.name + "': " + indicator.names.front() +
                       " of A1-A3, " + shortest_text(whole.value.value) + " (" + describe(whole.value.origin) +
                       "), is not the sum of A1, A2 and A3, " + shortest_text(sum));
}

}  // namespace

std::vector<std::string> named_scenarios(const Material& material) {
  const auto named = material.properties.text(kDeclarationSet, "Scenario");
  return named ? split(named->value, ';') : std::vector<std::string>();
}

bool same_unit(std::string_view a, std::string_view b) {
  return bare_unit(a) == bare_unit(b);
}

std::optional<Sourced<double>> figure_in_file(const DeclaredMaterial& declared, const DeclaredIndicator& indicator,
                                              Module module, OpenFinding& finding) {
  const Declaration* file = declared.file;
  if (file == nullptr) return std::nullopt;
  const Material& material = *declared.material;
  const double units = units_behind_file(*file, material);
  if (const auto* value = find_value(*file, material, indicator, name_of(module).in_file, finding)) {
    if (module == Module::a1_a3) check_parts(*file, material, indicator, *value, finding);
    return Sourced<double>{value->value.value / units, value->value.origin};
  }
  if (module != Module::a1_a3) return std::nullopt;
  Sourced<double> sum;
  for (const char* part : kPartsOfProductStage) {
    const auto* value = find_value(*file, material, indicator, part, finding);
    if (value == nullptr) return std::nullopt;
    sum.value += value->value.value;
    sum.origin = value->value.origin;
  }
  sum.value /= units;
  return sum;
}

std::optional<Sourced<double>> figure_in_export(const DeclaredMaterial& declared, std::string_view property) {
  auto figure = declared.material->properties.number(kDeclarationSet, property);
  if (figure) figure->value /= units_behind_export(declared.file, *declared.material);
  return figure;
}

bool is_in_file(const DeclaredMaterial& declared, const DeclaredIndicator& indicator, Module module) {
  if (declared.file == nullptr) return false;
  const auto states = [&](std::string_view name) {
    return !values_of(*declared.file, *declared.material, indicator, name).empty();
  };
  if (states(name_of(module).in_file)) return true;
  return module == Module::a1_a3 && std::all_of(kPartsOfProductStage.begin(), kPartsOfProductStage.end(), states);
}

}  // namespace panel_dossier::carbon
