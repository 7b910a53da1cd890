#include "sample_project/generator/materials.h"

#include <stdexcept>
#include <string>

namespace sample_export {

namespace {

/// An invented but believable environmental product declaration, kg CO2e per declared unit.
struct EnvironmentalData {
  std::string_view document;
  std::string_view unit;  ///< kg, m3 or m2
  double thickness_mm;    ///< behind a declared unit of m2; else 0
  std::string_view valid_until;
  double fossil_a1_a3;
  double biogenic_a1_a3;
  double luluc_a1_a3;
  double c1;
  double c2;
  double c3;
  double c4;
  double d;
  double waste_rate;
  std::string_view kind = "GENERIC";  ///< SPECIFIC, AVERAGE or GENERIC; the same as in the file where one is read
};

/// Empty text and zero mean that the property does not apply.
struct MaterialData {
  std::string_view key;
  std::string_view name;
  std::string_view category;
  std::string_view manufacturer;
  double density_kg_per_m3;
  double conductivity_w_per_mk;
  double specific_heat_j_per_kgk;
  double vapour_factor_dry;
  double vapour_factor_wet;
  std::string_view strength_class;
  double moisture_content;
  std::string_view product_standard;
  std::string_view reaction_to_fire;
  std::string_view protection_role;
  std::string_view charring_class;
  double transport_km;
  double service_life_years;
  std::string_view custody_claim;
  EnvironmentalData environment;
  /// Declared at 10 °C, where the design value above was converted from one.
  double declared_conductivity_w_per_mk = 0.0;
  /// Row of the table of conversion coefficients.
  std::string_view conversion_class = {};
};

// λ, c and μ of generic materials: EN ISO 10456:2007 table 3 (wood 500 kg/m³, OSB 650 kg/m³, gypsum plasterboard 900
// and 700 kg/m³, steel) and table 4 (mineral wool c); from memory. Densities of timber: EN 338:2016 C24 and EN
// 14080:2013 GL24h mean values; from memory. Stone wool, membranes and fibre cement: invented declared values in the
// usual range. Reaction to fire of solid timber and OSB: EN 14081-1 and EN 13986 classes without further testing; from
// memory. Biogenic carbon of wood follows EN 16449:2014: 0.5 · 44/12 · dry mass. All other declaration values and
// the service lives are invented; rates of waste cover what the cutting plans of the sample lose.
/// The table of material values behind the export.
const std::vector<MaterialData>& material_data() {
  static const std::vector<MaterialData> table = {
      {.key = "softwood",
       .name = "Structural softwood C24",
       .category = "wood",
       .manufacturer = "Sawmill (fictional)",
       .density_kg_per_m3 = 420,
       .conductivity_w_per_mk = 0.13,
       .specific_heat_j_per_kgk = 1600,
       .vapour_factor_dry = 50,
       .vapour_factor_wet = 20,
       .strength_class = "C24",
       .moisture_content = 0.12,
       .product_standard = {},
       .reaction_to_fire = "D-s2,d0",
       .protection_role = "NONE",
       .charring_class = "SOFTWOOD",
       .transport_km = 380,
       .service_life_years = 100,
       .custody_claim = "CERTIFIED",
       .environment = {"EPD-301", "m3", 0, "2029-05-31", 62, -687.5, 1.1, 0.6, 4.2, 694.5, 0, -118, 0.08, "SPECIFIC"}},
      {.key = "glulam",
       .name = "Glued laminated timber GL24h",
       .category = "wood",
       .manufacturer = "Glulam works (fictional)",
       .density_kg_per_m3 = 420,
       .conductivity_w_per_mk = 0.13,
       .specific_heat_j_per_kgk = 1600,
       .vapour_factor_dry = 50,
       .vapour_factor_wet = 20,
       .strength_class = "GL24h",
       .moisture_content = 0.12,
       .product_standard = {},
       .reaction_to_fire = "D-s2,d0",
       .protection_role = "NONE",
       .charring_class = "GLULAM",
       .transport_km = 620,
       .service_life_years = 100,
       .custody_claim = "CERTIFIED",
       .environment = {"EPD-302", "m3", 0, "2029-05-31", 121, -687.5, 1.6, 0.6, 4.2, 696, 0, -124, 0.06}},
      {.key = "osb",
       .name = "Oriented strand board OSB/3",
       .category = "wood",
       .manufacturer = "Board mill (fictional)",
       .density_kg_per_m3 = 620,
       .conductivity_w_per_mk = 0.13,
       .specific_heat_j_per_kgk = 1700,
       .vapour_factor_dry = 50,
       .vapour_factor_wet = 30,
       .strength_class = {},
       .moisture_content = 0.05,
       .product_standard = "EN 300 OSB/3",
       .reaction_to_fire = "D-s2,d0",
       .protection_role = "WOOD_PANEL",
       .charring_class = "PANEL",
       .transport_km = 410,
       .service_life_years = 100,
       .custody_claim = "CERTIFIED",
       .environment = {"EPD-303", "m3", 0, "2028-11-30", 186, -1028, 2.4, 0.8, 6.1, 1041, 0, -176, 0.18}},
      {.key = "gypsum-f",
       .name = "Gypsum plasterboard type F",
       .category = "gypsum",
       .manufacturer = "Gypsum works (fictional)",
       .density_kg_per_m3 = 880,
       .conductivity_w_per_mk = 0.25,
       .specific_heat_j_per_kgk = 1000,
       .vapour_factor_dry = 10,
       .vapour_factor_wet = 4,
       .strength_class = {},
       .moisture_content = 0,
       .product_standard = "EN 520 type F",
       .reaction_to_fire = "A2-s1,d0",
       .protection_role = "GYPSUM_F",
       .charring_class = {},
       .transport_km = 140,
       .service_life_years = 60,
       .custody_claim = {},
       .environment = {"EPD-304", "m2", 15, "2030-01-31", 3.9, -0.35, 0.01, 0.05, 0.06, 0.36, 0.14, -0.04, 0.17}},
      {.key = "gypsum-h",
       .name = "Gypsum sheathing board type EH",
       .category = "gypsum",
       .manufacturer = "Gypsum works (fictional)",
       .density_kg_per_m3 = 800,
       .conductivity_w_per_mk = 0.25,
       .specific_heat_j_per_kgk = 1000,
       .vapour_factor_dry = 10,
       .vapour_factor_wet = 4,
       .strength_class = {},
       .moisture_content = 0,
       .product_standard = "EN 520 type EH",
       .reaction_to_fire = "A2-s1,d0",
       .protection_role = "GYPSUM_H",
       .charring_class = {},
       .transport_km = 140,
       .service_life_years = 60,
       .custody_claim = {},
       .environment = {"EPD-309", "m2", 12.5, "2030-01-31", 3.4, -0.1, 0.01, 0.05, 0.05, 0.11, 0.12, -0.03, 0.17}},
      {.key = "stone-wool",
       .name = "Stone wool slab",
       .category = "insulation",
       .manufacturer = "Stone wool works (fictional)",
       .density_kg_per_m3 = 40,
       .conductivity_w_per_mk = 0.034,
       .specific_heat_j_per_kgk = 1030,
       .vapour_factor_dry = 1,
       .vapour_factor_wet = 1,
       .strength_class = {},
       .moisture_content = 0,
       .product_standard = "EN 13162",
       .reaction_to_fire = "A1",
       .protection_role = "NONE",
       .charring_class = {},
       .transport_km = 260,
       .service_life_years = 60,
       .custody_claim = {},
       .environment = {"EPD-305", "kg", 0, "2029-09-30", 1.18, -0.03, 0.002, 0.01, 0.012, 0.03, 0.014, -0.02, 0.19,
                       "AVERAGE"},
       .declared_conductivity_w_per_mk = 0.033,
       .conversion_class = "mineral wool board 0.034"},
      {.key = "vapour-control",
       .name = "Polyethylene vapour control layer",
       .category = "plastic",
       .manufacturer = "Film works (fictional)",
       .density_kg_per_m3 = 950,
       .conductivity_w_per_mk = 0.33,
       .specific_heat_j_per_kgk = 2200,
       .vapour_factor_dry = 100000,
       .vapour_factor_wet = 100000,
       .strength_class = {},
       .moisture_content = 0,
       .product_standard = "EN 13984 type A",
       .reaction_to_fire = "F",
       .protection_role = "NONE",
       .charring_class = {},
       .transport_km = 310,
       .service_life_years = 60,
       .custody_claim = {},
       .environment = {"EPD-306", "m2", 0.2, "2028-06-30", 0.55, 0, 0.001, 0, 0.01, 0.46, 0, -0.19, 0.08}},
      {.key = "breather",
       .name = "Breather membrane",
       .category = "plastic",
       .manufacturer = "Film works (fictional)",
       .density_kg_per_m3 = 320,
       .conductivity_w_per_mk = 0.22,
       .specific_heat_j_per_kgk = 1800,
       .vapour_factor_dry = 40,
       .vapour_factor_wet = 40,
       .strength_class = {},
       .moisture_content = 0,
       .product_standard = "EN 13859-2",
       .reaction_to_fire = "B-s1,d0",
       .protection_role = "NONE",
       .charring_class = {},
       .transport_km = 310,
       .service_life_years = 60,
       .custody_claim = {},
       .environment = {"EPD-310", "m2", 0.5, "2028-06-30", 0.61, 0, 0.001, 0, 0.01, 0.41, 0, -0.17, 0.08}},
      {.key = "fibre-cement",
       .name = "Fibre-cement cladding board",
       .category = "cement",
       .manufacturer = "Fibre-cement works (fictional)",
       .density_kg_per_m3 = 1750,
       .conductivity_w_per_mk = 0.6,
       .specific_heat_j_per_kgk = 1000,
       .vapour_factor_dry = 140,
       .vapour_factor_wet = 140,
       .strength_class = {},
       .moisture_content = 0,
       .product_standard = "EN 12467",
       .reaction_to_fire = "A2-s1,d0",
       .protection_role = "NONE",
       .charring_class = {},
       .transport_km = 540,
       .service_life_years = 50,
       .custody_claim = {},
       .environment = {"EPD-307", "m2", 8, "2030-03-31", 11.4, -0.6, 0.02, 0.06, 0.1, 0.62, 0.08, -0.15, 0.26}},
      {.key = "steel",
       .name = "Galvanised steel",
       .category = "steel",
       .manufacturer = "Fixings works (fictional)",
       .density_kg_per_m3 = 7850,
       .conductivity_w_per_mk = 50,
       .specific_heat_j_per_kgk = 450,
       .vapour_factor_dry = 1e6,
       .vapour_factor_wet = 1e6,
       .strength_class = {},
       .moisture_content = 0,
       .product_standard = "EN 14592",
       .reaction_to_fire = "A1",
       .protection_role = "NONE",
       .charring_class = {},
       .transport_km = 450,
       .service_life_years = 100,
       .custody_claim = {},
       .environment = {"EPD-308", "kg", 0, "2029-02-28", 2.45, 0.01, 0.004, 0.01, 0.02, 0.01, 0.001, -1.05, 0.02}}};
  return table;
}

void add_text(PropertySet& set, std::string name, std::string_view value) {
  if (!value.empty()) set.properties.push_back(label(std::move(name), std::string(value)));
}

void add_if_any(std::vector<PropertySet>& sets, PropertySet set) {
  if (!set.properties.empty()) sets.push_back(std::move(set));
}

PropertySet hygrothermal(const MaterialData& data) {
  return {"Pset_MaterialThermal",
          {number("SpecificHeatCapacity", "IfcSpecificHeatCapacityMeasure", data.specific_heat_j_per_kgk),
           number("ThermalConductivity", "IfcThermalConductivityMeasure", data.conductivity_w_per_mk)}};
}

PropertySet declared_conductivity(const MaterialData& data) {
  PropertySet set{"Panel_Thermal", {}};
  if (data.declared_conductivity_w_per_mk <= 0.0) return set;
  set.properties.push_back(
      number("DeclaredConductivity", "IfcThermalConductivityMeasure", data.declared_conductivity_w_per_mk));
  set.properties.push_back(number("DeclaredTemperature", "IfcReal", 10.0));
  add_text(set, "ConversionClass", data.conversion_class);
  return set;
}

PropertySet hygroscopic(const MaterialData& data) {
  return {"Pset_MaterialHygroscopic",
          {number("UpperVaporResistanceFactor", "IfcPositiveRatioMeasure", data.vapour_factor_dry),
           number("LowerVaporResistanceFactor", "IfcPositiveRatioMeasure", data.vapour_factor_wet)}};
}

PropertySet wood(const MaterialData& data) {
  PropertySet set{"Pset_MaterialWood", {}};
  add_text(set, "StrengthGrade", data.strength_class);
  return set;
}

PropertySet timber(const MaterialData& data) {
  PropertySet set{"Panel_Timber", {}};
  if (data.moisture_content <= 0.0) return set;
  add_text(set, "StrengthClass", data.strength_class);
  set.properties.push_back(integer("ServiceClass", 2));
  set.properties.push_back(number("MoistureContent", "IfcRatioMeasure", data.moisture_content));
  set.properties.push_back(number("ReferenceMoistureContent", "IfcRatioMeasure", data.moisture_content));
  return set;
}

PropertySet board(const MaterialData& data) {
  PropertySet set{"Panel_Board", {}};
  add_text(set, "ProductStandard", data.product_standard);
  return set;
}

PropertySet fire(const MaterialData& data) {
  PropertySet set{"Panel_Fire", {}};
  add_text(set, "ReactionToFire", data.reaction_to_fire);
  add_text(set, "ProtectionRole", data.protection_role);
  add_text(set, "CharringClass", data.charring_class);
  if (data.key == "stone-wool") add_text(set, "InsulationType", "STONE_WOOL");
  return set;
}

PropertySet declaration(const MaterialData& data) {
  const EnvironmentalData& epd = data.environment;
  PropertySet set{"Panel_EnvironmentalDeclaration",
                  {identifier("DocumentId", std::string(epd.document)), label("DeclaredUnit", std::string(epd.unit))}};
  if (epd.thickness_mm > 0.0) {
    set.properties.push_back(number("DeclaredThickness", "IfcPositiveLengthMeasure", epd.thickness_mm));
  }
  set.properties.push_back(date("ValidUntil", std::string(epd.valid_until)));
  const std::pair<const char*, double> modules[] = {{"GwpFossilA1A3", epd.fossil_a1_a3},
                                                    {"GwpBiogenicA1A3", epd.biogenic_a1_a3},
                                                    {"GwpLulucA1A3", epd.luluc_a1_a3},
                                                    {"GwpTotalC1", epd.c1},
                                                    {"GwpTotalC2", epd.c2},
                                                    {"GwpTotalC3", epd.c3},
                                                    {"GwpTotalC4", epd.c4},
                                                    {"GwpTotalD", epd.d}};
  for (const auto& [name, value] : modules) set.properties.push_back(number(name, "IfcReal", value));
  set.properties.push_back(number("WasteRateA5", "IfcRatioMeasure", epd.waste_rate));
  add_text(set, "DataKind", epd.kind);
  return set;
}

PropertySet supply(const MaterialData& data) {
  PropertySet set{"Panel_Supply", {}};
  set.properties.push_back(
      number_in("TransportDistance", "IfcPositiveLengthMeasure", data.transport_km, "unit-kilometre"));
  set.properties.push_back(number("ServiceLife", "IfcReal", data.service_life_years));
  if (!data.custody_claim.empty()) {
    add_text(set, "ChainOfCustodyClaim", data.custody_claim);
    set.properties.push_back(identifier("ChainOfCustodyDocument", "COC-401"));
    set.properties.push_back(date("ChainOfCustodyDate", "2026-02-16"));
    set.properties.push_back(identifier("DeliveryNote", "DN-451"));
  }
  return set;
}

PropertySet manufacturer(const MaterialData& data) {
  return {"Pset_ManufacturerTypeInformation",
          {label("Manufacturer", std::string(data.manufacturer)), label("ModelLabel", std::string(data.name))}};
}

Material described(const MaterialData& data) {
  std::vector<PropertySet> sets;
  sets.push_back({"Pset_MaterialCommon", {number("MassDensity", "IfcMassDensityMeasure", data.density_kg_per_m3)}});
  sets.push_back(hygrothermal(data));
  add_if_any(sets, declared_conductivity(data));
  sets.push_back(hygroscopic(data));
  add_if_any(sets, wood(data));
  add_if_any(sets, timber(data));
  add_if_any(sets, board(data));
  add_if_any(sets, fire(data));
  sets.push_back(declaration(data));
  sets.push_back(supply(data));
  sets.push_back(manufacturer(data));
  return {data.key, data.name, data.category, std::move(sets)};
}

std::vector<Material> described_all() {
  std::vector<Material> all;
  for (const MaterialData& data : material_data()) all.push_back(described(data));
  return all;
}

}  // namespace

const std::vector<Material>& materials() {
  static const std::vector<Material> all = described_all();
  return all;
}

const Material& material(std::string_view key) {
  for (const Material& candidate : materials()) {
    if (candidate.key == key) return candidate;
  }
  throw std::out_of_range("no material '" + std::string(key) + "'");
}

}  // namespace sample_export
