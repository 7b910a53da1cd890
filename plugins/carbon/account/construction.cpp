#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/module_finding.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration.h"

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
  if (*per_area < 0.0) {
    builder.missing("setting 'carbon.site_assembly_gwp_kgco2e_per_m2' is negative; give at least 0");
    return std::nullopt;
  }
  return rounded_to_millionth(*per_area * *area);
}

/// C2 to C4 of the material; none while one of them is not known.
std::optional<Gwp> disposal_of(const MaterialAccount& entry) {
  Gwp disposal;
  for (const Module module : {Module::c2, Module::c3, Module::c4}) {
    if (!entry.at(module)) return std::nullopt;
    disposal += *entry.at(module);
  }
  return disposal;
}

}  // namespace

double waste_factor(double waste_rate) {
  return 1.0 / (1.0 - waste_rate) - 1.0;
}

Finding check_construction(PanelAccount& account, const std::vector<const Finding*>& upstream) {
  OpenFinding finding =
      open_module(account, "carbon.a5", "Waste and assembly A5 (fossil and land use)", "EN 15978:2011, 8.5");
  for (const Finding* earlier : upstream) finding.value_of(*earlier);
  Table table{std::string(kWasteByMaterial),
              {{"material", ""},
               {"waste factor", ""},
               {"A1–A3", "kg CO2e"},
               {"A4", "kg CO2e"},
               {"C2–C4", "kg CO2e"},
               {"A5 of waste", "kg CO2e"}},
              {}};
  Gwp waste;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    MaterialAccount& entry = account.materials[row];
    const auto factor = read_waste_factor(account.material(row), finding);
    const auto disposal = disposal_of(entry);
    if (!factor || !entry.at(Module::a1_a3) || !entry.at(Module::a4) || !disposal) continue;
    Gwp lost = *entry.at(Module::a1_a3);
    lost += *entry.at(Module::a4);
    lost += *disposal;
    const Gwp gwp = scaled(lost, *factor);
    entry.at(Module::a5) = gwp;
    waste += gwp;
    table.rows.push_back({account.label(row), *factor, entry.at(Module::a1_a3)->fossil_and_luluc(),
                          entry.at(Module::a4)->fossil_and_luluc(), disposal->fossil_and_luluc(),
                          gwp.fossil_and_luluc()});
  }
  finding.builder().table(std::move(table));
  const auto site = read_site_assembly(account, finding.builder());
  if (site) account.site_assembly = Gwp{*site, 0.0, 0.0};
  if (!finding.complete()) return finding.close_incomplete();
  const double total = ExactSum().add(waste.fossil_and_luluc()).add(*site).total();
  finding.builder().step("waste of materials", "A5,w", waste.fossil_and_luluc(), "kg CO2e",
                         "Σ (1 / (1 − w) − 1) · (A1–A3 + A4 + C2–C4)");
  finding.builder().step("assembly on site", "A5,a", *site, "kg CO2e", "e · A");
  finding.builder().step("waste and assembly", "A5", total, "kg CO2e", "A5,w + A5,a");
  finding.builder().step("GWP-biogenic, shown apart", "A5,bio", waste.biogenic, "kg CO2e");
  finding.builder().note(
      "w is the share of the material bought that is lost before the panel is finished, so 1 / (1 − w) − 1 is lost for "
      "each unit built in. The biogenic carbon of the waste is taken up and returned within A5.");
  return finding.builder().inform(total, "kg CO2e");
}

}  // namespace panel_dossier::carbon
