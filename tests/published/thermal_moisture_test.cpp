// Moisture against published tables and solutions by hand.
#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>

#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/moisture/glaser.h"
#include "plugins/thermal/moisture/surface.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal;

namespace {

MonthClimate month_of(double external_c, double external_humidity, double internal_c, double internal_humidity) {
  return {external_c, external_humidity * saturation_pressure_pa(external_c), internal_c,
          internal_humidity * saturation_pressure_pa(internal_c)};
}

/// Insulation inside, a tighter layer outside: the plane between them is the only one.
VapourBuildUp two_layers() {
  return {{{"insulation", 2.0, 1.0}, {"board", 0.1, 2.0}}, 0.13, 0.04};
}

}  // namespace

// Saturation pressure of water vapour, from memory: WMO, Guide to Instruments and Methods of Observation, formulae for
// humidity. Over water the Magnus constants of the standard stray by up to 0.2 %, rounding of the table included.
TEST_CASE("the saturation pressures over water are those of meteorological tables") {
  const std::pair<double, double> table[] = {{0.0, 611.2},   {5.0, 872.0},   {10.0, 1228.0}, {15.0, 1705.0},
                                             {20.0, 2338.0}, {25.0, 3168.0}, {30.0, 4245.0}};
  for (const auto& [temperature_c, pressure_pa] : table) {
    INFO(temperature_c);
    CHECK(saturation_pressure_pa(temperature_c) == Approx(pressure_pa).epsilon(0.002));
  }
}

// As above, over ice. The constants of the standard are coarser here: 0.1 % low at 0 °C and 0.5 % low at −20 °C. One
// per cent still tells them from the constants over water, which are 10 % and 20 % higher at −10 and −20 °C.
TEST_CASE("the saturation pressures over ice are those of meteorological tables") {
  const std::pair<double, double> table[] = {{-5.0, 401.8}, {-10.0, 259.9}, {-15.0, 165.3}, {-20.0, 103.3}};
  for (const auto& [temperature_c, pressure_pa] : table) {
    INFO(temperature_c);
    CHECK(saturation_pressure_pa(temperature_c) == Approx(pressure_pa).epsilon(0.01));
  }
}

// DIN 4108-3, table of dew point temperatures, from memory; printed to 0.1 K, so half of that and the 0.2 % of the
// pressure (0.03 K) may separate us.
TEST_CASE("dew points are those of the table") {
  const auto dew_point = [](double temperature_c, double humidity) {
    return saturation_temperature_c(humidity * saturation_pressure_pa(temperature_c));
  };
  CHECK(dew_point(20.0, 0.50) == Approx(9.3).margin(0.08));
  CHECK(dew_point(20.0, 0.60) == Approx(12.0).margin(0.08));
  CHECK(dew_point(20.0, 0.80) == Approx(16.4).margin(0.08));
  CHECK(dew_point(24.0, 0.50) == Approx(12.9).margin(0.08));
}

// DIN 4108-2, 6.2, from memory: 20 °C and 50 % inside, −5 °C outside, 80 % at the surface ask for θ_si ≥ 12.6 °C, which
// is f_Rsi ≥ 0.70. Printed to 0.1 K and 0.01.
TEST_CASE("the least temperature factor against mould is 0.70 in the standard room at minus five degrees") {
  const MonthClimate month = month_of(-5.0, 0.8, 20.0, 0.5);
  CHECK(least_surface_temperature_c(month.internal_vapour_pressure_pa, 0.8) == Approx(12.6).margin(0.08));
  CHECK(least_temperature_factor(month, 0.8).value() == Approx(0.70).margin(0.005));
}

// By hand. R = 0.13 + 2.0 + 0.1 + 0.04 = 2.27; the plane lies at −10 + 30 · 0.14 / 2.27 = −8.1498 °C, where the
// pressure of saturation over ice is 610.5 · exp(21.875 · −8.1498 / 257.3502) = 305.374 Pa. Inside 0.5 · 2336.95 =
// 1168.47 Pa, outside 0.8 · 259.33 = 207.47 Pa. In: 2e-10 · 863.10 / 1.0; out: 2e-10 · 97.91 / 2.0. The difference over
// 31 days of 86400 s is 0.43612 kg/m². Pressures were rounded to 0.01 Pa, so the result is good to 1e-4.
TEST_CASE("condensate of a month is that of the two-layer calculation by hand") {
  YearClimate climate;
  climate.fill(month_of(20.0, 0.5, 20.0, 0.5));
  climate[0] = month_of(-10.0, 0.8, 20.0, 0.5);
  const GlaserYear year = assess_year(two_layers(), climate);
  REQUIRE(year.months.front().month == 0);
  CHECK(year.months.front().held_kg_per_m2[1] == Approx(0.43612).epsilon(1e-4));
  CHECK(year.condenses);
  CHECK(year.critical_month == 0);
}

