#include "plugins/carbon/account/biogenic_storage.h"

#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/words.h"

namespace panel_dossier::carbon {

namespace {

/// Timber built into a panel holds far less water than dry wood; more is a figure in per cent.
constexpr double kLargestMoistureRatio = 1.0;

std::optional<WoodCarbon> read_constants(const DataTable& table, FindingBuilder& builder) {
  const auto read = [&](const char* name, const char* symbol, const char* unit, const char* row) {
    return builder.positive(name, symbol, unit, table.number(row, "value"),
                            std::string("biogenic_carbon.csv has no row '") + row + "'");
  };
  const auto fraction = read("carbon fraction of dry wood", "cf", "", "carbon_fraction_of_dry_wood");
  const auto dioxide = read("molar mass of carbon dioxide", "M_CO2", "g/mol", "molar_mass_of_carbon_dioxide");
  const auto carbon = read("molar mass of carbon", "M_C", "g/mol", "molar_mass_of_carbon");
  if (!fraction || !dioxide || !carbon) return std::nullopt;
  return WoodCarbon{*fraction, *dioxide / *carbon};
}

std::optional<double> read_moisture(const Material& material, FindingBuilder& builder) {
  const auto moisture =
      builder.number("moisture content of '" + material.name + "' at its density", "ω", "", moisture_of(material),
                     "material '" + material.name + "' has no Panel_Timber.ReferenceMoistureContent");
  if (moisture && *moisture < 0.0) {
    builder.missing("material '" + material.name + "': the moisture content is negative");
    return std::nullopt;
  }
  if (moisture && *moisture > kLargestMoistureRatio) {
    builder.missing("material '" + material.name +
                    "': the moisture content is above 1; it is a ratio of masses, so 12 % is 0.12");
    return std::nullopt;
  }
  return moisture;
}

}  // namespace

std::optional<WoodCarbon> wood_carbon(const DataTable& table) {
  const auto fraction = table.number("carbon_fraction_of_dry_wood", "value");
  const auto dioxide = table.number("molar_mass_of_carbon_dioxide", "value");
  const auto carbon = table.number("molar_mass_of_carbon", "value");
  if (!fraction || !dioxide || !carbon || !(carbon->value > 0.0)) return std::nullopt;
  return WoodCarbon{fraction->value, dioxide->value / carbon->value};
}

std::optional<Sourced<double>> moisture_of(const Material& material) {
  const auto reference = material.properties.number("Panel_Timber", "ReferenceMoistureContent");
  return reference ? reference : material.properties.number("Panel_Timber", "MoistureContent");
}

double stored_carbon_dioxide_kg(const WoodCarbon& constants, double mass_kg, double moisture_content) {
  return constants.co2_per_carbon * constants.carbon_fraction * mass_kg / (1.0 + moisture_content);
}

bool is_wood(const Material& material) {
  return material.category == "wood" || moisture_of(material).has_value();
}

std::string kind_of(const Material& material, const DataTable& kinds) {
  if (kinds.has(material.category)) return material.category;
  return is_wood(material) ? "wood" : std::string();
}

std::string unknown_kind(const Material& material, const DataTable& kinds) {
  if (material.category == "air" || !kind_of(material, kinds).empty()) return {};
  const std::string what = material.category.empty() ? "has no IfcMaterial.Category"
                                                     : "has IfcMaterial.Category '" + material.category + "'";
  return "material '" + material.name + "' " + what + ", so it cannot be told what it is; write one of " +
         joined(kinds.keys());
}

const CheckDeclaration kBiogenicStorageCheck{
    .id = "carbon.biogenic_storage",
    .title = "Carbon dioxide stored in wood",
    .project_title = "Carbon dioxide stored in the wood of all panels",
    .sentence =
        "The carbon dioxide that corresponds to the carbon in the wood of the panel is M_CO2 / M_C · cf · "
        "ρ_ω · V_ω / (1 + ω), added over all wood-based materials and to no module.",
    .clause = "EN 16449:2014, formula (1)",
    .units = {"kg CO2"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model({optional_property("Panel_Timber.ReferenceMoistureContent"),
                          optional_property("Panel_Timber.MoistureContent"),
                          optional_property("Pset_MaterialCommon.MassDensity"), data_table("biogenic_carbon.csv"),
                          data_table("plausible_declarations.csv")}),
    .limits = {"Adhesives in wood-based boards: their whole mass counts as wood.",
               "Biogenic carbon of other materials, such as straw or cellulose without a moisture content.",
               "How long the carbon stays stored."}};

Finding check_biogenic_storage(const PanelAccount& account) {
  OpenFinding finding = account.open(kBiogenicStorageCheck);
  FindingBuilder& builder = finding.builder();
  const auto constants = read_constants(account.inputs.tables.biogenic_carbon, builder);
  Table table{"By material",
              {{"material", ""},
               {"mass", "kg"},
               {"moisture content", ""},
               {"CO2 stored", "kg"},
               {"declared GWP-biogenic A1–A3", "kg CO2e"}},
              {}};
  ExactSum sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const Material& material = account.material(row);
    if (std::string unknown = unknown_kind(material, account.inputs.tables.plausible_declarations); !unknown.empty()) {
      builder.missing(std::move(unknown));
    }
    if (!is_wood(material)) continue;
    const auto mass =
        account.read_mass(row, "mass of '" + material.name + "', density times volume", "ρ_ω · V_ω", builder);
    const auto moisture = read_moisture(material, builder);
    if (!constants || !mass || !moisture) continue;
    const double stored = rounded_to_millionth(stored_carbon_dioxide_kg(*constants, *mass, *moisture));
    sum.add(stored);
    const auto& declared = account.materials[row].at(Module::a1_a3);
    table.rows.push_back(
        {account.label(row), *mass, *moisture, stored, declared ? Value(declared->biogenic) : Value()});
  }
  builder.table(std::move(table));
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("carbon dioxide stored", "P_CO2", sum.total(), "kg CO2", "P_CO2 = sum(CO2 stored)");
  builder.note(
      "CO2 stored in a row is M_CO2 / M_C · cf · ρ_ω · V_ω / (1 + ω), to the milligram. Storage is a figure of its "
      "own: it is added to no module and lessens none. The same carbon leaves the panel in "
      "C3 or C4. In wood-based boards the whole mass counts as wood; adhesives (a few per cent) are not taken off.");
  return builder.inform(sum.total(), "kg CO2");
}

}  // namespace panel_dossier::carbon
