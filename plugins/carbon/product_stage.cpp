#include "core/api/exact_sum.h"
#include "plugins/carbon/declaration.h"
#include "plugins/carbon/module_finding.h"
#include "plugins/carbon/modules.h"

namespace panel_dossier::carbon {

Finding check_product_stage(PanelAccount& account) {
  OpenFinding finding = open_module(account, "carbon.a1_a3", "Product stage A1–A3 (fossil and land use)",
                                    "EN 15978:2011, 8.4; EN 15804:2012+A2:2019, 6.3.5.2");
  Table table{"By material",
              {{"material", ""},
               {"amount", "declared units"},
               {"GWP-fossil + GWP-luluc", "kg CO2e"},
               {"GWP-biogenic", "kg CO2e"}},
              {}};
  ExactSum sum;
  ExactSum biogenic_sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const Material& material = account.material(row);
    const auto units = read_declared_units(account, row, Listing::whole, finding);
    const auto fossil = read_indicator(material, kFossilA1A3, finding);
    const auto luluc = read_indicator(material, kLulucA1A3, finding);
    const auto biogenic = read_indicator(material, kBiogenicA1A3, finding);
    if (!units || !fossil || !luluc || !biogenic) continue;
    MaterialAccount& entry = account.materials[row];
    entry.product_fossil_luluc = rounded_to_millionth(*units * (*fossil + *luluc));
    entry.product_biogenic = rounded_to_millionth(*units * *biogenic);
    sum.add(*entry.product_fossil_luluc);
    biogenic_sum.add(*entry.product_biogenic);
    table.rows.push_back({material.name, *units, *entry.product_fossil_luluc, *entry.product_biogenic});
  }
  finding.builder().table(std::move(table));
  if (!finding.complete()) return finding.close_incomplete();
  finding.builder().step("GWP-fossil + GWP-luluc", "A1–A3", sum.total(), "kg CO2e", "Σ q · (GWP-fossil + GWP-luluc)");
  finding.builder().step("GWP-biogenic, shown apart", "A1–A3,bio", biogenic_sum.total(), "kg CO2e",
                         "Σ q · GWP-biogenic");
  finding.builder().step("GWP-total", "A1–A3,tot", sum.total() + biogenic_sum.total(), "kg CO2e", "A1–A3 + A1–A3,bio");
  finding.builder().note(
      "The value leaves out biogenic carbon: what growing wood took up (−1) leaves the panel again in C3 or C4 (+1), "
      "so "
      "it is no saving over the whole life (EN 15804:2012+A2:2019, 6.3.5.5). Both are printed and never netted off.");
  return finding.builder().inform(sum.total(), "kg CO2e");
}

}  // namespace panel_dossier::carbon