// By hand, two planes at once. R = 0.13 + 3 · 1.0 + 0.04 = 3.17; the planes lie at −10 + 30 · 2.04 / 3.17 = 9.30599 °C
// (1171.390 Pa) and −10 + 30 · 1.04 / 3.17 = −0.15773 °C (602.613 Pa); inside 0.6 · 2336.95 = 1402.171 Pa, outside
// 207.467 Pa. The slopes 230.781 / 0.5, 568.777 / 2.0 and 395.146 / 3.0 fall outwards, so both planes are wet, and
// 2e-10 · 2678400 s of their differences are 0.094908 and 0.081784 kg/m². Pressures by hand are good to 0.001 Pa.
TEST_CASE("two planes that are wet at once have the condensate of the three-layer calculation by hand") {
  YearClimate climate;
  climate.fill(month_of(20.0, 0.5, 20.0, 0.5));
  climate[0] = month_of(-10.0, 0.8, 20.0, 0.6);
  const VapourBuildUp build_up{{{"lining", 1.0, 0.5}, {"core", 1.0, 2.0}, {"facing", 1.0, 3.0}}, 0.13, 0.04};
  const GlaserYear year = assess_year(build_up, climate);
  REQUIRE(year.months.front().month == 0);
  CHECK(year.months.front().held_kg_per_m2[1] == Approx(0.094908).epsilon(1e-4));
  CHECK(year.months.front().held_kg_per_m2[2] == Approx(0.081784).epsilon(1e-4));
  CHECK(year.dries_out);
}

// By hand, as above: at 20 °C everywhere the plane stays at 2336.95 Pa while wet, the air on both sides has 1168.47 Pa,
// and 2e-10 · 1168.47 · (1/1.0 + 1/2.0) · 86400 s = 0.030287 kg/m² leave each day: 0.84803 in February.
TEST_CASE("a wet plane dries to both sides at the rate worked out by hand") {
  YearClimate climate;
  climate.fill(month_of(20.0, 0.5, 20.0, 0.5));
  climate[0] = month_of(-30.0, 0.8, 20.0, 0.9);
  const GlaserYear year = assess_year(two_layers(), climate);
  const double january = year.months[0].held_kg_per_m2[1];
  REQUIRE(january > 0.848);
  CHECK(january - year.months[1].held_kg_per_m2[1] == Approx(0.84803).epsilon(1e-4));
  CHECK(year.dries_out);
}

// Conservation of mass: what came from inside less what went outside is what is held. Round-off of at most 1e-6 kg/m²
// is dropped whenever a plane dries.
TEST_CASE("vapour in less vapour out is the condensate held, month by month") {
  const VapourBuildUp build_up =
      subdivided({{{"lining", 0.06, 0.1}, {"insulation", 6.0, 0.2}, {"sheathing", 0.1, 2.0}}, 0.13, 0.04});
  YearClimate climate;
  for (std::size_t m = 0; m < kMonths; ++m) {
    climate[m] = month_of(m < 4 || m > 9 ? -4.0 : 14.0 + static_cast<double>(m), 0.75, 20.0, 0.6);
  }
  const GlaserYear year = assess_year(build_up, climate);
  REQUIRE(year.condenses);
  double balance = 0.0;
  for (const GlaserMonth& month : year.months) {
    balance += month.vapour_from_inside_kg_per_m2 - month.vapour_to_outside_kg_per_m2;
    CHECK(month.total_kg_per_m2() == Approx(balance).margin(2e-5));
  }
}

// Glaser's construction (H. Glaser, 1959): the line touches saturation where it condenses and lies below it elsewhere,
// and its slope only ever eases outwards.
TEST_CASE("the vapour pressure line is convex and nowhere above saturation") {
  const VapourBuildUp build_up =
      subdivided({{{"lining", 0.06, 0.1}, {"insulation", 6.0, 4.0}, {"render", 0.1, 3.0}}, 0.13, 0.04});
  const VapourProfile profile =
      vapour_profile(build_up, month_of(-15.0, 0.8, 22.0, 0.65), std::vector<bool>(build_up.layers.size() + 1, false));
  const std::size_t last = profile.sd_m.size() - 1;
  int touched = 0;
  for (std::size_t i = 0; i <= last; ++i) CHECK(profile.pressure_pa[i] <= profile.saturation_pa[i] * (1.0 + 1e-12));
  for (std::size_t i = 1; i < last; ++i) {
    const double before =
        (profile.pressure_pa[i] - profile.pressure_pa[i - 1]) / (profile.sd_m[i] - profile.sd_m[i - 1]);
    const double after =
        (profile.pressure_pa[i + 1] - profile.pressure_pa[i]) / (profile.sd_m[i + 1] - profile.sd_m[i]);
    CHECK(after >= before - 1e-6);
    if (after > before + 1e-3) ++touched;
  }
  CHECK(touched > 1);
}
