#include "plugins/thermal/moisture/humidity_class.h"

#include <algorithm>

namespace panel_dossier::thermal {

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

}  // namespace panel_dossier::thermal
