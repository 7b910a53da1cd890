#include "plugins/structural/wind/zones.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace panel_dossier::structural {

namespace {

double coefficient(const DataTable& table, const std::string& key, double area_m2) {
  const auto large = table.number(key, "cpe10");
  const auto small = table.number(key, "cpe1");
  if (!large || !small) throw std::runtime_error("wall_pressure_coefficients.csv has no complete row '" + key + "'");
  const double share = std::log10(std::clamp(area_m2, 1.0, 10.0));
  return small->value - (small->value - large->value) * share;
}

}  // namespace

const char* to_string(WindZone zone) {
  switch (zone) {
    case WindZone::a: return "A";
    case WindZone::b: return "B";
    case WindZone::c: return "C";
    case WindZone::d: return "D";
    case WindZone::e: return "E";
  }
  return "";
}

double zone_length_m(double across_wind_m, double height_m) {
  return std::min(across_wind_m, 2.0 * height_m);
}

std::vector<ZoneStretch> side_wall_zones(double zone_length_m, double wall_length_m) {
  const double a_end_m = std::min(zone_length_m / 5.0, wall_length_m);
  const double b_end_m = std::min(zone_length_m, wall_length_m);
  std::vector<ZoneStretch> zones{{WindZone::a, {0.0, a_end_m}}};
  if (b_end_m > a_end_m) zones.push_back({WindZone::b, {a_end_m, b_end_m}});
  if (wall_length_m > b_end_m) zones.push_back({WindZone::c, {b_end_m, wall_length_m}});
  return zones;
}

std::vector<Stretch> windward_strips(double height_m, double across_wind_m) {
  if (height_m <= across_wind_m) return {{0.0, height_m}};
  if (height_m <= 2.0 * across_wind_m) return {{0.0, across_wind_m}, {across_wind_m, height_m}};
  std::vector<Stretch> strips{{0.0, across_wind_m}};
  const double middle_m = height_m - 2.0 * across_wind_m;
  const auto count = static_cast<int>(std::ceil(middle_m / across_wind_m));
  for (int i = 0; i < count; ++i) {
    strips.push_back({across_wind_m + middle_m * i / count, across_wind_m + middle_m * (i + 1) / count});
  }
  strips.push_back({height_m - across_wind_m, height_m});
  return strips;
}

double external_pressure_coefficient(const DataTable& table, WindZone zone, double area_m2, double slenderness) {
  const std::string name = to_string(zone);
  if (zone != WindZone::d && zone != WindZone::e) return coefficient(table, name, area_m2);
  const auto at = [&](const char* ratio) { return coefficient(table, name + "/" + ratio, area_m2); };
  if (slenderness <= 0.25) return at("0.25");
  if (slenderness <= 1.0) return std::lerp(at("0.25"), at("1"), (slenderness - 0.25) / 0.75);
  return std::lerp(at("1"), at("5"), (slenderness - 1.0) / 4.0);
}

}  // namespace panel_dossier::structural
