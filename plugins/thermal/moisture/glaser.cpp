#include "plugins/thermal/moisture/glaser.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "core/api/support/units.h"
#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/transmittance/build_up.h"

namespace panel_dossier::thermal {

namespace {

/// EN ISO 13788:2012, table of the months' lengths, February without leap days.
constexpr std::array<double, kMonths> kDays{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// Less than a thousandth of a gram: round-off, not water.
constexpr double kNoWater_kg_per_m2 = 1e-6;

/// Makes the pressure between the points `from` and `to`, which are set, the highest convex line under saturation: the
/// lower hull of the points, found by leaving out every point that lies above the line past it.
void draw_taut(VapourProfile& profile, std::size_t from, std::size_t to) {
  std::vector<std::size_t> hull;
  const auto pressure = [&](std::size_t i) {
    return i == from || i == to ? profile.pressure_pa[i] : profile.saturation_pa[i];
  };
  const auto slope = [&](std::size_t a, std::size_t b) {
    return (pressure(b) - pressure(a)) / (profile.sd_m[b] - profile.sd_m[a]);
  };
  for (std::size_t i = from; i <= to; ++i) {
    while (hull.size() > 1 && slope(hull[hull.size() - 2], hull.back()) >= slope(hull.back(), i)) hull.pop_back();
    hull.push_back(i);
  }
  for (std::size_t h = 1; h < hull.size(); ++h) {
    const std::size_t a = hull[h - 1];
    const double gradient = slope(a, hull[h]);
    const double start = pressure(a);
    for (std::size_t i = a + 1; i < hull[h]; ++i) {
      profile.pressure_pa[i] = start + gradient * (profile.sd_m[i] - profile.sd_m[a]);
    }
    if (hull[h] != to) profile.pressure_pa[hull[h]] = profile.saturation_pa[hull[h]];
  }
}

/// Vapour flow outwards in kg/(m²·s) through each layer.
std::vector<double> vapour_flows(const VapourProfile& profile) {
  std::vector<double> flows;
  for (std::size_t i = 1; i < profile.sd_m.size(); ++i) {
    flows.push_back(kVapourPermeabilityOfAir_kg_per_mspa * (profile.pressure_pa[i - 1] - profile.pressure_pa[i]) /
                    (profile.sd_m[i] - profile.sd_m[i - 1]));
  }
  return flows;
}

/// Condensation in kg/(m²·s) at each plane, negative where it evaporates; planes that are dry and below saturation
/// have none.
std::vector<double> condensation_rates(const VapourProfile& profile, const std::vector<double>& flows) {
  std::vector<double> rates(profile.sd_m.size(), 0.0);
  for (std::size_t i = 1; i + 1 < rates.size(); ++i) {
    if (profile.pressure_pa[i] >= profile.saturation_pa[i]) rates[i] = flows[i - 1] - flows[i];
  }
  return rates;
}

std::vector<bool> wet_planes(const std::vector<double>& held) {
  std::vector<bool> wet;
  wet.reserve(held.size());
  for (const double mass : held) wet.push_back(mass > kNoWater_kg_per_m2);
  return wet;
}

/// Time until the first plane is dry, at most `limit_s`.
double time_to_first_dry_s(const std::vector<double>& held, const std::vector<double>& rates, double limit_s) {
  double time_s = limit_s;
  for (std::size_t i = 0; i < held.size(); ++i) {
    if (rates[i] < 0.0 && held[i] > kNoWater_kg_per_m2) time_s = std::min(time_s, held[i] / -rates[i]);
  }
  return time_s;
}

GlaserMonth run_month(const VapourBuildUp& build_up, const YearClimate& climate, std::size_t month,
                      std::vector<double> held) {
  GlaserMonth result;
  result.month = month;
  double left_s = kDays[month] * units::kSecondPerDay;
  while (left_s > 0.0) {
    const VapourProfile profile = vapour_profile(build_up, climate[month], wet_planes(held));
    const auto flows = vapour_flows(profile);
    const auto rates = condensation_rates(profile, flows);
    const double step_s = time_to_first_dry_s(held, rates, left_s);
    for (std::size_t i = 0; i < held.size(); ++i) {
      held[i] += rates[i] * step_s;
      // A plane that has just dried keeps round-off, which would hold it at saturation.
      if (rates[i] <= 0.0 && held[i] < kNoWater_kg_per_m2) held[i] = 0.0;
    }
    result.vapour_from_inside_kg_per_m2 += flows.front() * step_s;
    result.vapour_to_outside_kg_per_m2 += flows.back() * step_s;
    left_s -= step_s;
  }
  result.held_kg_per_m2 = std::move(held);
  return result;
}

std::array<GlaserMonth, kMonths> run_year(const VapourBuildUp& build_up, const YearClimate& climate,
                                          std::size_t start) {
  std::array<GlaserMonth, kMonths> months;
  std::vector<double> held(build_up.layers.size() + 1, 0.0);
  for (std::size_t m = 0; m < kMonths; ++m) {
    months[m] = run_month(build_up, climate, (start + m) % kMonths, held);
    held = months[m].held_kg_per_m2;
  }
  return months;
}

/// Condensation from a dry state in kg/(m²·s), all planes together, in each month.
std::array<double, kMonths> dry_rates(const VapourBuildUp& build_up, const YearClimate& climate) {
  std::array<double, kMonths> result{};
  const std::vector<bool> dry(build_up.layers.size() + 1, false);
  for (std::size_t m = 0; m < kMonths; ++m) {
    const VapourProfile profile = vapour_profile(build_up, climate[m], dry);
    const auto rates = condensation_rates(profile, vapour_flows(profile));
    const double total = std::accumulate(rates.begin(), rates.end(), 0.0);
    if (total * kDays[m] * units::kSecondPerDay > kNoWater_kg_per_m2) result[m] = total;
  }
  return result;
}

std::vector<std::size_t> possible_starts(const std::array<double, kMonths>& rates) {
  std::vector<std::size_t> starts;
  for (std::size_t m = 0; m < kMonths; ++m) {
    if (rates[m] > 0.0 && rates[(m + kMonths - 1) % kMonths] <= 0.0) starts.push_back(m);
  }
  if (starts.empty()) starts.push_back(0);
  return starts;
}

std::size_t coldest_month(const YearClimate& climate) {
  const auto coldest = std::min_element(climate.begin(), climate.end(), [](const auto& a, const auto& b) {
    return a.external_temperature_c < b.external_temperature_c;
  });
  return static_cast<std::size_t>(coldest - climate.begin());
}

void find_greatest(GlaserYear& year, std::size_t planes) {
  year.greatest_kg_per_m2.assign(planes, 0.0);
  for (const GlaserMonth& month : year.months) {
    year.greatest_total_kg_per_m2 = std::max(year.greatest_total_kg_per_m2, month.total_kg_per_m2());
    for (std::size_t i = 0; i < planes; ++i) {
      year.greatest_kg_per_m2[i] = std::max(year.greatest_kg_per_m2[i], month.held_kg_per_m2[i]);
    }
  }
}

}  // namespace

VapourBuildUp subdivided(const VapourBuildUp& build_up) {
  constexpr double kMostResistance_m2k_per_w = 0.25;
  VapourBuildUp result = build_up;
  result.layers.clear();
  for (const VapourLayer& layer : build_up.layers) {
    const double count = std::max(1.0, std::ceil(layer.resistance_m2k_per_w / kMostResistance_m2k_per_w));
    const VapourLayer part{layer.name, layer.resistance_m2k_per_w / count, layer.sd_m / count,
                           layer.thickness_m / count};
    result.layers.insert(result.layers.end(), static_cast<std::size_t>(count), part);
  }
  return result;
}

VapourProfile vapour_profile(const VapourBuildUp& build_up, const MonthClimate& climate, const std::vector<bool>& wet) {
  std::vector<double> resistances;
  VapourProfile profile;
  profile.sd_m.push_back(0.0);
  for (const VapourLayer& layer : build_up.layers) {
    resistances.push_back(layer.resistance_m2k_per_w);
    profile.sd_m.push_back(profile.sd_m.back() + layer.sd_m);
  }
  const auto air_to_air = interface_temperatures_c(resistances, build_up.r_si_m2k_per_w, build_up.r_se_m2k_per_w,
                                                   climate.internal_temperature_c, climate.external_temperature_c);
  profile.temperature_c.assign(air_to_air.begin() + 1, air_to_air.end() - 1);
  for (const double temperature_c : profile.temperature_c) {
    profile.saturation_pa.push_back(saturation_pressure_pa(temperature_c));
  }
  profile.pressure_pa = profile.saturation_pa;
  const std::size_t last = profile.sd_m.size() - 1;
  profile.pressure_pa.front() = std::min(profile.saturation_pa.front(), climate.internal_vapour_pressure_pa);
  profile.pressure_pa.back() = std::min(profile.saturation_pa.back(), climate.external_vapour_pressure_pa);
  std::size_t from = 0;
  for (std::size_t i = 1; i <= last; ++i) {
    if (!wet[i] && i != last) continue;
    draw_taut(profile, from, i);
    from = i;
  }
  return profile;
}

double GlaserMonth::total_kg_per_m2() const {
  return std::accumulate(held_kg_per_m2.begin(), held_kg_per_m2.end(), 0.0);
}

GlaserYear assess_year(const VapourBuildUp& build_up, const YearClimate& climate) {
  const auto rates = dry_rates(build_up, climate);
  const auto fastest = std::max_element(rates.begin(), rates.end());
  GlaserYear year;
  year.condenses = *fastest > 0.0;
  year.critical_month = year.condenses ? static_cast<std::size_t>(fastest - rates.begin()) : coldest_month(climate);
  std::optional<double> least_left;
  for (const std::size_t start : possible_starts(rates)) {
    auto months = run_year(build_up, climate, start);
    const double left = months.back().total_kg_per_m2();
    if (least_left && left >= *least_left) continue;
    least_left = left;
    year.months = std::move(months);
  }
  year.dries_out = least_left.value_or(0.0) <= kNoWater_kg_per_m2;
  find_greatest(year, build_up.layers.size() + 1);
  return year;
}

}  // namespace panel_dossier::thermal
