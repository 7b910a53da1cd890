#include "plugins/thermal/transmittance/heat_loss.h"

#include <array>
#include <map>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/words.h"
#include "plugins/thermal/check_inputs.h"
#include "plugins/thermal/junctions/linear_transmittance.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "plugins/thermal/windows/window_check.h"

namespace panel_dossier::thermal {

namespace {

constexpr const char* kWattsPerKelvin = "W/K";

/// A part of the coefficient, in the order of the chart.
struct HeatPart {
  const char* id;      ///< of its value in a panel's finding
  const char* name;    ///< of the project's sum
  const char* symbol;  ///< of its step
};
constexpr HeatPart kPlain{"plain_area", "plain area", "H_A"};
constexpr HeatPart kFillings{"windows_and_doors", "windows and doors", "H_W"};
constexpr HeatPart kLines{"junctions", "junctions", "H_Ψ"};
constexpr HeatPart kPoints{"corners_at_floors", "corners at floors", "H_χ"};
constexpr std::array<HeatPart, 4> kParts{kPlain, kFillings, kLines, kPoints};
constexpr std::size_t kLinesIndex = 2;  // of kLines in kParts

/// U·A of the windows and doors.
struct FillingHeat {
  double sum_w_per_k = 0.0;
  std::string formula;
};

/// What is missing is noted in `builder`.
FillingHeat filling_heat(const Panel& panel, FindingBuilder& builder) {
  FillingHeat heat;
  for (std::size_t i = 0; i < panel.openings.size(); ++i) {
    const Opening& opening = panel.openings[i];
    const auto u = filling_transmittance(panel, i, builder);
    if (!u) continue;
    const std::string symbol = numbered_symbol("A_w", i, panel.openings.size());
    const auto area = builder.positive("area of the opening of '" + filling_label(opening) + "'", symbol, "m²",
                                       Sourced<double>{opening.area_m2(), opening.origin}, {});
    if (!area) continue;
    heat.sum_w_per_k += u->value_w_per_m2k * *area;
    heat.formula += (heat.formula.empty() ? "H_W = " : " + ") + u->symbol + " · " + symbol;
  }
  return heat;
}

/// Sums of the panels of one type.
struct TypeHeat {
  std::size_t panels = 0;
  std::array<ExactSum, kParts.size()> parts;
  ExactSum total;

