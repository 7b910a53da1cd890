// The air outside and inside, month by month.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

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
/// is recorded as an input; what is missing, of the wrong number or out of range is noted in `builder`.
std::optional<YearClimate> read_climate(const Settings& settings, const Tables& tables, FindingBuilder& builder);

}  // namespace panel_dossier::thermal
