#include "plugins/thermal/periodic/dynamic_check.h"

#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/units.h"
#include "plugins/thermal/check_inputs.h"

namespace panel_dossier::thermal {

namespace {

HeatTransferMatrix product(const HeatTransferMatrix& a, const HeatTransferMatrix& b) {
  return {a.z11 * b.z11 + a.z12 * b.z21, a.z11 * b.z12 + a.z12 * b.z22, a.z21 * b.z11 + a.z22 * b.z21,
          a.z21 * b.z12 + a.z22 * b.z22};
}

/// κ = T / 2π · |(Z_mm − 1) / Z_12| (EN ISO 13786:2017, 7.4).
double areal_capacity(std::complex<double> diagonal, std::complex<double> z12, double period_s) {
  return period_s / (2.0 * std::numbers::pi) * std::abs((diagonal - 1.0) / z12);
}

}  // namespace

HeatTransferMatrix layer_matrix(const PeriodicLayer& layer, double period_s) {
  const double capacity = layer.density_kg_per_m3 * layer.specific_heat_j_per_kgk * layer.thickness_m;
  if (capacity <= 0.0) return {1.0, -layer.resistance_m2k_per_w, 0.0, 1.0};
  // (1 + j) ξ with ξ = d / δ: the elements of the standard are hyperbolic functions of it, written out in real numbers.
  const double angular_frequency = 2.0 * std::numbers::pi / period_s;
  const std::complex<double> argument =
      std::sqrt(std::complex<double>(0.0, angular_frequency * capacity * layer.resistance_m2k_per_w));
  const std::complex<double> cosh = std::cosh(argument);
  const std::complex<double> sinh = std::sinh(argument);
  return {cosh, -layer.resistance_m2k_per_w * sinh / argument, -sinh * argument / layer.resistance_m2k_per_w, cosh};
}

HeatTransferMatrix component_matrix(const std::vector<PeriodicLayer>& layers, double period_s) {
  HeatTransferMatrix result;
  for (const PeriodicLayer& layer : layers) result = product(layer_matrix(layer, period_s), result);
  return result;
}

DynamicCharacteristics dynamic_characteristics(const std::vector<PeriodicLayer>& layers, double period_s) {
  const HeatTransferMatrix z = component_matrix(layers, period_s);
  double resistance = 0.0;
  for (const PeriodicLayer& layer : layers) resistance += layer.resistance_m2k_per_w;
  DynamicCharacteristics result;
  result.periodic_transmittance = -1.0 / z.z12;
  result.steady_transmittance = 1.0 / resistance;
  result.decrement_factor = std::abs(result.periodic_transmittance) * resistance;
  double angle = std::arg(result.periodic_transmittance);
  if (angle > 0.0) angle -= 2.0 * std::numbers::pi;
  result.time_shift_s = angle * period_s / (2.0 * std::numbers::pi);
  result.internal_areal_capacity = areal_capacity(z.z11, z.z12, period_s);
  result.external_areal_capacity = areal_capacity(z.z22, z.z12, period_s);
  return result;
}

namespace {

constexpr const char* kCapacityUnit = "kJ/(m²·K)";
constexpr const char* kClause = "EN ISO 13786:2017, 7";

std::vector<CheckInput> layer_inputs() {
  return resting_on(
      {property("Pset_MaterialCommon.MassDensity"), property("Pset_MaterialThermal.SpecificHeatCapacity")},
      transmittance_inputs());
}

std::vector<std::string> shared_limits() {
  return {"Framing and other thermal bridges are left out: the largest section stands for the panel.",
          "Outside of a well-ventilated cavity no layer counts, however heavy."};
}

/// Real and imaginary part of an element of the matrix.
void add_element(const std::string& symbol, const char* unit, std::complex<double> element, FindingBuilder& builder) {
  builder.step("element of the heat transfer matrix, real part", symbol + ",re", element.real(), unit);
  builder.step("element of the heat transfer matrix, imaginary part", symbol + ",im", element.imag(), unit);
}

/// Reads density and heat capacity; what is missing is noted in `builder`.
PeriodicLayer read_layer(const ThermalLayer& layer, const LayerSlot& slot, const Project& project,
                         FindingBuilder& builder) {
  PeriodicLayer result;
  result.resistance_m2k_per_w = slot.resistance_m2k_per_w;
  result.thickness_m = layer.thickness_m;
  // Membranes without λ resist nothing; what little heat they hold is left out with it.
  if (slot.is_air || slot.resistance_m2k_per_w <= 0.0) return result;
  const std::string& name = slot.material;
  const Material* material = material_at(project, slot.material_index);
  if (material == nullptr) {
    builder.missing("'" + name + "' is not a material of the export, so its heat capacity is unknown");
    return result;
  }
  const auto density = builder.positive("density of '" + name + "'", "ρ", "kg/m³", material->density_kg_per_m3(),
                                        "material '" + name + "' has no Pset_MaterialCommon.MassDensity");
  const auto heat =
      builder.positive("specific heat capacity of '" + name + "'", "c", "J/(kg·K)", material->specific_heat_j_per_kgk(),
                       "material '" + name + "' has no Pset_MaterialThermal.SpecificHeatCapacity");
  result.density_kg_per_m3 = density.value_or(0.0);
  result.specific_heat_j_per_kgk = heat.value_or(0.0);
  return result;
}

/// What one section of a panel gives for a day.
struct DayResult {
  DynamicCharacteristics characteristics;
  HeatTransferMatrix matrix;
};

std::optional<DayResult> work_out(const TransmittanceResult& panel_transmittance, const Project& project,
                                  FindingBuilder& builder) {
  if (!panel_transmittance.transmittance) {
    builder.missing(panel_transmittance.why_not());
    return std::nullopt;
  }
  const BuildUp& build_up = panel_transmittance.transmittance->build_up;
  const SectionArea& main = build_up.bridged.sections.front();
  std::vector<PeriodicLayer> layers{{build_up.r_si_m2k_per_w, 0.0, 0.0, 0.0}};
  Table table{"Layers of the main section, from inside",
              {{"layer", ""}, {"d", "mm"}, {"R", "m²·K/W"}, {"ρ", "kg/m³"}, {"c", "J/(kg·K)"}},
              {}};
  for (std::size_t i = 0; i < build_up.bridged.layers.size(); ++i) {
    const ThermalLayer& layer = build_up.bridged.layers[i];
    const PeriodicLayer read = read_layer(layer, layer.slots[main.slots[i]], project, builder);
    table.rows.push_back({layer.name, units::millimetres_from_metres(read.thickness_m), read.resistance_m2k_per_w,
                          read.density_kg_per_m3, read.specific_heat_j_per_kgk});
    layers.push_back(read);
  }
  layers.push_back({build_up.r_se_m2k_per_w, 0.0, 0.0, 0.0});
  builder.note("Period of 24 h, from the internal to the external environment, in the largest section of the panel (" +
               section_name(build_up.bridged, main) + "); framing and other thermal bridges are left out.");
  if (builder.incomplete()) return std::nullopt;
  builder.table(std::move(table));
  DayResult result{dynamic_characteristics(layers, units::kSecondPerDay),
                   component_matrix(layers, units::kSecondPerDay)};
  builder.step("internal surface resistance, as in thermal.u_value", "R_si", build_up.r_si_m2k_per_w, "m²·K/W");
  builder.step("external surface resistance, likewise", "R_se", build_up.r_se_m2k_per_w, "m²·K/W");
  builder.step("steady transmittance of this section", "U_0", result.characteristics.steady_transmittance, "W/(m²·K)",
               "U_0 = 1 / (R_si + sum(R) + R_se)");
  builder.note(
      "The heat transfer matrix Z of the section is the product of those of the external surface, the layers from "
      "outside and the internal surface; each of its elements is a complex number.");
  add_element("Z_12", "m²·K/W", result.matrix.z12, builder);
  return result;
}

/// The steps of the areal heat capacities κ_m = T / 2π · |(Z_mm − 1) / Z_12|.
void add_capacities(const DayResult& found, FindingBuilder& builder) {
  builder.step("period", "T", units::kSecondPerDay, "s");
  add_element("Z_11", "", found.matrix.z11, builder);
  add_element("Z_22", "", found.matrix.z22, builder);
  const auto formula = [](const std::string& symbol, const std::string& diagonal) {
    return symbol + " = T / (2 · π) · √((" + diagonal + ",re − 1)² + " + diagonal + ",im²) / √(Z_12,re² + Z_12,im²)";
  };
  builder.step("internal areal heat capacity", "κ_1",
               found.characteristics.internal_areal_capacity / units::kJoulePerKilojoule, kCapacityUnit,
               formula("κ_1", "Z_11"));
  builder.step("external areal heat capacity", "κ_2",
               found.characteristics.external_areal_capacity / units::kJoulePerKilojoule, kCapacityUnit,
               formula("κ_2", "Z_22"));
}

}  // namespace

const CheckDeclaration kDynamicTransmittanceCheck{
    .id = "thermal.dynamic_transmittance",
    .title = "Periodic thermal transmittance over a day",
    .sentence = "Y_ie is the amplitude of the heat flow inside for a swing of 1 K outside over 24 h.",
    .clause = kClause,
    .units = {"W/(m²·K)"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels,
    .inputs = with_model(layer_inputs()),
    .limits = shared_limits()};

const CheckDeclaration kDecrementCheck{
    .id = "thermal.decrement",
    .title = "Decrement factor over a day",
    .sentence = "f is the periodic over the steady thermal transmittance of the same section.",
    .clause = kClause,
    .kind = CheckKind::figure,
    .scope = CheckScope::panels,
    .inputs = with_model(layer_inputs()),
    .limits = shared_limits()};

const CheckDeclaration kArealHeatCapacityCheck{
    .id = "thermal.areal_heat_capacity",
    .title = "Internal areal heat capacity over a day",
    .sentence = "κ_1 is the heat that the inside of the panel stores for a swing of 1 K inside over 24 h.",
    .clause = kClause,
    .units = {kCapacityUnit},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels,
    .inputs = with_model(layer_inputs()),
    .limits = shared_limits()};

std::vector<Finding> check_dynamic_characteristics(const Panel& panel, const Project& project,
                                                   const TransmittanceResult& panel_transmittance) {
  FindingBuilder transmittance(kDynamicTransmittanceCheck, panel.global_id);
  transmittance.decimals(3);
  const auto found = work_out(panel_transmittance, project, transmittance);
  FindingBuilder decrement = transmittance;
  FindingBuilder capacity = transmittance;
  std::vector<Finding> findings;
  if (!found) {
    findings.push_back(transmittance.not_assessed());
    findings.push_back(as_finding_of(kDecrementCheck, decrement.not_assessed()));
    findings.push_back(as_finding_of(kArealHeatCapacityCheck, capacity.not_assessed()));
    return findings;
  }
  const DynamicCharacteristics& day = found->characteristics;
  const double y = std::abs(day.periodic_transmittance);
  for (FindingBuilder* builder : {&transmittance, &decrement}) {
    builder->step("periodic thermal transmittance, magnitude of −1 / Z_12", "Y_ie", y, "W/(m²·K)",
                  "Y_ie = 1 / √(Z_12,re² + Z_12,im²)");
    builder->step(
        "time shift of the heat flow, the angle of −1 / Z_12 as a share of the period; negative: it comes later",
        "Δt_f", day.time_shift_s / units::kSecondPerHour, "h");
  }
  decrement.step("decrement factor", "f", day.decrement_factor, "", "f = Y_ie / U_0");
  capacity.decimals(1);
  add_capacities(*found, capacity);
  findings.push_back(transmittance.inform(y, "W/(m²·K)"));
  findings.push_back(as_finding_of(kDecrementCheck, decrement.inform(day.decrement_factor, "")));
  findings.push_back(
      as_finding_of(kArealHeatCapacityCheck,
                    capacity.inform(day.internal_areal_capacity / units::kJoulePerKilojoule, kCapacityUnit)));
  return findings;
}

}  // namespace panel_dossier::thermal
