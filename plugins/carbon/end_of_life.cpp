#include "core/api/exact_sum.h"
#include "plugins/carbon/declaration.h"
#include "plugins/carbon/module_finding.h"
#include "plugins/carbon/modules.h"

namespace panel_dossier::carbon {

namespace {

struct EndOfLifeFactors {
  double c1 = 0.0;
  double c2 = 0.0;
  double c3 = 0.0;
  double c4 = 0.0;
  double biogenic_a1_a3 = 0.0;
};

/// What a declaration takes up it must give back. Declared values are rounded, and packaging returns in A5.
bool returns_its_carbon(const EndOfLifeFactors& factors) {
  constexpr double kLeastShare = 0.95;
  return factors.c3 + factors.c4 >= kLeastShare * returned_biogenic(factors.biogenic_a1_a3);
}

std::optional<EndOfLifeFactors> read_factors(const Material& material, OpenFinding& finding) {
  const auto c1 = read_indicator(material, kTotalC1, finding);
  const auto c2 = read_indicator(material, kTotalC2, finding);
  const auto c3 = read_indicator(material, kTotalC3, finding);
  const auto c4 = read_indicator(material, kTotalC4, finding);
  const auto biogenic = read_indicator(material, kBiogenicA1A3, finding);
  if (!c1 || !c2 || !c3 || !c4 || !biogenic) return std::nullopt;
  const EndOfLifeFactors factors{*c1, *c2, *c3, *c4, *biogenic};
  if (!returns_its_carbon(factors)) {
    finding.evidence_gap("the declaration of material '" + material.name +
                         "' does not give back in GwpTotalC3 and GwpTotalC4 the biogenic carbon that GwpBiogenicA1A3 "
                         "takes up (EN 15804:2012+A2:2019, 6.3.5.5)");
  }
  return factors;
}

}  // namespace

Finding check_end_of_life(PanelAccount& account) {
  OpenFinding finding =
      open_module(account, "carbon.c1_c4", "End of life C1–C4", "EN 15978:2011, 8.7; EN 15804:2012+A2:2019, 6.3.5.5");
  Table table{"By material, GWP-total",
              {{"material", ""},
               {"C1", "kg CO2e"},
               {"C2", "kg CO2e"},
               {"C3", "kg CO2e"},
               {"C4", "kg CO2e"},
               {"biogenic returned", "kg CO2e"}},
              {}};
  ExactSum sum;
  ExactSum returned_sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const Material& material = account.material(row);
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    const auto factors = read_factors(material, finding);
    if (!units || !factors) continue;
    const double c1 = rounded_to_millionth(*units * factors->c1);
    const double c2 = rounded_to_millionth(*units * factors->c2);
    const double c3 = rounded_to_millionth(*units * factors->c3);
    const double c4 = rounded_to_millionth(*units * factors->c4);
    const double returned = rounded_to_millionth(*units * returned_biogenic(factors->biogenic_a1_a3));
    account.materials[row].deconstruction = c1;
    account.materials[row].end_of_life = ExactSum().add(c2).add(c3).add(c4).total();
    sum.add(c1).add(*account.materials[row].end_of_life);
    returned_sum.add(returned);
    table.rows.push_back({material.name, c1, c2, c3, c4, returned});
  }
  finding.builder().table(std::move(table));
  if (!finding.complete()) return finding.close_incomplete();
  finding.builder().step("GWP-total", "C1–C4", sum.total(), "kg CO2e", "Σ q · (C1 + C2 + C3 + C4)");
  finding.builder().step("of that, biogenic carbon returned (+1)", "C,bio", returned_sum.total(), "kg CO2e",
                         "Σ q · max(0, −GWP-biogenic A1–A3)");
  finding.builder().step("fossil and land use", "C,fos", sum.total() - returned_sum.total(), "kg CO2e",
                         "C1–C4 − C,bio");
  finding.builder().note(
      "The value holds the biogenic carbon that leaves the panel at the end of its life (+1). It was taken up in A1–A3 "
      "(−1) and is shown there apart; add both or neither. Declarations, their units and validity are listed in "
      "carbon.a1_a3.");
  return finding.builder().inform(sum.total(), "kg CO2e");
}

Finding check_beyond_boundary(const PanelAccount& account) {
  OpenFinding finding =
      open_module(account, "carbon.d", "Benefits and loads beyond the boundary D", "EN 15978:2011, 8.8");
  Table table{"By material, GWP-total", {{"material", ""}, {"D", "kg CO2e"}}, {}};
  ExactSum sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    const auto factor = read_indicator(account.material(row), kTotalD, finding);
    if (!units || !factor) continue;
    const double value = rounded_to_millionth(*units * *factor);
    sum.add(value);
    table.rows.push_back({account.material(row).name, value});
  }
  finding.builder().table(std::move(table));
  if (!finding.complete()) return finding.close_incomplete();
  finding.builder().step("module D", "D", sum.total(), "kg CO2e", "Σ q · D");
  finding.builder().note(
      "Module D lies outside the life of the panel and is added to no total. Declarations, their units and validity "
      "are listed in carbon.a1_a3.");
  return finding.builder().inform(sum.total(), "kg CO2e");
}

}  // namespace panel_dossier::carbon
