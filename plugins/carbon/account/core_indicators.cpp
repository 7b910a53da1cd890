#include "plugins/carbon/account/core_indicators.h"

#include <optional>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/core_indicator_sums.h"
#include "plugins/carbon/account/module_finding.h"
#include "plugins/carbon/account/per_area.h"
#include "plugins/carbon/declarations/declaration.h"

namespace panel_dossier::carbon {

namespace {

const std::array<std::vector<Module>, kCoreGroups.size()>& modules_of_groups() {
  static const std::array<std::vector<Module>, kCoreGroups.size()> kModulesOf{
      {{Module::a1_a3}, {kEndOfLife.begin(), kEndOfLife.end()}, {Module::d}}};
  return kModulesOf;
}

/// What a declaration lacks: `ODP, WDP (C1–C4, D)`; empty where it lacks nothing.
class Lacking {
 public:
  void add(const std::string& indicator, const CoreGroups& groups) {
    std::string absent;
    std::size_t count = 0;
    for (std::size_t i = 0; i < groups.size(); ++i) {
      if (groups[i].whole) continue;
      ++count;
      absent += (absent.empty() ? "" : ", ") + std::string(kCoreGroups[i]);
      any_ = any_ || groups[i].any;
    }
    any_ = any_ || count < groups.size();
    if (count == 0) return;
    text_ += (text_.empty() ? "" : ", ") + indicator;
    if (count < groups.size()) text_ += " (" + absent + ")";
  }

  bool everything() const { return !any_; }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
  bool any_ = false;  ///< it declares something
};

/// Mass of all materials; none, and no share of mass, where one has none.
std::optional<double> mass_of(const PanelAmounts& amounts) {
  ExactSum mass;
  for (const MaterialAmount& amount : amounts.materials) {
    if (!amount.mass_kg) return std::nullopt;
    mass.add(*amount.mass_kg);
  }
  return mass.total();
}

void add_material(const PanelAccount& account, std::size_t row, double units,
                  const std::vector<CoreIndicator>& indicators, OpenFinding& finding, std::vector<CoreSum>& sums,
                  std::string& without_any) {
  Lacking lacking;
  const double mass_kg = account.amounts.materials[row].mass_kg.value_or(0.0);
  for (std::size_t i = 0; i < indicators.size(); ++i) {
    const CoreGroups groups = core_groups(account.project, account.material(row), indicators[i], units, finding);
    lacking.add(sums[i].indicator, groups);
    sums[i].add(groups, mass_kg);
  }
  if (lacking.everything()) {
    without_any += (without_any.empty() ? "" : ", ") + account.label(row);
  } else if (!lacking.text().empty()) {
    finding.builder().note("The declaration of '" + account.label(row) + "' lacks " + lacking.text() + ".");
  }
}

}  // namespace

std::vector<CoreIndicator> read_core_indicators(const DataTable& table) {
  std::vector<CoreIndicator> indicators;
  for (const std::string& key : table.keys()) {
    CoreIndicator indicator{{{key}, {table.text(key, "unit").value().value}},
                            table.text(key, "printed_unit").value().value,
                            table.number(key, "per_unit").value().value};
    if (const auto name = table.text(key, "other_name")) indicator.declared.names.push_back(name->value);
    if (const auto unit = table.text(key, "other_unit")) indicator.declared.units.push_back(unit->value);
    indicators.push_back(std::move(indicator));
  }
  return indicators;
}

CoreGroups core_groups(const Project& project, const Material& material, const CoreIndicator& indicator, double units,
                       OpenFinding& finding) {
  CoreGroups groups;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    ExactSum sum;
    groups[i].whole = true;
    for (const Module module : modules_of_groups()[i]) {
      const auto figure = figure_in_file(project, material, indicator.declared, module, finding);
      groups[i].any = groups[i].any || figure;
      groups[i].whole = groups[i].whole && figure;
      if (figure) sum.add(figure->value * units * indicator.per_unit);
    }
    groups[i].sum = sum.total();
  }
  return groups;
}

Finding check_core_indicators(const PanelAccount& account, const Tables& tables) {
  OpenFinding finding = open_module(account, "carbon.core_indicators", "Core indicators beside global warming",
                                    "EN 15804:2012+A2:2019, table 3");
  FindingBuilder& builder = finding.builder();
  builder.basis(Basis::declared).decimals(0);
  const std::vector<CoreIndicator> indicators = read_core_indicators(tables.core_indicators);
  std::vector<CoreSum> sums;
  sums.reserve(indicators.size());
  for (const CoreIndicator& indicator : indicators) {
    sums.push_back({indicator.declared.names.front(), indicator.printed_unit});
  }
  std::string without_any;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    if (units) add_material(account, row, *units, indicators, finding, sums, without_any);
  }
  const WallAreas areas{account.panel.gross_area_m2(), account.panel.opening_area_m2()};
  if (areas.net_m2() <= 0.0) builder.missing("openings leave no net wall area; check their sizes in the export");
  if (!finding.complete()) return finding.close_incomplete();
  const auto mass_kg = mass_of(account.amounts);
  builder.step("net wall area", "A", areas.net_m2(), "m²");
  if (mass_kg) builder.step("mass of the materials", "m", *mass_kg, "kg");
  Table whole = core_table(sums, areas.net_m2());
  Table partial = core_partial_table(sums, mass_kg);
  if (!whole.rows.empty()) builder.table(std::move(whole));
  if (!partial.rows.empty()) builder.table(std::move(partial));
  if (!without_any.empty()) builder.note("No core indicator is read from a file for: " + without_any + ".");
  builder.note("Figures are those of the files that carbon.a1_a3 lists; carbon.declarations shows them by material.");
  double count = 0.0;
  for (const CoreSum& sum : sums) count += sum.whole() ? 1.0 : 0.0;
  return builder.inform(count, "indicators whole");
}

}  // namespace panel_dossier::carbon
