#include "plugins/thermal/project_totals.h"

#include <string>
#include <string_view>

#include "core/api/exact_sum.h"
#include "core/api/finding_builder.h"
#include "core/api/panel_values.h"

namespace panel_dossier::thermal {

namespace {

/// Records how many panels stand behind a total, and notes those that do not.
void add_panels(const Project& project, const PanelValues& values, std::string_view check, FindingBuilder& builder) {
  builder.number("panels in the sum", "n", "",
                 Sourced<double>{static_cast<double>(values.entries.size()), project.origin}, {});
  if (!values.whole()) builder.missing(values.what_is_missing(check));
}

Finding average_u_value(const Project& project, const std::vector<PanelFindings>& panels) {
  constexpr std::string_view kCheck = "thermal.u_value";
  FindingBuilder builder(std::string(kCheck), "Area-weighted average U-value of the panels without their openings", "",
                         "EN ISO 6946:2017, 6.7.2");
  const PanelValues values = panel_values(panels, kCheck);
  add_panels(project, values, kCheck, builder);
  ExactSum area;
  ExactSum loss;
  for (const PanelValue& entry : values.entries) {
    area.add(entry.panel->net_area_m2());
    loss.add(entry.value * entry.panel->net_area_m2());
  }
  builder.step("area of these panels without openings", "ΣA_net", area.total(), "m²");
  builder.step("heat transfer coefficient of that area", "ΣU·A_net", loss.total(), "W/K");
  if (builder.incomplete()) return builder.not_assessed();
  builder.step("average", "U_m", loss.total() / area.total(), "W/(m²·K)", "ΣU·A_net / ΣA_net");
  return builder.inform(loss.total() / area.total(), "W/(m²·K)");
}

Finding total_heat_loss(const Project& project, const std::vector<PanelFindings>& panels) {
  constexpr std::string_view kCheck = "thermal.heat_loss";
  FindingBuilder builder(std::string(kCheck), "Heat transfer coefficient of all panels with their openings", "",
                         "EN ISO 13789:2017, 7.2");
  const PanelValues values = panel_values(panels, kCheck);
  add_panels(project, values, kCheck, builder);
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(entry.value);
  builder.step("sum over these panels", "ΣH", sum.total(), "W/K");
  builder.note("Joints between panels, reveals and other linear and point transmittances are not included.");
  return builder.inform(sum.total(), "W/K");
}

}  // namespace

std::vector<Finding> total_project(const Project& project, const std::vector<PanelFindings>& panels) {
  return {average_u_value(project, panels), total_heat_loss(project, panels)};
}

}  // namespace panel_dossier::thermal
