#include "plugins/carbon/declared_gwp.h"

#include <cmath>
#include <string>

#include "plugins/carbon/declaration.h"
#include "plugins/carbon/declared_amount.h"

namespace panel_dossier::carbon {

namespace {

struct Indicator {
  std::string_view name;         ///< in a declaration
  std::string_view in_property;  ///< in the name of a property of the export
};

constexpr Indicator kTotal{"GWP-total", "Total"};
constexpr Indicator kFossil{"GWP-fossil", "Fossil"};
constexpr Indicator kBiogenic{"GWP-biogenic", "Biogenic"};
constexpr Indicator kLuluc{"GWP-luluc", "Luluc"};

std::string property_of(const Indicator& indicator, Module module) {
  return "Gwp" + std::string(indicator.in_property) + std::string(name_of(module).in_property);
}

std::string label_of(const Indicator& indicator, Module module, const Material& material) {
  return std::string(indicator.name) + ", " + std::string(name_of(module).printed) + ", of '" + material.name + "'";
}

/// How many kg, m3, m2 or pieces the file's figures are for. 1 where file and export name no amount.
double units_behind_figures(const Declaration& file, const Material& material) {
  const double amount = file.amount ? file.amount->value : 1.0;
  const auto unit = file.unit ? file.unit : material.properties.text(kDeclarationSet, "DeclaredUnit");
  const auto word = unit ? unit_word(unit->value) : std::nullopt;
  return amount * (word ? word->factor : 1.0);
}

/// The one figure of a module as the file states it.
const DeclaredValue* find_value(const Declaration& file, const Material& material, std::string_view indicator,
                                std::string_view module, OpenFinding& finding) {
  const auto scenario = material.properties.text(kDeclarationSet, "Scenario");
  const DeclaredValue* found = nullptr;
  bool several = false;
  for (const DeclaredValue& value : file.values) {
    if (value.indicator != indicator || value.module != module) continue;
    if (scenario && !value.scenario.empty() && value.scenario != scenario->value) continue;
    several = several || found != nullptr;
    found = &value;
  }
  if (!several) return found;
  finding.evidence_gap("the declaration of material '" + material.name + "' has several figures of " +
                       std::string(indicator) + " for " + std::string(module) +
                       "; name one scenario in Panel_EnvironmentalDeclaration.Scenario");
  return nullptr;
}

/// File first, export beside it; where both are there they must agree. Absence is no gap here.
std::optional<Sourced<double>> find_figure(const Project& project, const Material& material, const Indicator& indicator,
                                           Module module, OpenFinding& finding) {
  const auto in_file = figure_in_file(project, material, indicator.name, module, finding);
  const std::string property = property_of(indicator, module);
  const auto in_export = material.properties.number(kDeclarationSet, property);
  if (in_file && in_export && !agree(in_file->value, in_export->value)) {
    finding.evidence_gap("material '" + material.name + "': " + property + " in the export is not that of the " +
                         "declaration (" + describe(in_file->origin) + "); correct the export");
  }
  return in_file ? in_file : in_export;
}

std::optional<double> record(const Indicator& indicator, Module module, const Material& material,
                             const std::optional<Sourced<double>>& figure, OpenFinding& finding) {
  return finding.builder().number(label_of(indicator, module, material), "", "kg CO2e per declared unit", figure, {});
}

void note_gap(const Project& project, const Material& material, const Indicator& indicator, Module module,
              OpenFinding& finding) {
  if (declaration_file(project, material) == nullptr) {
    finding.evidence_gap(lacks(material, property_of(indicator, module)));
  } else {
    finding.evidence_gap("the declaration of material '" + material.name + "' has no " + std::string(indicator.name) +
                         " for " + std::string(name_of(module).printed));
  }
}

/// Declared figures are rounded each, so their sum may differ from the total by the rounding of all four.
void check_sum(const Material& material, Module module, const Gwp& gwp, const std::optional<Sourced<double>>& total,
               OpenFinding& finding) {
  if (!total) return;
  const double sum = gwp.fossil + gwp.biogenic + gwp.luluc;
  const double rounding =
      kAgreement * (std::abs(gwp.fossil) + std::abs(gwp.biogenic) + std::abs(gwp.luluc) + std::abs(total->value));
  if (std::abs(sum - total->value) <= rounding) return;
  finding.evidence_gap("the declaration of material '" + material.name + "': GWP-total of " +
                       std::string(name_of(module).printed) +
                       " is not the sum of GWP-fossil, -biogenic and -luluc (EN 15804:2012+A2:2019, annex C)");
}

/// What a module declares: the three indicators, or the total alone.
struct ModuleFigures {
  std::optional<Sourced<double>> total;
  std::optional<Sourced<double>> fossil;
  std::optional<Sourced<double>> biogenic;
  std::optional<Sourced<double>> luluc;

