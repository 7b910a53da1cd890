#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "plugins/carbon/account/module_finding.h"
#include "plugins/carbon/account/modules.h"

namespace panel_dossier::carbon {

namespace {

/// Per tonne and km; none, noted, when the setting is absent or negative.
std::optional<double> read_factor(const PanelAccount& account, FindingBuilder& builder) {
  const auto factor = builder.number("GWP of road transport", "g", "kg CO2e/(t·km)",
                                     account.settings.number("carbon.road_transport_gwp_kgco2e_per_tonne_km"),
                                     "setting 'carbon.road_transport_gwp_kgco2e_per_tonne_km' is missing");
  if (factor && *factor < 0.0) {
    builder.missing("setting 'carbon.road_transport_gwp_kgco2e_per_tonne_km' is negative; give at least 0");
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
  if (distance_km && *distance_km < 0.0) {
    builder.missing("material '" + material.name + "': Panel_Supply.TransportDistance is negative");
    return std::nullopt;
  }
  return distance_km;
}

}  // namespace

Finding check_transport(PanelAccount& account) {
  OpenFinding finding = open_module(account, "carbon.a4", "Transport to the site A4", "EN 15978:2011, 8.5");
  FindingBuilder& builder = finding.builder();
  const auto factor = read_factor(account, builder);
  Table table{
      std::string(kTransportByMaterial), {{"material", ""}, {"mass", "kg"}, {"distance", "km"}, {"A4", "kg CO2e"}}, {}};
  ExactSum sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const auto mass =
        account.read_mass(row, "mass of '" + account.material(row).name + "' in the panel, by take-off", "m", builder);
    const auto distance_km = read_distance_km(account.material(row), builder);
    if (!factor || !mass || !distance_km) continue;
    const double value = rounded_to_millionth(*mass / units::kKilogramPerTonne * *distance_km * *factor);
    account.materials[row].at(Module::a4) = Gwp{value, 0.0, 0.0};
    sum.add(value);
    table.rows.push_back({account.label(row), *mass, *distance_km, value});
  }
  builder.table(std::move(table));
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("transport", "A4", sum.total(), "kg CO2e", "Σ m / 1000 · s · g");
  builder.note(
      "Distance by road from the factory gate of each material to the site by way of the workshop; the factor "
      "is the project's and should include empty return trips. It counts as fossil.");
  return builder.inform(sum.total(), "kg CO2e");
}

}  // namespace panel_dossier::carbon
