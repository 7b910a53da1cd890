#include "plugins/carbon/account/whole_life.h"

#include <cmath>
#include <map>
#include <string>

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/module_finding.h"
#include "plugins/carbon/account/per_area.h"
#include "plugins/carbon/declarations/declaration.h"
#include "plugins/carbon/totals/judged_targets.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::array kDataKinds{DataKind::specific, DataKind::average, DataKind::generic};

/// Share by which figures of each kind of data may be off, as far as the settings give one.
std::map<DataKind, double> read_uncertainties(const Settings& settings, FindingBuilder& builder) {
  std::map<DataKind, double> shares;
  for (const DataKind kind : kDataKinds) {
    const std::string word(to_string(kind));
    const auto setting = settings.number("carbon.uncertainty_" + word);
    if (!setting) continue;
    const auto share = builder.number("uncertainty of " + word + " data", "u", "", setting, {});
    if (share && *share < 0.0) builder.missing("setting 'carbon.uncertainty_" + word + "' is negative");
    if (share) shares[kind] = *share;
  }
  return shares;
}

/// Range of A–C in kg as if every figure were off the same way. None, with a note, when the settings or kinds of data
/// lack.
std::optional<double> add_range(const PanelAccount& account, double sum_kg, FindingBuilder& builder) {
  const auto shares = read_uncertainties(account.settings, builder);
  if (shares.empty()) return std::nullopt;
  ExactSum range;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const auto kind = data_kind(account.project, account.material(row));
    const auto share = kind ? shares.find(*kind) : shares.end();
    if (share == shares.end()) {
      builder.note("No range of uncertainty: the declaration of '" + account.material(row).name +
                   "' does not say whether its data are specific, average or generic, or the settings give no share.");
      return std::nullopt;
    }
    range.add(std::abs(whole_life_of(account.materials[row])) * share->second);
  }
  builder.step("uncertainty of the declarations", "Δ", range.total(), "kg CO2e", "Σ u · |A–C|");
  builder.step("least", "ΣA–C,min", sum_kg - range.total(), "kg CO2e", "ΣA–C − Δ");
  builder.step("most", "ΣA–C,max", sum_kg + range.total(), "kg CO2e", "ΣA–C + Δ");
  return range.total();
}

}  // namespace

Finding check_whole_life(const PanelAccount& account, const Finding& upstream) {
  OpenFinding finding = open_module(account, "carbon.whole_life", "Whole life A–C for each m² of wall, GWP-total",
                                    "EN 15978:2011, 11.1; EN 15804:2012+A2:2019, annex C");
  FindingBuilder& builder = finding.builder();
  finding.value_of(upstream);
  builder.table(module_table(account));
  const auto area = builder.positive("gross area of the panel", "A_g", "m²",
                                     Sourced<double>{account.panel.gross_area_m2(), account.panel.origin}, {});
  if (!finding.complete()) return finding.close_incomplete();
  builder.table(material_table(account));
  Gwp sum;
  for (const Module module : kModules) {
    if (module != Module::d) sum += module_sum(account, module).value_or(Gwp{});
  }
  builder.step("GWP-fossil, A–C", "fos", sum.fossil, "kg CO2e");
  builder.step("GWP-biogenic, A–C", "bio", sum.biogenic, "kg CO2e");
  builder.step("GWP-luluc, A–C", "luluc", sum.luluc, "kg CO2e");
  const auto range_kg = add_range(account, sum.total(), builder);
  const auto per_area = add_per_area(finding, kWholeLife, sum.total(), {*area, account.panel.opening_area_m2()});
  if (!per_area) return builder.not_assessed();
  if (range_kg) {
    const double net_m2 = *area - account.panel.opening_area_m2();
    builder.step("uncertainty for each m² of net wall area", "Δ/A", *range_kg / net_m2, "kg CO2e/m²");
    builder.note("Verdicts are of the value itself: a target nearer to it than Δ/A is neither surely kept nor missed.");
  }
  return judge_targets(finding, account.settings,
                       {{"", {kEveryPanel, account.panel.type}, {{TargetModules::a_c, *per_area}}}});
}

}  // namespace panel_dossier::carbon
