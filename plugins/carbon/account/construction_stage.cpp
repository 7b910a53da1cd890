// The construction process stage: transport A4, and waste and assembly A5.
#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration_facts.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kRoadTransport = "carbon.road_transport_gwp_kgco2e_per_tonne_km";
constexpr const char* kSiteAssembly = "carbon.site_assembly_gwp_kgco2e_per_m2";

/// A factor of the settings, at least 0; none, noted, when it is absent or negative.
std::optional<double> read_factor(const Settings& settings, const char* key, const char* name, const char* symbol,
                                  const char* unit, FindingBuilder& builder) {
  const auto factor =
      builder.number(name, symbol, unit, settings.number(key), "setting '" + std::string(key) + "' is missing");
  if (factor && *factor < 0.0) {
    builder.missing("setting '" + std::string(key) + "' is negative; give at least 0");
    return std::nullopt;
  }
  return factor;
}

/// By road in km; the export's own unit is the project's unit of length.
std::optional<double> read_distance_km(const Material& material, FindingBuilder& builder) {
  auto distance = material.properties.number("Panel_Supply", "TransportDistance");
  if (distance) distance->value /= units::kMetrePerKilometre;
  const auto distance_km = builder.number("distance by road of '" + material.name + "'", "s", "km", distance,
                                          "material '" + material.name + "' has no Panel_Supply.TransportDistance");
  if (distance_km && *distance_km <= 0.0) {
    builder.missing("material '" + material.name + "': Panel_Supply.TransportDistance is " +
                    (*distance_km < 0.0 ? "negative" : "0 km, and no material comes from the site itself"));
    return std::nullopt;
  }
  return distance_km;
}

}  // namespace

std::vector<CheckInput> transport_inputs() {
  return {property("Panel_Supply.TransportDistance"), optional_property("Pset_MaterialCommon.MassDensity"),
          setting(kRoadTransport)};
}

const CheckDeclaration kTransportCheck{
    .id = "carbon.a4",
    .title = "Transport to the site A4",
    .project_title = "Transport to the site A4 of all panels",
    .sentence =
        "The GWP of A4 is the sum over all materials of mass, distance by road from the factory gate to the "
        "site by way of the workshop, and the project's factor for each tonne and kilometre.",
    .clause = "EN 15978:2011, 8.5",
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(transport_inputs()),
    .limits = {"Transport by rail or ship: every distance counts at the factor of the road.",
               "What waste weighs on the way: that is part of A5.",
               "Whether the factor of the settings includes empty return trips."}};

Finding check_transport(PanelAccount& account) {
  OpenFinding finding = account.open(kTransportCheck);
  FindingBuilder& builder = finding.builder();
  const auto factor =
      read_factor(account.inputs.settings, kRoadTransport, "GWP of road transport", "g", "kg CO2e/(t·km)", builder);
  MaterialRows rows;
  ExactSum sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const auto mass =
        account.read_mass(row, "mass of '" + account.material(row).name + "' in the panel, by take-off", "m", builder);
    const auto distance_km = read_distance_km(account.material(row), builder);
    if (!factor || !mass || !distance_km) continue;
    const double value = rounded_to_millionth(*mass / units::kKilogramPerTonne * *distance_km * *factor);
    account.materials[row].at(Module::a4) = Gwp{value, 0.0, 0.0};
    sum.add(value);
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back({*mass, *distance_km, value});
  }
  add_material_table(builder, account.inputs.project, rows, "By material",
                     {{"material", ""}, {"mass", "kg"}, {"distance", "km"}, {"A4", "kg CO2e"}});
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("transport", "A4", sum.total(), "kg CO2e", "A4 = sum(A4)");
  builder.note(
      "A4 of a row is m / 1000 · s · g, to the milligram. Distance by road from the factory gate of each material to "
      "the site by way of the workshop; the factor is the project's and should include empty return trips. It counts "
      "as fossil.");
  return builder.inform(sum.total(), "kg CO2e");
}

double waste_factor(double waste_rate) {
  return 1.0 / (1.0 - waste_rate) - 1.0;
}

std::vector<CheckInput> waste_inputs() {
  return {property(std::string(kDeclarationSet) + ".WasteRateA5")};
}

std::vector<CheckInput> upfront_inputs() {
  return optional_inputs(merged_inputs(
      {product_stage_inputs(), transport_inputs(), end_of_life_inputs(), waste_inputs(), {setting(kSiteAssembly)}}));
}

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

