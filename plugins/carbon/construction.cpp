#include "core/api/exact_sum.h"
#include "plugins/carbon/declaration.h"
#include "plugins/carbon/module_finding.h"
#include "plugins/carbon/modules.h"

namespace panel_dossier::carbon {

namespace {

/// 1 / (1 − w) − 1; none when the rate is missing or no share.
std::optional<double> read_waste_factor(const Material& material, OpenFinding& finding) {
  const auto rate = read_waste_rate(material, finding);
  if (!rate) return std::nullopt;
  if (*rate < 0.0 || *rate >= 1.0) {
    finding.builder().missing("material '" + material.name +
                              "': Panel_EnvironmentalDeclaration.WasteRateA5 must be at least 0 and below 1");
    return std::nullopt;
  }
  return waste_factor(*rate);
}

/// Site assembly in kg CO2e; none when the setting is missing or unusable.
std::optional<double> read_site_assembly(const PanelAccount& account, FindingBuilder& builder) {
  const auto per_area = builder.number("GWP of assembly on site", "e", "kg CO2e/m²",
                                       account.settings.number("carbon.site_assembly_gwp_kgco2e_per_m2"),
                                       "setting 'carbon.site_assembly_gwp_kgco2e_per_m2' is missing");
  const auto area = builder.positive("gross area of the panel", "A", "m²",
                                     Sourced<double>{account.panel.gross_area_m2(), account.panel.origin}, {});
  if (!per_area || !area) return std::nullopt;
  return rounded_to_millionth(*per_area * *area);
}

}  // namespace

double waste_factor(double waste_rate) {
  return 1.0 / (1.0 - waste_rate) - 1.0;
}

Finding check_construction(const PanelAccount& account, const std::vector<const Finding*>& upstream) {
  OpenFinding finding =
      open_module(account, "carbon.a5", "Waste and assembly A5 (fossil and land use)", "EN 15978:2011, 8.5");
  for (const Finding* earlier : upstream) finding.value_of(*earlier);
  Table table{"Waste by material",
              {{"material", ""},
               {"waste factor", ""},
               {"A1–A3", "kg CO2e"},
               {"A4", "kg CO2e"},
               {"C2–C4 less biogenic", "kg CO2e"},
               {"A5 of waste", "kg CO2e"}},
              {}};
  ExactSum waste;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const MaterialAccount& entry = account.materials[row];
    const auto factor = read_waste_factor(account.material(row), finding);
    if (!factor || !entry.product_fossil_luluc || !entry.product_biogenic || !entry.transport || !entry.end_of_life) {
      continue;
    }
    const double disposal = rounded_to_millionth(*entry.end_of_life - returned_biogenic(*entry.product_biogenic));
    const double value = rounded_to_millionth(*factor * (*entry.product_fossil_luluc + *entry.transport + disposal));
    waste.add(value);
    table.rows.push_back(
        {account.material(row).name, *factor, *entry.product_fossil_luluc, *entry.transport, disposal, value});
  }
  finding.builder().table(std::move(table));
  const auto site = read_site_assembly(account, finding.builder());
  if (!finding.complete()) return finding.close_incomplete();
  const double total = ExactSum().add(waste.total()).add(*site).total();
  finding.builder().step("waste of materials", "A5,w", waste.total(), "kg CO2e",
                         "Σ (1 / (1 − w) − 1) · (A1–A3 + A4 + C2–C4 less biogenic)");
  finding.builder().step("assembly on site", "A5,a", *site, "kg CO2e", "e · A");
  finding.builder().step("waste and assembly", "A5", total, "kg CO2e", "A5,w + A5,a");
  finding.builder().note(
      "w is the share of the material bought that is lost before the panel is finished, so 1 / (1 − w) − 1 is lost for "
      "each unit built in. The biogenic carbon of the waste is taken up and returned within A1–A5 and cancels out.");
  return finding.builder().inform(total, "kg CO2e");
}

}  // namespace panel_dossier::carbon
