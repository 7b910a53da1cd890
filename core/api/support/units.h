// Conversions at the edges of the program. Inside, everything is SI and names say the unit.
#pragma once

#include <numbers>

namespace panel_dossier::units {

inline constexpr double kMillimetrePerMetre = 1000.0;
inline constexpr double kNanometrePerMetre = 1.0e9;
inline constexpr double kMetrePerKilometre = 1000.0;
inline constexpr double kKilogramPerTonne = 1000.0;
inline constexpr double kPascalPerNewtonPerMm2 = 1.0e6;
inline constexpr double kNewtonPerKilonewton = 1000.0;
inline constexpr double kJoulePerKilojoule = 1000.0;
inline constexpr double kSecondPerHour = 3600.0;
inline constexpr double kSecondPerDay = 86400.0;
inline constexpr double kSecondPerYear = 365.25 * kSecondPerDay;  ///< Julian year
inline constexpr double kPercentPerWhole = 100.0;                 ///< a ratio of 1 is 100 %
inline constexpr double kStandardGravity_m_per_s2 = 9.80665;      ///< ISO 80000-3:2019
inline constexpr double kZeroCelsius_K = 273.15;                  ///< ISO 80000-5:2019

constexpr double metres_from_millimetres(double value_mm) {
  return value_mm / kMillimetrePerMetre;
}
constexpr double millimetres_from_metres(double value_m) {
  return value_m * kMillimetrePerMetre;
}
constexpr double degrees_from_radians(double value_rad) {
  return value_rad * 180.0 / std::numbers::pi;
}
constexpr double radians_from_degrees(double value_deg) {
  return value_deg * std::numbers::pi / 180.0;
}
constexpr double celsius_from_kelvin(double value_k) {
  return value_k - kZeroCelsius_K;
}

}  // namespace panel_dossier::units