  void add(const PanelValue& entry) {
    ++panels;
    total.add(entry.value);
    for (std::size_t i = 0; i < kParts.size(); ++i) {
      parts[i].add(value_of(*entry.finding, kParts[i].id, kWattsPerKelvin));
    }
  }
};

Table type_table(const std::map<std::string, TypeHeat>& types) {
  Table table{"Heat transfer coefficient by type of panel", {{"type", ""}, {"panels", ""}}, {}};
  for (const HeatPart& part : kParts) table.columns.push_back({part.name, kWattsPerKelvin});
  table.columns.push_back({"H", kWattsPerKelvin});
  for (const auto& [name, type] : types) {
    std::vector<Value> row{name, static_cast<double>(type.panels)};
    for (const ExactSum& part : type.parts) row.emplace_back(part.total());
    row.emplace_back(type.total.total());
    table.rows.push_back(std::move(row));
  }
  return table;
}

BarChart type_chart(const std::map<std::string, TypeHeat>& types) {
  BarChart chart{"Heat loss by part, mean of the panels of each type", "H of one panel", kWattsPerKelvin, {}, {}};
  for (const HeatPart& part : kParts) chart.parts.emplace_back(part.name);
  for (const auto& [name, type] : types) {
    std::vector<double> means;
    for (const ExactSum& part : type.parts) means.push_back(part.total() / static_cast<double>(type.panels));
    chart.bars.push_back(stacked_bar(name, means));
  }
  return chart;
}

}  // namespace

const CheckDeclaration kHeatLossCheck{
    .id = "thermal.heat_loss",
    .title = "Heat transfer coefficient of the panel with openings and junctions",
    .project_title = "Heat transfer coefficient of all panels with openings and junctions",
    .sentence =
        "H is the sum of U times area of the plain area, windows and doors, of Ψ times length of the junctions "
        "and of χ of the corners at floors.",
    .clause = "EN ISO 13789:2017, 7.2",
    .units = {kWattsPerKelvin},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(resting_on(
        {optional_property("Panel_Window.GlassTransmittance"), optional_property("Panel_Window.FrameTransmittance"),
         optional_property("Panel_Window.EdgeTransmittance"), optional_property("Panel_Window.FrameWidth"),
         optional_property("Pset_WindowCommon.ThermalTransmittance"),
         optional_property("Pset_DoorCommon.ThermalTransmittance")},
        junction_inputs())),
    .limits = {"Ground floor, roof and what others build are not included.",
               "Brackets and corners with a column are not included as points.",
               "Ventilation and leaks carry heat besides."}};

Finding check_heat_loss(const Panel& panel, const PanelJunctionHeat* heat, const std::string& why_not) {
  FindingBuilder builder(kHeatLossCheck, panel.global_id);
  if (heat == nullptr) return builder.not_assessed(why_not);
  if (!heat->missing.empty()) {
    return builder.not_assessed(kLinearTransmittanceCheck.id + " is not assessed: " + heat->missing.front());
  }
  const auto area = builder.positive("area of the panel without openings", "A_net", "m²",
                                     Sourced<double>{panel.net_area_m2(), panel.origin}, {});
  const FillingHeat fillings = filling_heat(panel, builder);
  if (builder.incomplete()) return builder.not_assessed();
  const double plain = heat->plain_u_w_per_m2k * *area;
  const double lines = heat->lines_w_per_k();
  const double points = heat->points_w_per_k();
  const double total = plain + fillings.sum_w_per_k + lines + points;
  builder.step("U of the plain area; timber that belongs to a junction is in its Ψ", "U", heat->plain_u_w_per_m2k,
               "W/(m²·K)");
  builder.step("panel without openings", kPlain.symbol, plain, kWattsPerKelvin, "H_A = U · A_net");
  builder.step("windows and doors", kFillings.symbol, fillings.sum_w_per_k, kWattsPerKelvin, fillings.formula);
  builder.step("junctions, from thermal.linear_transmittance", kLines.symbol, lines, kWattsPerKelvin);
  builder.step("corners crossed by a floor, likewise", kPoints.symbol, points, kWattsPerKelvin);
  builder.step("heat transfer coefficient", "H", total, kWattsPerKelvin, "H = H_A + H_W + H_Ψ + H_χ");
  builder.step("share of the junctions and corners", "p", (lines + points) / total * 100.0, "%", "p = (H_Ψ + H_χ) / H");
  builder.value(kPlain.id, plain, kWattsPerKelvin);
  builder.value(kFillings.id, fillings.sum_w_per_k, kWattsPerKelvin);
  builder.value(kLines.id, lines, kWattsPerKelvin);
  builder.value(kPoints.id, points, kWattsPerKelvin);
  builder.note(
      "Windows and doors count with the area of their opening; areas are by the panel's own width and height.");
  return builder.inform(total, kWattsPerKelvin);
}

Finding total_heat_loss(const Project& project, const std::vector<PanelFindings>& panels) {
  FindingBuilder builder(kHeatLossCheck, "");
  const PanelValues values = panel_values(panels, kHeatLossCheck.id);
  add_panels(project, values, kHeatLossCheck, builder);
  TypeHeat all;
  std::map<std::string, TypeHeat> types;
  for (const PanelValue& entry : values.entries) {
    all.add(entry);
    types[entry.panel->type].add(entry);
  }
  for (std::size_t i = 0; i < kParts.size(); ++i) {
    builder.step(kParts[i].name, kParts[i].symbol, all.parts[i].total(), kWattsPerKelvin);
  }
  const double sum = all.total.total();
  builder.step("sum over these panels", "ΣH", sum, kWattsPerKelvin, "ΣH = sum(H)");
  if (sum > 0.0) {
    builder.step("share of the junctions along lines", "p", all.parts[kLinesIndex].total() / sum * 100.0, "%",
                 "p = H_Ψ / ΣH");
  }
  builder.table(type_table(types));
  builder.bar_chart(type_chart(types));
  builder.note("Each part is the sum of that part over the panels, each to a millionth of a W/K.");
  builder.note("The panels only: ground floor, roof and what others build are not included.");
  return builder.inform(sum, kWattsPerKelvin);
}

}  // namespace panel_dossier::thermal
