#include "plugins/carbon/declarations/declared_gwp.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/api/support/words.h"
#include "plugins/carbon/account/biogenic_storage.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/declarations/declarations_check.h"
#include "plugins/carbon/declarations/declared_figure.h"

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

DeclaredIndicator in_declaration(const Indicator& indicator) {
  return {{std::string(indicator.name)}, {"kg CO2 eq."}};
}

std::string property_of(const Indicator& indicator, Module module) {
  return "Gwp" + std::string(indicator.in_property) + std::string(name_of(module).in_property);
}

std::string label_of(const Indicator& indicator, Module module, const Material& material) {
  return std::string(indicator.name) + ", " + std::string(name_of(module).printed) + ", of '" + material.name + "'";
}

/// File first, export beside it; where both are there they must agree. Absence is no gap here.
std::optional<Sourced<double>> find_figure(const DeclaredMaterial& declared, const Indicator& indicator, Module module,
                                           OpenFinding& finding) {
  const auto in_file = figure_in_file(declared, in_declaration(indicator), module, finding);
  const std::string property = property_of(indicator, module);
  const auto in_export = figure_in_export(declared, property);
  if (in_file && in_export && !agree(in_file->value, in_export->value)) {
    finding.evidence_gap("material '" + declared.name() + "': " + property + " in the export is not that of the " +
                         "declaration (" + describe(in_file->origin) + "); correct the export");
  }
  return in_file ? in_file : in_export;
}

std::optional<double> record(const Indicator& indicator, Module module, const Material& material,
                             const std::optional<Sourced<double>>& figure, OpenFinding& finding) {
  return finding.builder().number(label_of(indicator, module, material), "", "kg CO2e per declared unit", figure, {});
}

void note_gap(const DeclaredMaterial& declared, const Indicator& indicator, Module module, OpenFinding& finding) {
  if (is_in_file(declared, in_declaration(indicator), module)) return;  // reading it has noted why it is unusable
  if (declared.file == nullptr) {
    finding.evidence_gap(lacks(*declared.material, property_of(indicator, module)));
  } else {
    finding.evidence_gap("the declaration of material '" + declared.name() + "' has no " + std::string(indicator.name) +
                         " for " + std::string(name_of(module).printed));
  }
}

/// Declared figures are rounded each, so their sum may differ from the total: genuine declarations stray by 0.2 %.
void check_sum(const Material& material, Module module, const Gwp& gwp, const std::optional<Sourced<double>>& total,
               OpenFinding& finding) {
  if (!total) return;
  const double sum = gwp.fossil + gwp.biogenic + gwp.luluc;
  const double rounding = kAgreement * (std::abs(gwp.fossil) + std::abs(gwp.biogenic) + std::abs(gwp.luluc));
  if (std::abs(sum - total->value) <= rounding) return;
  finding.evidence_gap("the declaration of material '" + material.name + "': GWP-total of " +
                       std::string(name_of(module).printed) +
                       " is not the sum of GWP-fossil, -biogenic and -luluc (EN 15804:2012+A2:2019, annex C): " +
                       shortest_text(total->value) + " beside " + fixed_text(sum, 3));
}

/// Taking down and carrying away emit: a figure below nothing is a slip of sign or of column.
void check_sign(const Material& material, Module module, double fossil, OpenFinding& finding) {
  if ((module != Module::c1 && module != Module::c2) || fossil >= 0.0) return;
  finding.evidence_gap("the declaration of material '" + material.name + "': the fossil carbon of " +
                       std::string(name_of(module).printed) + " is negative (" + shortest_text(fossil) + ")");
}

/// What a module declares: the three indicators, or the total alone.
struct ModuleFigures {
  std::optional<Sourced<double>> total;
  std::optional<Sourced<double>> fossil;
  std::optional<Sourced<double>> biogenic;
  std::optional<Sourced<double>> luluc;

  bool split() const { return fossil && biogenic && luluc; }
};

ModuleFigures find_figures(const DeclaredMaterial& declared, Module module, OpenFinding& finding) {
  return {find_figure(declared, kTotal, module, finding), find_figure(declared, kFossil, module, finding),
          find_figure(declared, kBiogenic, module, finding), find_figure(declared, kLuluc, module, finding)};
}

