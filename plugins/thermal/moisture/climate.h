// The air outside and inside, month by month; saturation of air with water vapour, and the classes of the humidity of
// rooms.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "core/api/support/data_table.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// δ_0: water vapour permeability of air in kg/(m·s·Pa) (EN ISO 13788:2012, 6.2, from memory).
inline constexpr double kVapourPermeabilityOfAir_kg_per_mspa = 2.0e-10;

/// p_sat in Pa at θ in °C, over water from 0 °C, over ice below (EN ISO 13788:2012, annex E, from memory). Meant for
/// −50 to 60 °C.
double saturation_pressure_pa(double temperature_c);

/// The temperature in °C at which `pressure_pa`, above 0, saturates: the inverse of `saturation_pressure_pa`.
double saturation_temperature_c(double pressure_pa);

/// The formula of `saturation_temperature_c` on the branch, water or ice, of `pressure_pa`, with `pressure` for the
/// pressure in Pa: `237.3 · ln(p / 610.5) / (17.269 − ln(p / 610.5))`, in °C.
std::string saturation_temperature_formula(double pressure_pa, const std::string& pressure);

/// The value of a humidity class at the external temperature: linear between two temperatures, constant beyond them (EN
/// ISO 13788:2012, annex A).
struct HumidityClass {
  bool is_vapour_excess = false;  ///< value in Pa over the external air; else relative humidity as a share of 1
  double cold_c = 0.0;            ///< below `warm_c`
  double warm_c = 0.0;
  double value_when_cold = 0.0;
  double value_when_warm = 0.0;

  double at(double external_c) const;
};

/// The row `key` of humidity_classes.csv, each cell recorded as an input; none, with the reason noted in `builder`,
/// when it is absent or unusable.
std::optional<HumidityClass> read_humidity_class(const DataTable& classes, const std::string& key,
                                                 FindingBuilder& builder);

inline constexpr std::size_t kMonths = 12;
inline constexpr std::array<std::string_view, kMonths> kMonthNames{"January",   "February", "March",    "April",
                                                                   "May",       "June",     "July",     "August",
                                                                   "September", "October",  "November", "December"};

/// Means of one month.
struct MonthClimate {
  double external_temperature_c = 0.0;
  double external_vapour_pressure_pa = 0.0;
  double internal_temperature_c = 0.0;
  double internal_vapour_pressure_pa = 0.0;
};

/// From January.
using YearClimate = std::array<MonthClimate, kMonths>;

/// Outside: the settings `thermal.monthly.external_temperature_c` and `thermal.monthly.external_relative_humidity`, 12
/// values each from January, or else the rows of climates.csv of the location `thermal.climate`.
/// Inside: the temperature is `thermal.monthly.internal_temperature_c` or `thermal.internal_temperature_c`; the
/// humidity is `thermal.monthly.internal_relative_humidity`, or the row of humidity_classes.csv that
/// `thermal.humidity_class` names, or `thermal.internal_relative_humidity`. Relative humidities are shares of 1. Each
/// is recorded as an input; what is missing, of the wrong number or out of range is noted in `builder`, and so are a
/// location in another jurisdiction than `project.jurisdiction` and a class too dry for `project.use`.
std::optional<YearClimate> read_climate(const Settings& settings, const Tables& tables, FindingBuilder& builder);

/// What `read_climate` reads.
std::vector<CheckInput> climate_inputs();

}  // namespace panel_dossier::thermal
