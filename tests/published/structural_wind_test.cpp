// EN 1991-1-4:2005+A1:2010 figure 4.2: exposure factor ce(z) with co = 1 and kl = 1 (values read from the figure, from
// memory). The curves can be read to about 0.05, which is the tolerance.
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "core/api/support/data_table.h"
#include "plugins/structural/wind/site.h"

using namespace panel_dossier;
using structural::peak_velocity_pressure;

TEST_CASE("Exposure factors agree with EN 1991-1-4 figure 4.2") {
  struct Point {
    const char* category;
    double height_m;
    double exposure_factor;
  };
  const DataTable terrain(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) /
                          "plugins/structural/data/terrain_categories.csv");
  for (const Point& point :
       {Point{"0", 10.0, 3.0}, Point{"II", 10.0, 2.35}, Point{"III", 10.0, 1.7}, Point{"IV", 10.0, 1.2}}) {
    const auto wind = peak_velocity_pressure(26.0, terrain.number(point.category, "roughness_length_m")->value,
                                             terrain.number(point.category, "minimum_height_m")->value, point.height_m);
    INFO("category " << point.category);
    CHECK(wind.exposure_factor == Approx(point.exposure_factor).margin(0.05));
  }
}

TEST_CASE("Below the minimum height the pressure stays that of the minimum height") {
  // EN 1991-1-4:2005 (4.4), (4.7): z < zmin takes zmin; exact.
  CHECK(peak_velocity_pressure(26.0, 1.0, 10.0, 3.0).peak_pressure_pa ==
        peak_velocity_pressure(26.0, 1.0, 10.0, 10.0).peak_pressure_pa);
}

TEST_CASE("Basic velocity pressure at 26 m/s is 0.42 kN/m²") {
  // Handbook value of qb for vb = 26 m/s with ρ = 1.25 kg/m³: 0.4225 kN/m², exact by (4.10).
  CHECK(peak_velocity_pressure(26.0, 0.05, 2.0, 10.0).basic_pressure_pa == Approx(422.5));
}
