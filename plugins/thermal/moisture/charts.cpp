#include "plugins/thermal/moisture/charts.h"

#include <utility>
#include <vector>

#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier::thermal {

namespace {

std::vector<std::size_t> wet_planes(const GlaserYear& year) {
  std::vector<std::size_t> planes;
  for (std::size_t i = 0; i < year.greatest_kg_per_m2.size(); ++i) {
    if (year.condenses && year.greatest_kg_per_m2[i] > 0.0) planes.push_back(i);
  }
  return planes;
}

Curve profile_curve(std::string name, const std::vector<double>& sd_m, const std::vector<double>& values) {
  Curve curve;
  curve.name = std::move(name);
  for (std::size_t i = 0; i < sd_m.size(); ++i) curve.points.push_back({sd_m[i], values[i]});
  return curve;
}

Series profile_series(const std::string& title, const std::string& y_label, const std::string& y_unit) {
  Series series;
  series.title = title;
  series.x_unit = "m";
  series.y_label = y_label;
  series.y_unit = y_unit;
  return series;
}

/// g_c of month `m` at a plane.
double condensed_kg_per_m2(const GlaserYear& year, std::size_t m, std::size_t plane) {
  const double before = m == 0 ? 0.0 : year.months[m - 1].held_kg_per_m2[plane];
  return year.months[m].held_kg_per_m2[plane] - before;
}

}  // namespace

std::string outcome(const GlaserYear& year) {
  if (!year.condenses) return "nothing condenses";
  return year.dries_out ? "condenses and dries within the year" : "does not dry within the year";
}

std::string plane_name(const VapourBuildUp& build_up, std::size_t plane) {
  const auto& layers = build_up.layers;
  const std::string& inside = layers[plane - 1].name;
  const std::string& outside = layers[plane].name;
  if (inside != outside) return "between '" + inside + "' and '" + outside + "'";
  std::size_t first = plane;
  while (first > 0 && layers[first - 1].name == inside) --first;
  std::size_t end = plane;
  while (end < layers.size() && layers[end].name == inside) ++end;
  const double share = static_cast<double>(plane - first) / static_cast<double>(end - first);
  return "within '" + inside + "', " + fixed_text(100.0 * share, 0) + " % of its depth";
}

Series condensate_series(const VapourBuildUp& build_up, const GlaserYear& year) {
  Series series;
  series.title =
      "Condensate held at the end of each month, from " + std::string(kMonthNames[year.months.front().month]) + " on";
  series.x_label = "months since the start";
  series.y_label = "condensate M_a";
  series.y_unit = "kg/m²";
  const auto add = [&](std::string name, auto held) {
    Curve curve{std::move(name), {{0.0, 0.0}}};
    for (std::size_t m = 0; m < kMonths; ++m)
      curve.points.push_back({static_cast<double>(m + 1), held(year.months[m])});
    series.curves.push_back(std::move(curve));
  };
  for (const std::size_t plane : wet_planes(year)) {
    add(plane_name(build_up, plane), [&](const GlaserMonth& month) { return month.held_kg_per_m2[plane]; });
  }
  if (series.curves.size() > 1) add("all planes", [](const GlaserMonth& month) { return month.total_kg_per_m2(); });
  return series;
}

HumidityYear humidity_year(const VapourBuildUp& build_up, const YearClimate& climate) {
  HumidityYear humidity;
  const std::vector<bool> dry(build_up.layers.size() + 1, false);
  for (std::size_t month = 0; month < kMonths; ++month) {
    const VapourProfile profile = vapour_profile(build_up, climate[month], dry);
    for (std::size_t plane = 1; plane < build_up.layers.size(); ++plane) {
      const double relative = profile.pressure_pa[plane] / profile.saturation_pa[plane];
      if (relative <= humidity.highest[month]) continue;
      humidity.highest[month] = relative;
      if (relative <= humidity.highest[humidity.worst_month] && month != humidity.worst_month) continue;
      humidity.worst_month = month;
      humidity.worst_plane = plane;
    }
  }
  return humidity;
}

