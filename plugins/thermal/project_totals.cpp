#include "plugins/thermal/project_totals.h"

#include <array>
#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/support/exact_sum.h"
#include "plugins/thermal/transmittance/heat_loss.h"
#include "plugins/thermal/transmittance/u_value_limit.h"

namespace panel_dossier::thermal {

namespace {

/// Records how many panels stand behind a total, and notes those that do not.
void add_panels(const Project& project, const PanelValues& values, std::string_view check, FindingBuilder& builder) {
  builder.number("panels in the sum", "n", "",
                 Sourced<double>{static_cast<double>(values.entries.size()), project.origin}, {});
  if (!values.whole()) builder.missing(values.what_is_missing(check));
}

Finding average_u_value(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                        const Tables& tables) {
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
  const double average = loss.total() / area.total();
  builder.step("average", "U_m", average, "W/(m²·K)", "ΣU·A_net / ΣA_net");
  return judge_wall(average, "the average U", tables.u_value_limits, settings, builder);
}

/// The parts of a coefficient, in the order of the chart.
struct HeatPart {
  const char* name;
  const char* symbol;
};
constexpr std::array<HeatPart, 4> kParts{{{"plain area", kPlainHeat},
                                          {"windows and doors", kFillingHeat},
                                          {"junctions", kLineHeat},
                                          {"corners at floors", kPointHeat}}};

/// Sums of the panels of one type.
struct TypeHeat {
  std::size_t panels = 0;
  std::array<ExactSum, kParts.size()> parts;
  ExactSum total;
};

std::map<std::string, TypeHeat> heat_by_type(const PanelValues& values) {
  std::map<std::string, TypeHeat> types;
  for (const PanelValue& entry : values.entries) {
    TypeHeat& type = types[entry.panel->type];
    ++type.panels;
    type.total.add(entry.value);
    for (std::size_t i = 0; i < kParts.size(); ++i) type.parts[i].add(step_value(*entry.finding, kParts[i].symbol));
  }
  return types;
}

Table type_table(const std::map<std::string, TypeHeat>& types) {
  Table table{"Heat transfer coefficient by type of panel", {{"type", ""}, {"panels", ""}}, {}};
  for (const HeatPart& part : kParts) table.columns.push_back({part.name, "W/K"});
  table.columns.push_back({"H", "W/K"});
  for (const auto& [name, type] : types) {
    std::vector<Value> row{name, static_cast<double>(type.panels)};
    for (const ExactSum& part : type.parts) row.emplace_back(part.total());
    row.emplace_back(type.total.total());
    table.rows.push_back(std::move(row));
  }
  return table;
}

BarChart type_chart(const std::map<std::string, TypeHeat>& types) {
  BarChart chart{"Heat loss by part, mean of the panels of each type", "H of one panel", "W/K", {}, {}};
  for (const HeatPart& part : kParts) chart.parts.emplace_back(part.name);
  for (const auto& [name, type] : types) {
    std::vector<double> means;
    for (const ExactSum& part : type.parts) means.push_back(part.total() / static_cast<double>(type.panels));
    chart.bars.push_back(stacked_bar(name, means));
  }
  return chart;
}

Finding total_heat_loss(const Project& project, const std::vector<PanelFindings>& panels) {
  constexpr std::string_view kCheck = "thermal.heat_loss";
  FindingBuilder builder(std::string(kCheck), "Heat transfer coefficient of all panels with openings and junctions", "",
                         "EN ISO 13789:2017, 7.2");
  const PanelValues values = panel_values(panels, kCheck);
  add_panels(project, values, kCheck, builder);
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(entry.value);
  const auto types = heat_by_type(values);
  for (std::size_t i = 0; i < kParts.size(); ++i) {
    ExactSum part;
    for (const PanelValue& entry : values.entries) part.add(step_value(*entry.finding, kParts[i].symbol));
    builder.step(kParts[i].name, kParts[i].symbol, part.total(), "W/K");
    if (kParts[i].symbol == kLineHeat && sum.total() > 0.0) {
      builder.step("share of the junctions along lines", "", part.total() / sum.total() * 100.0, "%");
    }
  }
  builder.step("sum over these panels", "ΣH", sum.total(), "W/K");
  builder.table(type_table(types));
  builder.bar_chart(type_chart(types));
  builder.note("The panels only: ground floor, roof and what others build are not included.");
  return builder.inform(sum.total(), "W/K");
}

}  // namespace

std::vector<Finding> total_project(const Project& project, const std::vector<PanelFindings>& panels,
                                   const Settings& settings, const Tables& tables) {
  return {average_u_value(project, panels, settings, tables), total_heat_loss(project, panels)};
}

}  // namespace panel_dossier::thermal
