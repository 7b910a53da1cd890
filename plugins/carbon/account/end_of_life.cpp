#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/module_finding.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

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
  Gwp sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const Material& material = account.material(row);
    const std::size_t gaps = finding.evidence_gaps();
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    const auto per_unit = read_end_of_life_gwp(account.project, material, finding);
    if (!units || !per_unit) continue;
    std::vector<Value> cells{account.label(row)};
    Gwp of_material;
    for (std::size_t i = 0; i < kEndOfLife.size(); ++i) {
      const Gwp gwp = scaled((*per_unit)[i], *units);
      if (finding.evidence_gaps() == gaps) account.materials[row].at(kEndOfLife[i]) = gwp;
      of_material += gwp;
      cells.emplace_back(gwp.total());
    }
    sum += of_material;
    cells.emplace_back(of_material.biogenic);
    table.rows.push_back(std::move(cells));
  }
  finding.builder().table(std::move(table));
  if (!finding.complete()) return finding.close_incomplete();
  finding.builder().step("GWP-total", "C1–C4", sum.total(), "kg CO2e", "Σ q · (C1 + C2 + C3 + C4)");
  finding.builder().step("of that, biogenic carbon returned (+1)", "C,bio", sum.biogenic, "kg CO2e",
                         "Σ q · GWP-biogenic C1–C4");
  finding.builder().step("fossil and land use", "C,fos", sum.fossil_and_luluc(), "kg CO2e", "C1–C4 − C,bio");
  finding.builder().note(
      "The value holds the biogenic carbon that leaves the panel at the end of its life (+1). It was taken up in A1–A3 "
      "(−1) and is shown there apart; add both or neither. Where C3 and C4 are declared as GWP-total alone, what A1–A3 "
      "took up is their biogenic part and the rest counts as fossil.");
  return finding.builder().inform(sum.total(), "kg CO2e");
}

Finding check_beyond_boundary(PanelAccount& account) {
  OpenFinding finding =
      open_module(account, "carbon.d", "Benefits and loads beyond the boundary D", "EN 15978:2011, 8.8");
  Table table{"By material, GWP-total", {{"material", ""}, {"D", "kg CO2e"}}, {}};
  ExactSum sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const Material& material = account.material(row);
    const std::size_t gaps = finding.evidence_gaps();
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    const auto per_unit = read_module_gwp(account.project, material, Module::d, true, finding);
    if (!units || !per_unit) continue;
    const Gwp gwp = scaled(*per_unit, *units);
    if (finding.evidence_gaps() == gaps) account.materials[row].at(Module::d) = gwp;
    sum.add(gwp.total());
    table.rows.push_back({account.label(row), gwp.total()});
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
