#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/support/geometry.h"
#include "core/api/support/words.h"
#include "plugins/structural/wind/loads.h"
#include "plugins/structural/wind/wind_checks.h"

namespace panel_dossier::structural {

namespace {

/// Pressure of each panel in Pa by index into Project::panels; panels without one are not in it.
using PanelPressures = std::map<std::size_t, double>;

/// Beyond this no mark could be read at the scale of a page.
constexpr std::size_t kMostPanelsDrawn = 150;

void add_panels(Drawing& drawing, const Facade& facade, const GroundLevel& ground, const Project& project,
                const PanelPressures& pressures) {
  if (facade.panels.size() > kMostPanelsDrawn) return;
  for (const std::size_t index : facade.panels) {
    const Panel& panel = project.panels[index];
    const Stretch extent = extent_along(panel, facade.along);
    const HeightAboveGround height = height_above_ground(panel, ground);
    const auto pressure = pressures.find(index);
    DrawnPolygon outline;
    outline.outline =
        rectangle(extent.from_m - facade.from_m, height.foot_m, extent.to_m - facade.from_m, height.top_m);
    outline.style = LineStyle::thin;
    outline.label = panel.mark;
    if (pressure != pressures.end()) outline.label += " " + fixed_text(pressure->second / 1000.0, 2);
    drawing.polygons.push_back(std::move(outline));
  }
}

/// Ticks between the zones, outside the panels so that their marks stay clear, and a row of dimensions with the zones'
/// letters; both start at `row_m` above the ground and go up or down by `offset_m`.
void add_zones(Drawing& drawing, const BlockSize& size, bool from_left, double row_m, double offset_m) {
  for (const ZoneStretch& zone : side_wall_zones(size.side_zone_length_m(), size.along_m)) {
    const double near_m = from_left ? zone.stretch.from_m : size.along_m - zone.stretch.to_m;
    const double far_m = from_left ? zone.stretch.to_m : size.along_m - zone.stretch.from_m;
    const double inner_m = from_left ? far_m : near_m;
    if (inner_m > 0.0 && inner_m < size.along_m) {
      drawing.lines.push_back({{inner_m, row_m}, {inner_m, row_m + offset_m}, LineStyle::heavy});
    }
    DrawnDimension dimension;
    dimension.from = {near_m, row_m};
    dimension.to = {far_m, row_m};
    dimension.offset = offset_m;
    dimension.text = std::string(to_string(zone.zone)) + " " + fixed_text(zone.stretch.length_m(), 2) + " m";
    drawing.dimensions.push_back(std::move(dimension));
  }
}

/// An arrow along the wall from `tail_m` to `tip_m`, at half the building's height.
void add_wind_arrow(Drawing& drawing, double tail_m, double tip_m, double height_m) {
  const double middle_m = height_m / 2.0;
  const double head_m = (tip_m - tail_m) / 4.0;
  const Vec2 tip{tip_m, middle_m};
  drawing.lines.push_back({{tail_m, middle_m}, tip, LineStyle::normal});
  for (const double side : {1.0, -1.0}) {
    drawing.lines.push_back({{tip_m - head_m, middle_m + side * head_m / 2.0}, tip, LineStyle::normal});
  }
}

/// The two winds along the wall; a short wall would lose scale to the arrows and goes without.
void add_winds(Drawing& drawing, const BlockSize& size, double gap_m) {
  if (size.along_m < 1.5 * size.height_m) return;
  const double length_m = size.along_m / 12.0;
  add_wind_arrow(drawing, -gap_m - length_m, -gap_m, size.height_m);
  add_wind_arrow(drawing, size.along_m + 2.0 * gap_m + length_m, size.along_m + 2.0 * gap_m, size.height_m);
}

/// Seen from outside: outline of the façade, zones A to C of wind from the left above it and from the right below it,
/// with dimensions, and the panels with mark and pressure. More panels than can be read are left out.
Drawing zone_elevation(const Facade& facade, const BlockSize& size, const GroundLevel& ground, const Project& project,
                       const PanelPressures& pressures) {
  Drawing drawing;
  drawing.title =
      "Façade " + facade_name(facade, project) +
      ", from outside: zones of wind from the left above, from the right below; panels with pressure in kPa";
  add_panels(drawing, facade, ground, project, pressures);
  const double height_m = size.height_m;
  double top_m = height_m;
  for (const std::size_t index : facade.panels) {
    top_m = std::max(top_m, height_above_ground(project.panels[index], ground).top_m);
  }
  const std::vector<Vec2> corners{{0.0, 0.0}, {size.along_m, 0.0}, {size.along_m, height_m}, {0.0, height_m}};
  for (std::size_t i = 0; i < corners.size(); ++i) {
    drawing.lines.push_back({corners[i], corners[(i + 1) % corners.size()], LineStyle::heavy});
  }
  const double row_m = size.height_m / 12.0;
  add_zones(drawing, size, true, top_m, row_m);
  add_zones(drawing, size, false, 0.0, -row_m);
  drawing.dimensions.push_back({{size.along_m, 0.0}, {size.along_m, height_m}, -row_m, {}});
  add_winds(drawing, size, row_m);
  drawing.texts.push_back({{0.0, -2.0 * row_m}, "Wind onto this façade: zone D on all of it."});
  drawing.texts.push_back({{0.0, -2.8 * row_m}, "Wind onto the far side: zone E on all of it."});
  return drawing;
}

/// Rows and drawings a reader can go through; the panels' own pages hold the rest.
constexpr std::size_t kMostRows = 40;
constexpr std::size_t kMostDrawings = 8;

PanelPressures pressures_of(const Project& project, const std::vector<PanelFindings>& panels) {
  PanelPressures result;
  for (const PanelValue& one : panel_values(panels, kWindPressureCheck.id).entries) {
    result[static_cast<std::size_t>(one.panel - project.panels.data())] = one.value;
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
    FindingBuilder unused(kWindPressureCheck, {});
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
  FindingBuilder builder(kWindPressureCheck, {});
  builder.clause(kFacadesClause).decimals(0);
  const PanelPressures pressures = pressures_of(project, panels);
  if (pressures.empty())
    return builder.not_assessed("no panel has a wind pressure; their findings say what is missing");
  const auto sorted = worst_first(pressures);
  const Panel& worst = project.panels[sorted.front().first];
  const double worst_pa = sorted.front().second;
  builder.number("wind pressure on panel " + worst.mark, "w", "Pa", Sourced<double>{worst_pa, worst.origin}, {});
  builder.step("largest wind pressure", "w_max", worst_pa, "Pa", "w_max = w")
      .table(pressure_table(project, facades, sorted));
  if (pressures.size() < project.panels.size()) {
    builder.note(std::to_string(project.panels.size() - pressures.size()) + " of " +
                 std::to_string(project.panels.size()) + " panels have no wind pressure; their findings say why.");
  }
  add_drawings(builder, project, settings, facades, pressures);
  return builder.inform(worst_pa, "Pa");
}

}  // namespace panel_dossier::structural
