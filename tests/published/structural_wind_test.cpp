// The wind at the site and the coefficients of vertical walls: EN 1991-1-4:2005+A1:2010 and its figures and tables.
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "core/api/support/data_table.h"
#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/findings.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/wind/loads.h"
#include "plugins/structural/wind/site.h"
#include "tests/structural/structural_tables.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::structural;

// EN 1991-1-4:2005+A1:2010 figure 4.2: exposure factor ce(z) with co = 1 and kl = 1 (values read from the figure, from
// memory). The curves can be read to about 0.05, which is the tolerance.

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

// EN 1991-1-4:2005+A1:2010 4.2 to 4.5 and annex A.3: factors of the basic and mean wind velocity (from memory).

TEST_CASE("The probability factor of other mean return periods is that of handbooks") {
  // (4.2) with K = 0.2 and n = 0.5, as handbooks print it for ten and a hundred years; the tolerance is half of the
  // last printed digit.
  CHECK(probability_factor(0.1) == Approx(0.90).margin(0.005));
  CHECK(probability_factor(0.01) == Approx(1.04).margin(0.005));
}

// EN 1991-1-4:2005+A1:2010 tables 4.1, 7.1, figure 7.2 and 7.5: coefficients of vertical walls (from memory). Table
// values are exact.

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

TEST_CASE("The peak velocity pressure of a panel is as a published calculation sheet prints it") {
  // A calculation sheet published on a document-sharing site (no. 714265932), as read there: v_b,0 22.0 m/s, terrain
  // III, z 13.48 m, c_o 1; q_b 0.303 kN/m², k_r 0.215, c_r 0.82, v_m 18.0 m/s, I_v 0.263, q_p 0.58 kN/m². The tolerance
  // is half of the last digit printed.
  const Project project = testing::cassette_project();
  Settings settings = testing::cassette_settings();
  settings.set("structural.wind.basic_velocity_m_per_s", 22.0);
  settings.set("building.height_m", 13.48);
  const auto findings = check_panel(project.panels.front(), project, settings, testing::structural_tables()).findings;
  const Finding& finding = testing::finding_of(findings, "structural.wind_pressure");
  CHECK(testing::step_of(finding, "k_r") == Approx(0.215).margin(0.0005));
  CHECK(testing::step_of(finding, "c_r") == Approx(0.82).margin(0.005));
  CHECK(testing::step_of(finding, "v_m") == Approx(18.0).margin(0.05));
  CHECK(testing::step_of(finding, "I_v") == Approx(0.263).margin(0.0005));
  CHECK(testing::step_of(finding, "q_p") == Approx(580.0).margin(5.0));
  CHECK(peak_velocity_pressure(22.0, 0.3, 5.0, 13.48).basic_pressure_pa == Approx(303.0).margin(0.5));
}