Series humidity_series(const HumidityYear& humidity) {
  Series series;
  series.title = "Highest relative humidity between layers by month, January first; vapour condenses at 100 %";
  series.x_label = "month";
  series.y_label = "φ";
  series.y_unit = "%";
  Curve highest{"highest of all planes", {}};
  Curve condensing{"condensation", {}};
  for (std::size_t month = 0; month < kMonths; ++month) {
    const auto x = static_cast<double>(month + 1);
    highest.points.push_back({x, units::kPercentPerWhole * humidity.highest[month]});
    condensing.points.push_back({x, units::kPercentPerWhole});
  }
  series.curves = {std::move(highest), std::move(condensing)};
  return series;
}

Series pressure_series(const VapourProfile& profile, const std::string& month) {
  Series series = profile_series("Vapour pressure through the build-up, " + month, "pressure", "Pa");
  series.x_label = "s_d from the internal surface";
  series.curves.push_back(profile_curve("saturation pressure", profile.sd_m, profile.saturation_pa));
  series.curves.push_back(profile_curve("vapour pressure", profile.sd_m, profile.pressure_pa));
  return series;
}

Series profile_temperature_series(const VapourBuildUp& build_up, const VapourProfile& profile,
                                  const std::string& month) {
  Series series = profile_series("Temperature through the build-up, " + month, "temperature", "°C");
  series.x_label = "depth from the internal surface";
  std::vector<double> depth_m{0.0};
  for (const VapourLayer& layer : build_up.layers) depth_m.push_back(depth_m.back() + layer.thickness_m);
  series.curves.push_back(profile_curve("temperature", depth_m, profile.temperature_c));
  return series;
}

BarChart condensation_rate_chart(const VapourBuildUp& build_up, const GlaserYear& year) {
  BarChart chart;
  chart.title = "Condensation (right) and drying (left) by month, from " +
                std::string(kMonthNames[year.months.front().month]) + " on";
  chart.axis_label = "g_c";
  chart.axis_unit = "kg/m² a month";
  const auto planes = wet_planes(year);
  for (const std::size_t plane : planes) chart.parts.push_back(plane_name(build_up, plane));
  for (std::size_t m = 0; m < kMonths; ++m) {
    std::vector<double> values;
    values.reserve(planes.size());
    for (const std::size_t plane : planes) values.push_back(condensed_kg_per_m2(year, m, plane));
    chart.bars.push_back(stacked_bar(std::string(kMonthNames[year.months[m].month]), values));
  }
  return chart;
}

Table condensate_table(const VapourBuildUp& build_up, const GlaserYear& year) {
  constexpr std::size_t kMostPlanes = 3;
  Table table{"Condensation and drying by month",
              {{"month", ""},
               {"vapour in from inside", "kg/m²"},
               {"vapour out to outside", "kg/m²"},
               {"g_c, all planes", "kg/m²"}},
              {}};
  std::vector<std::size_t> planes = wet_planes(year);
  if (planes.size() > kMostPlanes) planes.clear();
  for (const std::size_t plane : planes) table.columns.push_back({"M_a " + plane_name(build_up, plane), "kg/m²"});
  table.columns.push_back({"M_a, all planes", "kg/m²"});
  double before = 0.0;
  for (const GlaserMonth& month : year.months) {
    const double total = month.total_kg_per_m2();
    std::vector<Value> row{std::string(kMonthNames[month.month]), month.vapour_from_inside_kg_per_m2,
                           month.vapour_to_outside_kg_per_m2, total - before};
    for (const std::size_t plane : planes) row.emplace_back(month.held_kg_per_m2[plane]);
    row.emplace_back(total);
    table.rows.push_back(std::move(row));
    before = total;
  }
  return table;
}

}  // namespace panel_dossier::thermal
