// EN 1991-1-4:2005+A1:2010 tables 4.1, 7.1, figure 7.2 and 7.5: coefficients of vertical walls (from memory). Table
// values are exact.
#include <catch2/catch.hpp>
#include <filesystem>

#include "core/api/support/data_table.h"
#include "plugins/structural/wind/loads.h"
#include "plugins/structural/wind/site.h"

using namespace panel_dossier;
using namespace panel_dossier::structural;

namespace {

const DataTable& coefficients() {
  static const DataTable table(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) /
                               "plugins/structural/data/wall_pressure_coefficients.csv");
  return table;
}

}  // namespace

TEST_CASE("External coefficients are those of EN 1991-1-4 table 7.1") {
  struct Row {
    double slenderness;
    WindZone zone;
    double large_area;
    double small_area;
  };
  for (const Row& row :
       {Row{5.0, WindZone::a, -1.2, -1.4}, Row{5.0, WindZone::b, -0.8, -1.1}, Row{5.0, WindZone::c, -0.5, -0.5},
        Row{5.0, WindZone::d, 0.8, 1.0}, Row{5.0, WindZone::e, -0.7, -0.7}, Row{1.0, WindZone::a, -1.2, -1.4},
        Row{1.0, WindZone::b, -0.8, -1.1}, Row{1.0, WindZone::d, 0.8, 1.0}, Row{1.0, WindZone::e, -0.5, -0.5},
        Row{0.25, WindZone::a, -1.2, -1.4}, Row{0.25, WindZone::b, -0.8, -1.1}, Row{0.25, WindZone::c, -0.5, -0.5},
        Row{0.25, WindZone::d, 0.7, 1.0}, Row{0.25, WindZone::e, -0.3, -0.3}}) {
    INFO("zone " << to_string(row.zone) << ", h/d " << row.slenderness);
    CHECK(external_pressure_coefficient(coefficients(), row.zone, 10.0, row.slenderness) == Approx(row.large_area));
    CHECK(external_pressure_coefficient(coefficients(), row.zone, 1.0, row.slenderness) == Approx(row.small_area));
  }
}

TEST_CASE("Between 1 and 10 m² coefficients follow the expression of EN 1991-1-4 figure 7.2") {
  // cpe = cpe,1 - (cpe,1 - cpe,10)·log10 A; at 5 m², log10 5 = 0.69897: zone B -1.1 + 0.3·0.69897 = -0.89031.
  CHECK(external_pressure_coefficient(coefficients(), WindZone::b, 5.0, 1.0) == Approx(-0.89031).epsilon(1e-5));
}

TEST_CASE("Zones A and B end at e/5 and e of EN 1991-1-4 figure 7.5") {
  // The lesser of b and 2·h; by hand for a hall b = 30 m, d = 60 m, h = 9 m: e = 18 m, e/5 = 3.6 m.
  CHECK(zone_length_m(30.0, 9.0) == Approx(18.0));
  CHECK(zone_length_m(15.0, 9.0) == Approx(15.0));
  const auto zones = side_wall_zones(18.0, 60.0);
  CHECK(zones.at(0).stretch.to_m == Approx(3.6));
  CHECK(zones.at(1).stretch.length_m() == Approx(0.8 * 18.0));
  CHECK(zones.at(2).stretch.length_m() == Approx(60.0 - 18.0));
}

TEST_CASE("Terrain factors are those usually tabulated for EN 1991-1-4 table 4.1") {
  // kr by (4.5) of z0 in table 4.1, as handbooks print it to two or three digits: half of the last digit is the
  // tolerance.
  struct Row {
    double roughness_length_m;
    double terrain_factor;
    double margin;
  };
  for (const Row& row : {Row{0.003, 0.156, 0.0005}, Row{0.01, 0.170, 0.0005}, Row{0.05, 0.190, 1e-12},
                         Row{0.3, 0.215, 0.0005}, Row{1.0, 0.234, 0.0005}}) {
    INFO("z0 = " << row.roughness_length_m << " m");
    CHECK(peak_velocity_pressure(26.0, row.roughness_length_m, 1.0, 20.0).terrain_factor ==
          Approx(row.terrain_factor).margin(row.margin));
  }
}
