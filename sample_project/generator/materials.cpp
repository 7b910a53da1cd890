#include "sample_project/generator/materials.h"

#include <stdexcept>
#include <string>

#include "sample_project/generator/material_data.h"

namespace sample_export {

namespace {

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
