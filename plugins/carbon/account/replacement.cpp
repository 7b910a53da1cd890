#include <cmath>
#include <map>
#include <utility>

#include "plugins/carbon/account/layers_in_the_way.h"
#include "plugins/carbon/account/module_finding.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

namespace {

/// What one replacement is made of: the new product and the end of the old one.
constexpr std::array kOfReplacement{Module::a1_a3, Module::a4, Module::a5, Module::c1,
                                    Module::c2,    Module::c3, Module::c4};
constexpr std::array kDeclaredUse{Module::b1, Module::b2, Module::b3, Module::b5};

std::optional<double> read_service_life(const PanelAccount& account, const Material& material, OpenFinding& finding) {
  const Declaration* file = declaration_file(account.project, material);
  auto life = material.properties.number("Panel_Supply", "ServiceLife");
  if (!life && file != nullptr) life = file->reference_service_life;
  return finding.builder().positive(
      "service life of '" + material.name + "'", "ESL", "years", life,
      "material '" + material.name +
          "' has no Panel_Supply.ServiceLife, and its declaration no reference service life");
}

std::optional<Gwp> one_replacement(const MaterialAccount& entry) {
  Gwp gwp;
  for (const Module module : kOfReplacement) {
    if (!entry.at(module)) return std::nullopt;
    gwp += *entry.at(module);
  }
  return gwp;
}

/// B1–B3 and B5 as declared for the service life of one product: of each product built in over the study period, but an
/// uptake, as by carbonation, of the `lives` alone that the period holds.
Gwp add_declared_use(PanelAccount& account, std::size_t row, double products, double lives, OpenFinding& finding) {
  Gwp sum;
  for (const Module module : kDeclaredUse) {
    const auto per_unit = read_module_gwp(account.project, account.material(row), module, false, finding);
    if (!per_unit) continue;
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    if (!units) continue;
    const Gwp gwp = scaled(*per_unit, *units * (per_unit->total() < 0.0 ? lives : products));
    account.materials[row].at(module) = gwp;
    sum += gwp;
  }
  return sum;
}

}  // namespace

double replacements(double study_period, double service_life) {
  return std::ceil(study_period / service_life - 1.0) + 0.0;  // a life longer than the period gives −0
}

Finding check_replacement(PanelAccount& account, const Finding& upstream) {
  OpenFinding finding = open_module(account, "carbon.b4", "Replacement B4 over the study period (fossil and land use)",
                                    "EN 15978:2011, 8.6 and 9.3.3");
  finding.value_of(upstream);
  const auto period =
      finding.builder().positive("study period", "ReqSL", "years", account.settings.number("carbon.study_period_years"),
                                 "setting 'carbon.study_period_years' is missing");
  Table table{
      "Materials replaced", {{"material", ""}, {"service life", "years"}, {"times", ""}, {"B4", "kg CO2e"}}, {}};
  Gwp sum;
  Gwp use;
  std::map<std::size_t, double> times_of_material;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    MaterialAccount& entry = account.materials[row];
    const auto life = read_service_life(account, account.material(row), finding);
    const auto each = one_replacement(entry);
    if (!period || !life || !each) continue;
    const double times = replacements(*period, *life);
    entry.at(Module::b4) = scaled(*each, times);
    sum += *entry.at(Module::b4);
    use += add_declared_use(account, row, times + 1.0, *period / *life, finding);
    times_of_material[account.amounts.materials[row].material] = times;
    if (times <= 0.0) continue;
    table.rows.push_back({account.label(row), *life, times, entry.at(Module::b4)->fossil_and_luluc()});
  }
  if (!table.rows.empty()) finding.builder().table(std::move(table));
  if (!finding.complete()) return finding.close_incomplete();
  finding.builder().step("replacement", "B4", sum.fossil_and_luluc(), "kg CO2e",
                         "Σ ⌈ReqSL / ESL − 1⌉ · (A1–A3 + A4 + A5 + C1–C4)");
  finding.builder().step("GWP-biogenic, shown apart", "B4,bio", sum.biogenic, "kg CO2e");
  finding.builder().step("use, maintenance, repair and refurbishment as declared", "B1–B3, B5", use.total(), "kg CO2e");
  for (std::string& note : layers_in_the_way(account.panel, account.project, times_of_material)) {
    finding.builder().note(std::move(note));
  }
  finding.builder().note(
      "A material is replaced alone: what must come off with it, and work on site, are not counted. B1–B3 and B5 hold "
      "only what declarations state.");
  return finding.builder().inform(sum.fossil_and_luluc(), "kg CO2e");
}

}  // namespace panel_dossier::carbon
