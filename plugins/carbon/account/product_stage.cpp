#include "plugins/carbon/account/module_finding.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

Finding check_product_stage(PanelAccount& account) {
  OpenFinding finding = open_module(account, "carbon.a1_a3", "Product stage A1–A3 (fossil and land use)",
                                    "EN 15978:2011, 8.4; EN 15804:2012+A2:2019, 6.3.5.2");
  Table table{"By material",
              {{"material", ""},
               {"amount", "declared units"},
               {"GWP-fossil", "kg CO2e"},
               {"GWP-luluc", "kg CO2e"},
               {"GWP-biogenic", "kg CO2e"},
               {"GWP-total", "kg CO2e"}},
              {}};
  Gwp sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const Material& material = account.material(row);
    const std::size_t gaps = finding.evidence_gaps();
    const auto units = read_declared_units(account, row, Listing::whole, finding);
    const auto per_unit = read_product_gwp(account.project, material, finding);
    if (!units || !per_unit) continue;
    const Gwp gwp = scaled(*per_unit, *units);
    // What rests on an absent, faulty or expired declaration is shown here alone and goes into no table of modules.
    if (finding.evidence_gaps() == gaps) account.materials[row].at(Module::a1_a3) = gwp;
    sum += gwp;
    table.rows.push_back({account.label(row), *units, gwp.fossil, gwp.luluc, gwp.biogenic, gwp.total()});
  }
  finding.builder().table(std::move(table));
  if (!finding.complete()) return finding.close_incomplete();
  finding.builder().step("GWP-fossil + GWP-luluc", "A1–A3", sum.fossil_and_luluc(), "kg CO2e",
                         "Σ q · (GWP-fossil + GWP-luluc)");
  finding.builder().step("GWP-biogenic, shown apart", "A1–A3,bio", sum.biogenic, "kg CO2e", "Σ q · GWP-biogenic");
  finding.builder().step("GWP-total", "A1–A3,tot", sum.total(), "kg CO2e", "A1–A3 + A1–A3,bio");
  finding.builder().note(
      "The value leaves out biogenic carbon: what growing wood took up (−1) leaves the panel again in C3 or C4 (+1), "
      "so "
      "it is no saving over the whole life (EN 15804:2012+A2:2019, 6.3.5.5). Both are printed and never netted off.");
  return finding.builder().inform(sum.fossil_and_luluc(), "kg CO2e");
}

}  // namespace panel_dossier::carbon