namespace {

/// Site assembly in kg CO2e; none when the setting is missing or unusable.
std::optional<double> read_site_assembly(const PanelAccount& account, FindingBuilder& builder) {
  const auto per_area =
      read_factor(account.inputs.settings, kSiteAssembly, "GWP of assembly on site", "e", "kg CO2e/m²", builder);
  const auto area = builder.positive("gross area of the panel", "A", "m²",
                                     Sourced<double>{account.panel.gross_area_m2(), account.panel.origin}, {});
  if (!per_area || !area) return std::nullopt;
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

const CheckDeclaration kConstructionCheck{
    .id = "carbon.a5",
    .title = "Waste and assembly A5 (fossil and land use)",
    .project_title = "Waste and assembly A5 of all panels (fossil and land use)",
    .sentence =
        "The GWP-fossil and GWP-luluc of A5 are those of production, transport and disposal of the material lost "
        "before the panel is finished, 1 / (1 − w) − 1 of what is built in, and of assembly on site for each "
        "m² of gross wall; GWP-biogenic, with that of packaging, stands beside it.",
    .clause = "EN 15978:2011, 8.5",
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(merged_inputs({waste_inputs(), {setting(kSiteAssembly)}, upfront_inputs()})),
    .limits = {"Disposal of packaging, but for the biogenic carbon that leaves with it.",
               "A5 as the declaration states it, which would count waste twice.",
               "Energy and losses of the workshop beyond the share of material lost."}};

Finding check_construction(PanelAccount& account, const std::vector<const Finding*>& upstream) {
  OpenFinding finding = account.open(kConstructionCheck);
  for (const Finding* earlier : upstream) finding.value_of(*earlier);
  MaterialRows rows;
  Gwp waste;
  Gwp packaging;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    MaterialAccount& entry = account.materials[row];
    const auto factor = read_waste_factor(account.material(row), finding);
    const auto disposal = disposal_of(entry);
    if (!factor || !entry.at(Module::a1_a3) || !entry.at(Module::a4) || !disposal || !entry.packaging) continue;
    Gwp lost = *entry.at(Module::a1_a3);
    lost += *entry.at(Module::a4);
    lost += *disposal;
    lost += *entry.packaging;
    const Gwp gwp = scaled(lost, *factor);
    Gwp of_material = gwp;
    of_material += *entry.packaging;
    entry.at(Module::a5) = of_material;
    waste += gwp;
    packaging += *entry.packaging;
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back({*factor, entry.at(Module::a1_a3)->fossil_and_luluc(),
                          entry.at(Module::a4)->fossil_and_luluc(), disposal->fossil_and_luluc(),
                          gwp.fossil_and_luluc(), gwp.biogenic, entry.packaging->biogenic});
  }
  FindingBuilder& builder = finding.builder();
  add_material_table(builder, account.inputs.project, rows, "Waste by material, GWP-fossil and GWP-luluc",
                     {{"material", ""},
                      {"waste factor", ""},
                      {"A1–A3", "kg CO2e"},
                      {"A4", "kg CO2e"},
                      {"C2–C4", "kg CO2e"},
                      {"A5 of waste", "kg CO2e"},
                      {"biogenic of waste", "kg CO2e"},
                      {"biogenic of packaging", "kg CO2e"}});
  const auto site = read_site_assembly(account, builder);
  if (site) account.site_assembly = Gwp{*site, 0.0, 0.0};
  if (!finding.complete()) return finding.close_incomplete();
  const double total = ExactSum().add(waste.fossil_and_luluc()).add(*site).total();
  builder.step("waste of materials", "A5,w", waste.fossil_and_luluc(), "kg CO2e", "A5,w = sum(A5 of waste)");
  builder.step("assembly on site", "A5,a", *site, "kg CO2e", "A5,a = e · A");
  builder.step("waste and assembly", "A5", total, "kg CO2e", "A5 = A5,w + A5,a");
  const double biogenic = ExactSum().add(waste.biogenic).add(packaging.biogenic).total();
  builder.step("GWP-biogenic, shown apart", "A5,bio", biogenic, "kg CO2e",
               "A5,bio = sum(biogenic of waste) + sum(biogenic of packaging)");
  builder.value(kBiogenicValue, biogenic, "kg CO2e");
  builder.note(
      "w is the share of the material bought that is lost before the panel is finished, so 1 / (1 − w) − 1, the waste "
      "factor, is lost for each unit built in; A5 of waste is that factor times A1–A3 + A4 + C2–C4 for each indicator, "
      "to the milligram. The biogenic carbon of the waste is taken up and returned within A5, and that of packaging, "
      "which A1–A3 took up, leaves there.");
  return builder.inform(total, "kg CO2e");
}

}  // namespace panel_dossier::carbon
