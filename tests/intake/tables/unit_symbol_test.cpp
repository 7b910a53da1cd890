#include "core/intake/tables/unit_symbol.h"

#include <catch2/catch.hpp>

using panel_dossier::unit_conversion;

TEST_CASE("a unit as people write it is converted to the wanted one") {
  struct Unit {
    const char* written;
    const char* wanted;
    double factor;
  };
  const auto unit = GENERATE(values<Unit>({
      {"m", "m", 1.0},
      {"mm", "m", 1e-3},
      {"cm", "m", 1e-2},
      {"mm²", "m²", 1e-6},
      {"mm2", "m²", 1e-6},
      {"kg/m3", "kg/m³", 1.0},
      {"g/cm³", "kg/m³", 1000.0},
      {"W/(m·K)", "W/(m·K)", 1.0},
      {"W/mK", "W/(m·K)", 1.0},
      {"W/(m K)", "W/(m·K)", 1.0},
      {"W/m²K", "W/(m²·K)", 1.0},
      {"m²K/W", "m²·K/W", 1.0},
      {"kJ/(kg.K)", "J/(kg·K)", 1000.0},
      {"kJ/kgK", "J/(kg·K)", 1000.0},
      {"N/mm²", "Pa", 1e6},
      {"MPa", "Pa", 1e6},
      {"kN", "N", 1000.0},
      {"kN/m", "N/m", 1000.0},
      {"min", "s", 60.0},
      {"h", "s", 3600.0},
      {"t", "kg", 1000.0},
      {"km", "m", 1000.0},
      {"%", "", 0.01},
      {"-", "", 1.0},
      {"", "", 1.0},
      {"1/h", "1/h", 1.0},
      {"m3/(h m2)", "m³/(h·m²)", 1.0},
      {"°C", "°C", 1.0},
      {"years", "years", 1.0},
      {"kg CO2e per declared unit", "kgCO2e per declared unit", 1.0},
  }));
  INFO(unit.written << " -> " << unit.wanted);
  const auto factor = unit_conversion(unit.written, unit.wanted);
  REQUIRE(factor);
  CHECK(*factor == Approx(unit.factor).epsilon(1e-12));
}

TEST_CASE("a unit of another dimension, or one that cannot be read, converts to nothing") {
  struct Unit {
    const char* written;
    const char* wanted;
  };
  const auto unit = GENERATE(values<Unit>({{"kg", "m"},
                                           {"", "m"},
                                           {"-", "m"},
                                           {"m", ""},
                                           {"W/(m²·K)", "W/(m·K)"},
                                           {"mK", "K"},
                                           {"K", "°C"},
                                           {"inch", "m"},
                                           {"W/(m·K", "W/(m·K)"},
                                           {"W//m", "W/m"},
                                           {"((((((m))))))", "m"},
                                           {"per mille", ""},
                                           {"months", "years"}}));
  INFO(unit.written << " -> " << unit.wanted);
  CHECK_FALSE(unit_conversion(unit.written, unit.wanted));
}