  bool split() const { return fossil && biogenic && luluc; }
};

ModuleFigures find_figures(const Project& project, const Material& material, Module module, OpenFinding& finding) {
  return {find_figure(project, material, kTotal, module, finding),
          find_figure(project, material, kFossil, module, finding),
          find_figure(project, material, kBiogenic, module, finding),
          find_figure(project, material, kLuluc, module, finding)};
}

std::optional<Gwp> record_split(const Material& material, Module module, const ModuleFigures& figures,
                                OpenFinding& finding) {
  const auto fossil = record(kFossil, module, material, figures.fossil, finding);
  const auto luluc = record(kLuluc, module, material, figures.luluc, finding);
  const auto biogenic = record(kBiogenic, module, material, figures.biogenic, finding);
  if (!fossil || !biogenic || !luluc) return std::nullopt;
  const Gwp gwp{*fossil, *biogenic, *luluc};
  check_sum(material, module, gwp, figures.total, finding);
  return gwp;
}

/// What a declaration takes up it must give back. Declared values are rounded, and packaging returns in A5.
constexpr double kLeastShareReturned = 0.95;

/// Biogenic carbon that A1–A3 took up, to be given back (EN 15804:2012+A2:2019, 6.3.5.5: −1/+1).
double taken_up(double product_biogenic) {
  return product_biogenic < 0.0 ? -product_biogenic : 0.0;
}

}  // namespace

std::optional<Sourced<double>> figure_in_file(const Project& project, const Material& material,
                                              std::string_view indicator, Module module, OpenFinding& finding) {
  const Declaration* file = declaration_file(project, material);
  if (file == nullptr) return std::nullopt;
  const double units = units_behind_figures(*file, material);
  if (const auto* value = find_value(*file, material, indicator, name_of(module).in_file, finding)) {
    return Sourced<double>{value->value.value / units, value->value.origin};
  }
  if (module != Module::a1_a3) return std::nullopt;
  double sum = 0.0;
  const DeclaredValue* last = nullptr;
  for (const char* part : {"A1", "A2", "A3"}) {
    last = find_value(*file, material, indicator, part, finding);
    if (last == nullptr) return std::nullopt;
    sum += last->value.value;
  }
  return Sourced<double>{sum / units, last->value.origin};
}

std::optional<Gwp> read_product_gwp(const Project& project, const Material& material, OpenFinding& finding) {
  const ModuleFigures figures = find_figures(project, material, Module::a1_a3, finding);
  if (!figures.fossil) note_gap(project, material, kFossil, Module::a1_a3, finding);
  if (!figures.luluc) note_gap(project, material, kLuluc, Module::a1_a3, finding);
  if (!figures.biogenic) note_gap(project, material, kBiogenic, Module::a1_a3, finding);
  if (!figures.split()) return std::nullopt;
  return record_split(material, Module::a1_a3, figures, finding);
}

std::optional<Gwp> read_module_gwp(const Project& project, const Material& material, Module module, bool required,
                                   OpenFinding& finding) {
  const ModuleFigures figures = find_figures(project, material, module, finding);
  if (figures.split()) return record_split(material, module, figures, finding);
  if (!figures.total) {
    if (required) note_gap(project, material, kTotal, module, finding);
    return std::nullopt;
  }
  const auto total = record(kTotal, module, material, figures.total, finding);
  return total ? std::optional<Gwp>({*total, 0.0, 0.0}) : std::nullopt;
}

std::optional<std::array<Gwp, kEndOfLife.size()>> read_end_of_life_gwp(const Project& project, const Material& material,
                                                                       OpenFinding& finding) {
  std::array<std::optional<Gwp>, kEndOfLife.size()> read;
  for (std::size_t i = 0; i < kEndOfLife.size(); ++i) {
    read[i] = read_module_gwp(project, material, kEndOfLife[i], true, finding);
  }
  const auto product = find_figure(project, material, kBiogenic, Module::a1_a3, finding);
  if (!product) note_gap(project, material, kBiogenic, Module::a1_a3, finding);
  if (!read[0] || !read[1] || !read[2] || !read[3] || !product) return std::nullopt;
  const double to_return = taken_up(product->value);
  Gwp& c3 = *read[2];
  Gwp& c4 = *read[3];
  const bool split = c3.biogenic != 0.0 || c4.biogenic != 0.0;
  const double returned = split ? c3.biogenic + c4.biogenic : c3.fossil + c4.fossil;
  if (returned < kLeastShareReturned * to_return) {
    finding.evidence_gap("the declaration of material '" + material.name +
                         "' does not give back in GwpTotalC3 and GwpTotalC4 the biogenic carbon that GwpBiogenicA1A3 "
                         "takes up (EN 15804:2012+A2:2019, 6.3.5.5)");
  } else if (!split && to_return > 0.0) {
    for (Gwp* module : {&c3, &c4}) {
      module->biogenic = to_return * module->fossil / returned;
      module->fossil -= module->biogenic;
    }
  }
  return std::array<Gwp, kEndOfLife.size()>{*read[0], *read[1], c3, c4};
}

}  // namespace panel_dossier::carbon
