#include "plugins/thermal/moisture/climate.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "core/api/support/words.h"

namespace panel_dossier::thermal {

namespace {

struct MagnusConstants {
  double factor;
  double offset_c;
};

constexpr double kPressureAtZero_pa = 610.5;
constexpr MagnusConstants kOverWater{17.269, 237.3};
constexpr MagnusConstants kOverIce{21.875, 265.5};

const MagnusConstants& constants_at(double pressure_pa) {
  return pressure_pa >= kPressureAtZero_pa ? kOverWater : kOverIce;
}

}  // namespace

double saturation_pressure_pa(double temperature_c) {
  const auto& [factor, offset_c] = temperature_c >= 0.0 ? kOverWater : kOverIce;
  return kPressureAtZero_pa * std::exp(factor * temperature_c / (offset_c + temperature_c));
}

double saturation_temperature_c(double pressure_pa) {
  const auto& [factor, offset_c] = constants_at(pressure_pa);
  const double logarithm = std::log(pressure_pa / kPressureAtZero_pa);
  return offset_c * logarithm / (factor - logarithm);
}

std::string saturation_temperature_formula(double pressure_pa, const std::string& pressure) {
  const auto& [factor, offset_c] = constants_at(pressure_pa);
  const std::string logarithm = "ln(" + pressure + " / " + fixed_text(kPressureAtZero_pa, 1) + ")";
  return fixed_text(offset_c, 1) + " · " + logarithm + " / (" + fixed_text(factor, 3) + " − " + logarithm + ")";
}

namespace {

using SourcedYear = std::array<Sourced<double>, kMonths>;
using Months = std::array<double, kMonths>;

struct Quantity {
  const char* name;
  const char* symbol;
  const char* unit;
  double least;
  double greatest;
};

// The range of the saturation formula with some room for hot climates.
constexpr Quantity kExternalTemperature{"external temperature", "θ_e", "°C", -50.0, 60.0};
constexpr Quantity kInternalTemperature{"internal temperature", "θ_i", "°C", -50.0, 60.0};
constexpr Quantity kExternalHumidity{"external relative humidity", "φ_e", "", 0.01, 1.0};
constexpr Quantity kInternalHumidity{"internal relative humidity", "φ_i", "", 0.01, 1.0};

/// Months that the array of the settings has; it is there when that is not 0.
std::size_t array_length(const Settings& settings, const std::string& key) {
  const std::string prefix = key + ".";
  const auto& all = settings.all();
  const auto first = all.lower_bound(prefix);
  const auto last = std::find_if(first, all.end(), [&](const auto& entry) { return !entry.first.starts_with(prefix); });
  return static_cast<std::size_t>(std::distance(first, last));
}

bool in_range(const Quantity& quantity, double value, const std::string& month, FindingBuilder& builder) {
  if (value >= quantity.least && value <= quantity.greatest) return true;
  builder.missing(std::string(quantity.name) + " of " + month + " is out of range");
  return false;
}

std::optional<Months> record(const Quantity& quantity, const SourcedYear& year, FindingBuilder& builder) {
  Months result{};
  bool usable = true;
  for (std::size_t m = 0; m < kMonths; ++m) {
    const std::string month(kMonthNames[m]);
    const auto value =
        builder.number(std::string(quantity.name) + ", " + month, quantity.symbol, quantity.unit, year[m], {});
    usable = value && in_range(quantity, *value, month, builder) && usable;
    result[m] = value.value_or(0.0);
  }
  return usable ? std::optional(result) : std::nullopt;
}

std::optional<Months> from_array(const Quantity& quantity, const Settings& settings, const std::string& key,
                                 FindingBuilder& builder) {
  const std::size_t length = array_length(settings, key);
  if (length != kMonths) {
    builder.missing("setting '" + key + "' has " + std::to_string(length) + " months, not 12");
    return std::nullopt;
  }
  SourcedYear year;
  for (std::size_t m = 0; m < kMonths; ++m) {
    const auto value = settings.number(key + "." + std::to_string(m));
    if (!value) {
      builder.missing("setting '" + key + "' has no number for " + std::string(kMonthNames[m]));
      return std::nullopt;
    }
    year[m] = *value;
  }
  return record(quantity, year, builder);
}

std::optional<Months> from_single(const Quantity& quantity, const Settings& settings, const std::string& key,
                                  FindingBuilder& builder) {
  const auto value = builder.number(std::string(quantity.name) + ", all months", quantity.symbol, quantity.unit,
                                    settings.number(key), "setting '" + key + "' is missing");
  if (!value || !in_range(quantity, *value, "all months", builder)) return std::nullopt;
  Months result{};
  result.fill(*value);
  return result;
}

struct Outside {
  std::optional<Months> temperature_c;
  std::optional<Months> relative_humidity;
};

using RowsByMonth = std::array<std::vector<std::string>, kMonths>;

/// Keys of the location's rows by month.
RowsByMonth rows_by_month(const DataTable& climates, const std::string& location, std::size_t& count) {
  RowsByMonth rows;
  for (const std::string& key : climates.keys()) {
    const auto place = climates.text(key, "location");
    if (!place || place->value != location) continue;
    ++count;
    const auto month = climates.number(key, "month");
    for (std::size_t m = 0; month && m < kMonths; ++m) {
      if (month->value == static_cast<double>(m + 1)) rows[m].push_back(key);
    }
  }
  return rows;
}

/// Rows of the location by month; none, with the reason noted, unless each month is there once and nothing else.
std::optional<std::array<std::string, kMonths>> rows_of(const DataTable& climates, const std::string& location,
                                                        FindingBuilder& builder) {
  std::size_t count = 0;
  const RowsByMonth found = rows_by_month(climates, location, count);
  if (count == 0) {
    builder.missing("climates.csv has no location '" + location + "' (setting thermal.climate)");
    return std::nullopt;
  }
  std::array<std::string, kMonths> rows;
  std::string faults;
  for (std::size_t m = 0; m < kMonths; ++m) {
    if (found[m].empty()) faults += ", " + std::string(kMonthNames[m]) + " is not there";
    if (found[m].size() > 1) faults += ", " + std::string(kMonthNames[m]) + " is repeated";
    if (!found[m].empty()) rows[m] = found[m].front();
  }
  if (faults.empty() && count == kMonths) return rows;
  builder.missing("climates.csv has " + std::to_string(count) + " rows for '" + location +
                  "'; each of 12 months is needed once" + faults);
  return std::nullopt;
}

std::optional<SourcedYear> column(const DataTable& climates, const std::array<std::string, kMonths>& rows,
                                  const std::string& name, FindingBuilder& builder) {
  SourcedYear year;
  for (std::size_t m = 0; m < kMonths; ++m) {
    const auto value = climates.number(rows[m], name);
    if (!value) {
      builder.missing("climates.csv row '" + rows[m] + "' has no number in " + name);
      return std::nullopt;
    }
    year[m] = *value;
  }
  return year;
}

/// Notes where the place of the climate lies in another jurisdiction than the project.
void check_place(const Settings& settings, const DataTable& climates, const std::string& location,
                 const std::string& row, FindingBuilder& builder) {
  const auto of_place = climates.text(row, "jurisdiction");
  const auto of_project = settings.text("project.jurisdiction");
  if (!of_project || (of_place && of_place->value == of_project->value)) return;
  if (!of_place || of_place->value.empty()) {
    builder.missing("setting 'thermal.climate' is '" + location + "', the climate of no place, and setting " +
                    "'project.jurisdiction' is '" + of_project->value + "': name a place there");
    return;
  }
  builder.missing("setting 'thermal.climate' is '" + location + "', a place in " + of_place->value +
                  ", and setting 'project.jurisdiction' is '" + of_project->value + "': one of them is wrong");
}

Outside from_table(const Settings& settings, const DataTable& climates, FindingBuilder& builder) {
  const auto location = builder.text("climate", settings.text("thermal.climate"),
                                     "setting 'thermal.climate' is missing (or 12 values each in "
                                     "thermal.monthly.external_temperature_c and external_relative_humidity)");
  if (!location) return {};
  const auto rows = rows_of(climates, *location, builder);
  if (!rows) return {};
  check_place(settings, climates, *location, rows->front(), builder);
  const auto temperatures = column(climates, *rows, "external_temperature_c", builder);
  const auto humidities = column(climates, *rows, "external_relative_humidity", builder);
  if (!temperatures || !humidities) return {};
  return {record(kExternalTemperature, *temperatures, builder), record(kExternalHumidity, *humidities, builder)};
}

Outside read_outside(const Settings& settings, const Tables& tables, FindingBuilder& builder) {
  const std::string temperature = "thermal.monthly.external_temperature_c";
  const std::string humidity = "thermal.monthly.external_relative_humidity";
  if (array_length(settings, temperature) + array_length(settings, humidity) == 0) {
    return from_table(settings, tables.climates, builder);
  }
  if (settings.text("thermal.climate")) {
    const std::string& monthly = array_length(settings, temperature) > 0 ? temperature : humidity;
    builder.missing("settings 'thermal.climate' and '" + monthly + "' both give the climate: keep one");
    return {};
  }
  return {from_array(kExternalTemperature, settings, temperature, builder),
          from_array(kExternalHumidity, settings, humidity, builder)};
}

void set_internal_pressure(const HumidityClass& humidity, YearClimate& year) {
  for (MonthClimate& month : year) {
    const double value = humidity.at(month.external_temperature_c);
    month.internal_vapour_pressure_pa = humidity.is_vapour_excess
                                            ? month.external_vapour_pressure_pa + value
                                            : value * saturation_pressure_pa(month.internal_temperature_c);
  }
}

/// Notes where rooms of the building's use are damper than the class.
void check_use(const Settings& settings, const DataTable& classes, const std::string& key, FindingBuilder& builder) {
  const auto uses = classes.text(key, "too_dry_for");
  const auto use = settings.text("project.use");
  if (!uses || !use) return;
  const auto damper = split(uses->value, '|');
  if (std::find(damper.begin(), damper.end(), use->value) == damper.end()) return;
  builder.missing("setting 'thermal.humidity_class' is '" + key +
                  "', of unoccupied and dry rooms, and setting "
                  "'project.use' is '" +
                  use->value + "': one of them is wrong");
}

void read_internal_pressure(const Settings& settings, const Tables& tables, YearClimate& year,
                            FindingBuilder& builder) {
  const std::string monthly = "thermal.monthly.internal_relative_humidity";
  const auto name = settings.text("thermal.humidity_class");
  if (array_length(settings, monthly) > 0 && name) {
    builder.missing("settings 'thermal.humidity_class' and '" + monthly +
                    "' both say how humid the rooms are: keep one");
    return;
  }
  if (name) {
    builder.text("humidity class of the rooms", name, "setting 'thermal.humidity_class' is empty");
    check_use(settings, tables.humidity_classes, name->value, builder);
    if (const auto humidity = read_humidity_class(tables.humidity_classes, name->value, builder)) {
      set_internal_pressure(*humidity, year);
    }
    return;
  }
  const auto humidity = array_length(settings, monthly) > 0
                            ? from_array(kInternalHumidity, settings, monthly, builder)
                            : from_single(kInternalHumidity, settings, "thermal.internal_relative_humidity", builder);
  for (std::size_t m = 0; humidity && m < kMonths; ++m) {
    year[m].internal_vapour_pressure_pa = (*humidity)[m] * saturation_pressure_pa(year[m].internal_temperature_c);
  }
}

void check_internal_humidity(const YearClimate& year, FindingBuilder& builder) {
  for (std::size_t m = 0; m < kMonths; ++m) {
    if (year[m].internal_vapour_pressure_pa <= saturation_pressure_pa(year[m].internal_temperature_c)) continue;
    builder.missing("the internal air of " + std::string(kMonthNames[m]) +
                    " is over-saturated: the humidity class does not fit the internal temperature");
  }
}

}  // namespace

double HumidityClass::at(double external_c) const {
  const double share = std::clamp((external_c - cold_c) / (warm_c - cold_c), 0.0, 1.0);
  return value_when_cold + share * (value_when_warm - value_when_cold);
}

std::optional<HumidityClass> read_humidity_class(const DataTable& classes, const std::string& key,
                                                 FindingBuilder& builder) {
  const std::string where = "humidity_classes.csv row '" + key + "'";
  const auto quantity = classes.text(key, "quantity");
  if (!quantity) {
    builder.missing("humidity_classes.csv has no class '" + key + "' (setting thermal.humidity_class)");
    return std::nullopt;
  }
  HumidityClass result;
  result.is_vapour_excess = quantity->value == "vapour pressure excess";
  const std::string symbol = result.is_vapour_excess ? "Δp" : "φ_i";
  const std::string unit = result.is_vapour_excess ? "Pa" : "";
  const auto read = [&](const char* column, const std::string& column_symbol, const std::string& column_unit) {
    return builder.number("humidity class, " + std::string(column), column_symbol, column_unit,
                          classes.number(key, column), where + " has no number in " + column);
  };
  const auto cold = read("cold_c", "θ_e", "°C");
  const auto warm = read("warm_c", "θ_e", "°C");
  const auto when_cold = read("value_when_cold", symbol, unit);
  const auto when_warm = read("value_when_warm", symbol, unit);
  if (!cold || !warm || !when_cold || !when_warm) return std::nullopt;
  if (*cold >= *warm) {
    builder.missing(where + ": cold_c is not below warm_c");
    return std::nullopt;
  }
  result.cold_c = *cold;
  result.warm_c = *warm;
  result.value_when_cold = *when_cold;
  result.value_when_warm = *when_warm;
  return result;
}

std::vector<CheckInput> climate_inputs() {
  return {optional_setting("project.jurisdiction"),
          optional_setting("project.use"),
          optional_setting("thermal.climate"),
          optional_setting("thermal.monthly.external_temperature_c.*"),
          optional_setting("thermal.monthly.external_relative_humidity.*"),
          optional_setting("thermal.internal_temperature_c"),
          optional_setting("thermal.monthly.internal_temperature_c.*"),
          optional_setting("thermal.humidity_class"),
          optional_setting("thermal.internal_relative_humidity"),
          optional_setting("thermal.monthly.internal_relative_humidity.*"),
          data_table("climates.csv"),
          data_table("humidity_classes.csv")};
}

std::optional<YearClimate> read_climate(const Settings& settings, const Tables& tables, FindingBuilder& builder) {
  const Outside outside = read_outside(settings, tables, builder);
  const std::string monthly = "thermal.monthly.internal_temperature_c";
  const auto internal = array_length(settings, monthly) > 0
                            ? from_array(kInternalTemperature, settings, monthly, builder)
                            : from_single(kInternalTemperature, settings, "thermal.internal_temperature_c", builder);
  if (!outside.temperature_c || !outside.relative_humidity || !internal) return std::nullopt;
  YearClimate year;
  for (std::size_t m = 0; m < kMonths; ++m) {
    const double external_c = (*outside.temperature_c)[m];
    year[m].external_temperature_c = external_c;
    year[m].external_vapour_pressure_pa = (*outside.relative_humidity)[m] * saturation_pressure_pa(external_c);
    year[m].internal_temperature_c = (*internal)[m];
  }
  read_internal_pressure(settings, tables, year, builder);
  if (builder.incomplete()) return std::nullopt;
  check_internal_humidity(year, builder);
  return builder.incomplete() ? std::nullopt : std::optional(year);
}

}  // namespace panel_dossier::thermal
