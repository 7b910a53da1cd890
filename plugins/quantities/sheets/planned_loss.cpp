#include "plugins/quantities/sheets/planned_loss.h"

#include <string>

#include "core/api/support/units.h"

namespace panel_dossier::quantities {

namespace {

/// Half of the last decimal printed.
constexpr double kRounding_percent = 0.05;

Value declared_percent(const Project& project, const MaterialKey& key) {
  const Material* material = material_at(project, key.index);
  if (material == nullptr) return {};
  const auto rate = material->properties.number("Panel_EnvironmentalDeclaration", "WasteRateA5");
  if (!rate || !(rate->value >= 0.0 && rate->value < 1.0)) return {};
  return units::kPercentPerWhole * rate->value;
}

std::string remark(double planned_percent, const Value& declared) {
  const double* percent = std::get_if<double>(&declared);
  if (percent == nullptr) {
    return "no usable rate: state Panel_EnvironmentalDeclaration.WasteRateA5, at least 0 and below 1";
  }
  if (planned_percent <= *percent + kRounding_percent) return "";
  return "carbon.a5 counts less than the plan loses: raise the declared rate or improve the plan";
}

}  // namespace

Table loss_table(const Project& project, const PlannedVolumes& volumes) {
  Table table{"Loss in the plan and waste declared for A5",
              {{"material", ""}, {"loss in the plan", "%"}, {"loss declared for A5", "%"}, {"remark", ""}},
              {}};
  for (const auto& [material, volume] : volumes) {
    const double planned_percent = units::kPercentPerWhole * (1.0 - volume.built_in_m3 / volume.bought_m3);
    const Value declared = declared_percent(project, material);
    table.rows.push_back(
        {printed_name(project, material), planned_percent, declared, remark(planned_percent, declared)});
  }
  return table;
}

}  // namespace panel_dossier::quantities