std::optional<Gwp> record_split(const Material& material, Module module, const ModuleFigures& figures,
                                OpenFinding& finding) {
  const auto fossil = record(kFossil, module, material, figures.fossil, finding);
  const auto luluc = record(kLuluc, module, material, figures.luluc, finding);
  const auto biogenic = record(kBiogenic, module, material, figures.biogenic, finding);
  if (!fossil || !biogenic || !luluc) return std::nullopt;
  const Gwp gwp{*fossil, *biogenic, *luluc};
  check_sum(material, module, gwp, figures.total, finding);
  check_sign(material, module, gwp.fossil, finding);
  return gwp;
}

/// A module as read, and whether its biogenic part is declared: 0 is then a statement, not a gap.
struct ModuleGwp {
  Gwp gwp;
  bool biogenic_is_declared = false;
};

std::optional<ModuleGwp> read_module(const DeclaredMaterial& declared, Module module, bool required,
                                     OpenFinding& finding) {
  const std::size_t gaps = finding.evidence_gaps();
  const ModuleFigures figures = find_figures(declared, module, finding);
  const bool is_stated = finding.evidence_gaps() > gaps;  // and reading it has noted why it is unusable
  if (figures.split()) {
    const auto gwp = record_split(*declared.material, module, figures, finding);
    return gwp ? std::optional<ModuleGwp>({*gwp, true}) : std::nullopt;
  }
  if (!figures.total) {
    if (required && !is_stated) note_gap(declared, kTotal, module, finding);
    return std::nullopt;
  }
  const Material& material = *declared.material;
  const auto total = record(kTotal, module, material, figures.total, finding);
  if (!total) return std::nullopt;
  if (!figures.biogenic) {
    check_sign(material, module, *total, finding);
    return ModuleGwp{{*total, 0.0, 0.0}, false};
  }
  const auto biogenic = record(kBiogenic, module, material, figures.biogenic, finding);
  if (!biogenic) return std::nullopt;
  const Gwp gwp{*total - *biogenic, *biogenic, 0.0};
  if (figures.fossil) {
    check_sum(material, module, {figures.fossil->value, *biogenic, 0.0}, figures.total, finding);
  }
  check_sign(material, module, gwp.fossil, finding);
  return ModuleGwp{gwp, true};
}

/// What a declaration takes up it must give back. Declared values are rounded.
constexpr double kLeastShareReturned = 0.95;
/// Of wood: packaging is a few per cent of what it holds (common practice).
constexpr double kMostPackagingOfWood = 0.1;

/// What C3 and C4 declare as returned beyond what was taken up is a slip of sign or of column. Figures near nothing
/// stray by their rounding and by methods of counting: allowed is a tenth, or a twentieth of the fossil carbon of
/// A1–A3.
void check_return(const DeclaredMaterial& declared, double taken_up, const ModuleGwp& c3, const ModuleGwp& c4,
                  OpenFinding& finding) {
  constexpr double kAllowed = 1.1;
  constexpr double kOfFossil = 0.05;
  double returned = 0.0;
  for (const ModuleGwp* module : {&c3, &c4}) {
    if (module->biogenic_is_declared) returned += module->gwp.biogenic;
  }
  const auto product = product_gwp_of(declared);
  const double allowance = product ? kOfFossil * std::abs(product->fossil) : 0.0;
  if (returned <= kAllowed * std::max(taken_up, 0.0) + allowance) return;
  finding.evidence_gap("the declaration of material '" + declared.name() + "' gives back in C3 and C4 " +
                       shortest_text(returned) + " kg CO2e of biogenic carbon but takes up " +
                       shortest_text(std::max(taken_up, 0.0)) + " in A1–A3 (EN 15804:2012+A2:2019, 6.3.5.5)");
}

/// Shares out the biogenic carbon that A1–A3 took up (above 0) and nothing declares as returned: see
/// `read_end_of_life_gwp`. `declared_a5` is at least 0. None where it is not given back; else the packaging's.
std::optional<double> return_biogenic(double taken_up, double declared_a5, ModuleGwp& c3, ModuleGwp& c4) {
  double returned = 0.0;
  double in_totals = 0.0;
  for (const ModuleGwp* module : {&c3, &c4}) {
    if (module->biogenic_is_declared) {
      returned += module->gwp.biogenic;
    } else {
      in_totals += std::max(module->gwp.fossil, 0.0);
    }
  }
  const double packaging = std::clamp(taken_up - returned, 0.0, declared_a5);
  returned += packaging;
  const double from_totals = std::clamp(taken_up - returned, 0.0, in_totals);
  if (returned + from_totals < kLeastShareReturned * taken_up) return std::nullopt;
  if (from_totals <= 0.0) return packaging;
  const double share = from_totals / in_totals;
  for (ModuleGwp* module : {&c3, &c4}) {
    if (module->biogenic_is_declared || module->gwp.fossil <= 0.0) continue;
    module->gwp.biogenic = module->gwp.fossil * share;
    module->gwp.fossil -= module->gwp.biogenic;
  }
  return packaging;
}

}  // namespace

