#include "plugins/structural/wind/project.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "plugins/structural/wind/check.h"
#include "plugins/structural/wind/elevation.h"

namespace panel_dossier::structural {

namespace {

constexpr const char* kFacadeClause = "EN 1991-1-4:2005+A1:2010 5.2, 7.2.2";

/// Rows and drawings a reader can go through; the panels' own pages hold the rest.
constexpr std::size_t kMostRows = 40;
constexpr std::size_t kMostDrawings = 8;

PanelPressures pressures_of(const Project& project, const std::vector<PanelFindings>& panels) {
  PanelPressures result;
  for (const PanelFindings& one : panels) {
    for (const Finding& finding : one.findings) {
      const double* value = std::get_if<double>(&finding.value);
      if (finding.check != kWindPressureCheck || value == nullptr) continue;
      result[static_cast<std::size_t>(one.panel - project.panels.data())] = *value;
    }
  }
  return result;
}

/// Worst first; equal ones in the order of the marks.
std::vector<std::pair<std::size_t, double>> worst_first(const PanelPressures& pressures) {
  std::vector<std::pair<std::size_t, double>> sorted(pressures.begin(), pressures.end());
  std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  return sorted;
}

Table pressure_table(const Project& project, const FacadeLayout& facades,
                     const std::vector<std::pair<std::size_t, double>>& sorted) {
  Table table;
  const bool all = sorted.size() <= kMostRows;
  table.title = all ? "Wind pressure on the panels, worst first"
                    : "Wind pressure on the panels, the worst " + std::to_string(kMostRows) + " of " +
                          std::to_string(sorted.size());
  table.columns = {{"panel", ""}, {"façade", ""}, {"area", "m²"}, {"w", "kPa"}};
  for (std::size_t i = 0; i < std::min(sorted.size(), kMostRows); ++i) {
    const Panel& panel = project.panels[sorted[i].first];
    const auto facade = facades.facade[sorted[i].first];
    table.rows.push_back({panel.mark,
                          facade ? facade_name(facades.facades[*facade], project) : std::string("not known"),
                          panel.gross_area_m2(), sorted[i].second / 1000.0});
  }
  return table;
}

/// Façades whose size is not known have no zones to draw; the panels' findings say why.
void add_drawings(FindingBuilder& builder, const Project& project, const Settings& settings,
                  const FacadeLayout& facades, const PanelPressures& pressures) {
  const auto ground = ground_level(project, settings);
  const auto height = settings.number("building.height_m");
  if (!ground || !height || !(height->value > 0.0)) return;
  std::size_t drawn = 0;
  for (const Facade& facade : facades.facades) {
    FindingBuilder unused(kWindPressureCheck, {}, {}, kFacadeClause);
    const auto size = read_block_size(unused, facade, settings, height->value);
    if (!size || drawn == kMostDrawings) continue;
    builder.drawing(zone_elevation(facade, *size, *ground, project, pressures));
    ++drawn;
  }
  if (drawn < facades.facades.size()) {
    builder.note("Drawn: " + std::to_string(drawn) + " of " + std::to_string(facades.facades.size()) + " façades.");
  }
}

}  // namespace

Finding project_wind_pressure(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings, const FacadeLayout& facades) {
  FindingBuilder builder(kWindPressureCheck, "Characteristic wind pressure, largest of all panels", {}, kFacadeClause);
  builder.decimals(0);
  const PanelPressures pressures = pressures_of(project, panels);
  if (pressures.empty())
    return builder.not_assessed("no panel has a wind pressure; their findings say what is missing");
  const auto sorted = worst_first(pressures);
  const Panel& worst = project.panels[sorted.front().first];
  const double worst_pa = sorted.front().second;
  builder.number("wind pressure on panel " + worst.mark, "w", "Pa", Sourced<double>{worst_pa, worst.origin}, {});
  builder.step("largest wind pressure", "w_max", worst_pa, "Pa", "largest of the panels' findings")
      .table(pressure_table(project, facades, sorted));
  if (pressures.size() < project.panels.size()) {
    builder.note(std::to_string(project.panels.size() - pressures.size()) + " of " +
                 std::to_string(project.panels.size()) + " panels have no wind pressure; their findings say why.");
  }
  add_drawings(builder, project, settings, facades, pressures);
  return builder.inform(worst_pa, "Pa");
}

}  // namespace panel_dossier::structural
