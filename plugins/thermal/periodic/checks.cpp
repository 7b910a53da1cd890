#include "plugins/thermal/periodic/checks.h"

#include <complex>
#include <optional>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/units.h"
#include "plugins/thermal/moisture/layers.h"
#include "plugins/thermal/periodic/matrix.h"

namespace panel_dossier::thermal {

namespace {

/// Reads density and heat capacity; what is missing is noted in `builder`.
PeriodicLayer read_layer(const ThermalLayer& layer, const LayerSlot& slot, const Project& project,
                         FindingBuilder& builder) {
  PeriodicLayer result;
  result.resistance_m2k_per_w = slot.resistance_m2k_per_w;
  result.thickness_m = layer.thickness_m;
  // Membranes without λ resist nothing; what little heat they hold is left out with it.
  if (slot.material == "air" || slot.resistance_m2k_per_w <= 0.0) return result;
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

std::optional<DynamicCharacteristics> work_out(const TransmittanceResult& panel_transmittance, const Project& project,
                                               FindingBuilder& builder) {
  if (!panel_transmittance.transmittance) {
    builder.missing("thermal.u_value is not assessed: " + panel_transmittance.u_value.reason);
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
    table.rows.push_back({layer.name, read.thickness_m * 1000.0, read.resistance_m2k_per_w, read.density_kg_per_m3,
                          read.specific_heat_j_per_kgk});
    layers.push_back(read);
  }
  layers.push_back({build_up.r_se_m2k_per_w, 0.0, 0.0, 0.0});
  builder.note("Period of 24 h, from the internal to the external environment, in the largest section of the panel (" +
               section_name(build_up.bridged, main) + "); framing and other thermal bridges are left out.");
  if (builder.incomplete()) return std::nullopt;
  builder.table(std::move(table));
  const DynamicCharacteristics result = dynamic_characteristics(layers, kDay_s);
  builder.step("steady transmittance of this section", "U_0", result.steady_transmittance, "W/(m²·K)", "1 / ΣR");
  const auto z = component_matrix(layers, kDay_s);
  builder.step("element of the heat transfer matrix, real part", "Re Z_12", z.z12.real(), "m²·K/W",
               "Z = Z_se · ΠZ · Z_si");
  builder.step("element of the heat transfer matrix, imaginary part", "Im Z_12", z.z12.imag(), "m²·K/W");
  return result;
}

Finding named(Finding finding, const char* check, const char* title) {
  finding.check = check;
  finding.title = title;
  return finding;
}

}  // namespace

std::vector<Finding> check_dynamic_characteristics(const Panel& panel, const Project& project,
                                                   const TransmittanceResult& panel_transmittance) {
  FindingBuilder transmittance("thermal.dynamic_transmittance", "Periodic thermal transmittance over a day",
                               panel.global_id, "EN ISO 13786:2017, 7");
  transmittance.decimals(3);
  const auto found = work_out(panel_transmittance, project, transmittance);
  FindingBuilder decrement = transmittance;
  FindingBuilder capacity = transmittance;
  std::vector<Finding> findings;
  if (!found) {
    findings.push_back(transmittance.not_assessed());
    findings.push_back(named(decrement.not_assessed(), "thermal.decrement", "Decrement factor over a day"));
    findings.push_back(
        named(capacity.not_assessed(), "thermal.areal_heat_capacity", "Internal areal heat capacity over a day"));
    return findings;
  }
  const double y = std::abs(found->periodic_transmittance);
  for (FindingBuilder* builder : {&transmittance, &decrement}) {
    builder->step("periodic thermal transmittance", "|Y_ie|", y, "W/(m²·K)", "|1 / Z_12|");
    builder->step("time shift of the heat flow; negative: it comes later", "Δt_f",
                  found->time_shift_s / units::kSecondPerHour, "h", "T / 2π · arg(Y_ie), from −T to 0");
  }
  decrement.step("decrement factor", "f", found->decrement_factor, "", "|Y_ie| / U_0");
  const double internal = found->internal_areal_capacity / units::kJoulePerKilojoule;
  capacity.decimals(1);
  capacity.step("internal areal heat capacity", "κ_1", internal, "kJ/(m²·K)", "T / 2π · |(Z_11 − 1) / Z_12|");
  capacity.step("external areal heat capacity", "κ_2", found->external_areal_capacity / units::kJoulePerKilojoule,
                "kJ/(m²·K)", "T / 2π · |(Z_22 − 1) / Z_12|");
  findings.push_back(transmittance.inform(y, "W/(m²·K)"));
  findings.push_back(
      named(decrement.inform(found->decrement_factor, ""), "thermal.decrement", "Decrement factor over a day"));
  findings.push_back(named(capacity.inform(internal, "kJ/(m²·K)"), "thermal.areal_heat_capacity",
                           "Internal areal heat capacity over a day"));
  return findings;
}

}  // namespace panel_dossier::thermal