std::vector<CheckInput> declared_gwp_inputs(const std::vector<Module>& modules) {
  const std::string set = std::string(kDeclarationSet) + ".";
  std::vector<CheckInput> inputs;
  for (const Module module : modules) {
    for (const Indicator& indicator : {kTotal, kFossil, kBiogenic, kLuluc}) {
      inputs.push_back(optional_property(set + property_of(indicator, module)));
    }
  }
  inputs.push_back(optional_property(set + "Scenario"));
  return inputs;
}

std::optional<Gwp> read_product_gwp(const DeclaredMaterial& declared, OpenFinding& finding) {
  const ModuleFigures figures = find_figures(declared, Module::a1_a3, finding);
  if (!figures.fossil) note_gap(declared, kFossil, Module::a1_a3, finding);
  if (!figures.luluc) note_gap(declared, kLuluc, Module::a1_a3, finding);
  if (!figures.biogenic) note_gap(declared, kBiogenic, Module::a1_a3, finding);
  if (!figures.split()) return std::nullopt;
  return record_split(*declared.material, Module::a1_a3, figures, finding);
}

std::optional<Gwp> read_module_gwp(const DeclaredMaterial& declared, Module module, bool required,
                                   OpenFinding& finding) {
  const auto read = read_module(declared, module, required, finding);
  return read ? std::optional<Gwp>(read->gwp) : std::nullopt;
}

std::optional<Gwp> product_gwp_of(const DeclaredMaterial& declared) {
  OpenFinding unseen(kDeclarationsCheck, "");
  const ModuleFigures figures = find_figures(declared, Module::a1_a3, unseen);
  if (!figures.split()) return std::nullopt;
  return Gwp{figures.fossil->value, figures.biogenic->value, figures.luluc->value};
}

std::optional<ReturnedGwp> read_end_of_life_gwp(const DeclaredMaterial& declared, OpenFinding& finding) {
  const Material& material = *declared.material;
  std::array<std::optional<ModuleGwp>, kEndOfLife.size()> read;
  for (std::size_t i = 0; i < kEndOfLife.size(); ++i) {
    read[i] = read_module(declared, kEndOfLife[i], true, finding);
  }
  const auto product = find_figure(declared, kBiogenic, Module::a1_a3, finding);
  if (!product) note_gap(declared, kBiogenic, Module::a1_a3, finding);
  if (!read[0] || !read[1] || !read[2] || !read[3] || !product) return std::nullopt;
  check_return(declared, -product->value, *read[2], *read[3], finding);
  double packaging = 0.0;
  // EN 15804:2012+A2:2019, 6.3.5.5: −1 in A1–A3; +1 at the end of life, and of packaging where it is disposed of.
  if (product->value < 0.0) {
    const double taken_up = -product->value;
    const auto a5 = find_figure(declared, kBiogenic, Module::a5, finding);
    if (a5) record(kBiogenic, Module::a5, material, a5, finding);
    const double most = is_wood(material) ? kMostPackagingOfWood * taken_up : taken_up;
    const double declared_a5 = std::clamp(a5 ? a5->value : 0.0, 0.0, most);
    const auto returned = return_biogenic(taken_up, declared_a5, *read[2], *read[3]);
    if (!returned) {
      finding.evidence_gap("the declaration of material '" + declared.name() +
                           "' does not give back in C3 and C4, nor of packaging in A5, the biogenic carbon that A1–A3 "
                           "takes up (EN 15804:2012+A2:2019, 6.3.5.5)");
    }
    packaging = returned.value_or(0.0);
  }
  return ReturnedGwp{{read[0]->gwp, read[1]->gwp, read[2]->gwp, read[3]->gwp}, packaging};
}

}  // namespace panel_dossier::carbon
