#include "plugins/thermal/moisture/interstitial.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/thermal/moisture/charts.h"
#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "tests/thermal/moisture/moisture_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::thermal;

TEST_CASE("dew point and saturation pressure are inverses on both sides of zero") {
  for (const double temperature_c : {-40.0, -10.0, -0.001, 0.0, 0.001, 12.6, 50.0}) {
    CHECK(saturation_temperature_c(saturation_pressure_pa(temperature_c)) == Approx(temperature_c).margin(1e-9));
  }
}

TEST_CASE("a cassette without vapour control condenses behind its sheathing and dries in summer") {
  const MoistureModel model;
  const Finding finding = model.interstitial();
  INFO(finding.reason);
  CHECK(number_of(finding) > 0.0);
  CHECK(step_text(finding, "main section") == "condenses and dries within the year");
  CHECK(step_of(finding, "M_a,12") == 0.0);
  CHECK(std::any_of(finding.steps.begin(), finding.steps.end(), [](const Step& step) {
    return step.symbol.rfind("M_a,", 0) == 0 && step.name.find("most condensate between") == 0 &&
           std::get<double>(step.value) > 0.0;
  }));
  CHECK(finding.verdict != Verdict::not_assessed);
}

TEST_CASE("a vapour control layer keeps the cassette dry and its puncture is said") {
  MoistureModel model;
  model.add_vapour_control(500000.0);
  const Finding finding = model.interstitial();
  CHECK(finding.verdict == Verdict::pass);
  CHECK(number_of(finding) == 0.0);
  CHECK(step_text(finding, "main section") == "nothing condenses");
  CHECK(step_of(finding, "s_d,vcl") == Approx(100.0));
  CHECK(step_text(finding, "if the vapour control layer is punctured") != "nothing condenses");
  CHECK(step_of(finding, "M_a,max,p") > 0.0);
}

TEST_CASE("a tight outer face under a moist room never dries and fails") {
  MoistureModel model;
  put(model.project.materials[model.board].properties, "Pset_MaterialHygroscopic", "LowerVaporResistanceFactor",
      100000.0);
  set_months(model.settings, "thermal.monthly.external_temperature_c", 0.0, 12);
  set_months(model.settings, "thermal.monthly.external_relative_humidity", 0.9, 12);
  const Finding finding = model.interstitial();
  CHECK(finding.verdict == Verdict::fail);
  CHECK(finding.reason.find("condensate is left after twelve months, so it gathers from year to year") !=
        std::string::npos);
}

TEST_CASE("without a limit condensate that dries is not assessed") {
  MoistureModel model;
  model.settings = HeatedPanel().settings;
  CHECK(model.interstitial().verdict == Verdict::not_assessed);
}

TEST_CASE("a puncture that a vapour control layer would not feel is a contradiction") {
  MoistureModel model;
  model.add_vapour_control(200000.0);
  for (const double sd_m : {40.0, 41.0}) {
    model.settings.set("thermal.punctured_vapour_control_sd_m", sd_m);
    const Finding finding = model.interstitial();
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find("m, not below the 40.00 m that the vapour control layer has when whole") !=
          std::string::npos);
  }
  model.settings.set("thermal.punctured_vapour_control_sd_m", 39.9);
  CHECK(model.interstitial().verdict != Verdict::not_assessed);
}

TEST_CASE("a limit that no table holds is named") {
  MoistureModel model;
  model.settings.set("thermal.condensate_limit", std::string("sponge"));
  CHECK(model.interstitial().reason == "condensate_limits.csv has no row 'sponge' (setting thermal.condensate_limit)");
}

TEST_CASE("a dry cassette shows by month how near its planes come to condensation") {
  MoistureModel model;
  model.add_vapour_control(500000.0);
  const Finding finding = model.interstitial();
  CHECK(finding.bar_charts.empty());
  REQUIRE(finding.series.size() == 3);
  CHECK(finding.series[1].y_unit == "Pa");
  CHECK(finding.series[2].y_unit == "°C");
  CHECK(finding.series[2].curves.front().points.back().x == Approx(0.1647));
  const auto& highest = finding.series.front().curves.front().points;
  REQUIRE(highest.size() == 12);
  const auto worst =
      std::max_element(highest.begin(), highest.end(), [](const Vec2& a, const Vec2& b) { return a.y < b.y; });
  CHECK(worst->y > 0.0);
  CHECK(worst->y < 100.0);
  CHECK(step_of(finding, "φ") == worst->y);
}

TEST_CASE("between two like layers at one temperature the humidity is the mean of both sides") {
  // No temperature differs, so p_sat is one and p falls evenly over s_d: φ = (φ_i + φ_e) / 2, in closed form.
  const VapourBuildUp build_up{{{"a", 1.0, 2.0, 0.1}, {"b", 1.0, 2.0, 0.1}}, 0.13, 0.04};
  YearClimate climate;
  const double saturation_pa = saturation_pressure_pa(15.0);
  for (std::size_t month = 0; month < kMonths; ++month) {
    climate[month].internal_temperature_c = climate[month].external_temperature_c = 15.0;
    climate[month].internal_vapour_pressure_pa = (month == 4 ? 0.9 : 0.6) * saturation_pa;
    climate[month].external_vapour_pressure_pa = 0.5 * saturation_pa;
  }
  const HumidityYear humidity = humidity_year(build_up, climate);
  CHECK(humidity.worst_month == 4);
  CHECK(humidity.worst_plane == 1);
  CHECK(humidity.highest[4] == Approx(0.70));
  CHECK(humidity.highest[0] == Approx(0.55));
}

TEST_CASE("charts show condensate by plane, pressures and temperature") {
  const Finding finding = MoistureModel().interstitial();
  REQUIRE(finding.series.size() == 3);
  CHECK(finding.series[0].curves.front().points.size() == 13);
  REQUIRE(finding.bar_charts.size() == 1);
  CHECK(finding.bar_charts.front().bars.size() == 12);
  CHECK(finding.series[1].curves.size() == 2);
  for (const Series& series : finding.series) {
    for (const Curve& curve : series.curves) {
      for (const Vec2& point : curve.points) CHECK(std::isfinite(point.x + point.y));
    }
  }
}

TEST_CASE("what condenses and dries in each month adds up to the condensate held") {
  const Finding finding = MoistureModel().interstitial();
  const Table& table = finding.tables.at(1);
  REQUIRE(table.rows.size() == 12);
  CHECK(table.columns.size() <= 8);
  double held = 0.0;
  int condensing = 0;
  int drying = 0;
  for (std::size_t m = 0; m < 12; ++m) {
    const double change = std::get<double>(table.rows[m].at(3));
    held += change;
    condensing += change > 0.0 ? 1 : 0;
    drying += change < 0.0 ? 1 : 0;
    CHECK(std::get<double>(table.rows[m].back()) == Approx(held).margin(1e-12));
    double bar = 0.0;
    for (const BarPiece& piece : finding.bar_charts.front().bars[m].pieces) bar += piece.to - piece.from;
    CHECK(bar == Approx(change).margin(1e-12));
  }
  CHECK(std::get<double>(table.rows.front().at(3)) > 0.0);
  CHECK(condensing > 0);
  CHECK(drying > 0);
}

TEST_CASE("the vapour control layer is placed, and what its puncture changes is said in words") {
  MoistureModel model;
  model.add_vapour_control(500000.0);
  const Finding finding = model.interstitial();
  CHECK(step_text(finding, "layer tightest against vapour") ==
        "'vapour control' (s_d 100.00 m), inside of the main insulation");
  CHECK(step_of(finding, "p_R") < 20.0);
  CHECK(has_note(finding, "If the vapour control layer is punctured, so that its s_d falls from 100.00 m to 0.50 m"));
  model.settings.set("thermal.punctured_vapour_control_sd_m", 99.0);
  CHECK(has_note(model.interstitial(), "to 99.00 m, nothing condenses."));
}

TEST_CASE("a tight layer on the cold side and an open inside are notes") {
  MoistureModel model;
  put(model.project.materials[model.board].properties, "Pset_MaterialHygroscopic", "LowerVaporResistanceFactor",
      5000.0);
  const Finding finding = model.interstitial();
  CHECK(has_note(finding, "'sheathing' (s_d 60.00 m), stands outside of the main insulation, where it is cold"));
  CHECK(has_note(finding, "less than 5 times as tight against vapour as its outside"));
}

TEST_CASE("the table of the surface has its humidity by month") {
  const Finding finding = MoistureModel().surface();
  const Table& table = finding.tables.at(0);
  CHECK(table.columns.size() <= 8);
  double greatest = 0.0;
  for (const auto& row : table.rows) {
    const double surface_c = std::get<double>(row[6]);
    const double humidity = std::get<double>(row[7]);
    CHECK(humidity == Approx(std::get<double>(row[3]) / saturation_pressure_pa(surface_c)));
    greatest = std::max(greatest, humidity);
  }
  CHECK(step_of(finding, "φ_si,max") == greatest);
}

TEST_CASE("of two vapour resistance factors the less favourable counts on either side") {
  MoistureModel model;
  put(model.project.materials[model.gypsum].properties, "Pset_MaterialHygroscopic", "LowerVaporResistanceFactor", 4.0);
  put(model.project.materials[model.board].properties, "Pset_MaterialHygroscopic", "LowerVaporResistanceFactor", 30.0);
  const auto t = model.transmittance();
  REQUIRE(t.transmittance);
  FindingBuilder builder(thermal::kUValueCheck, "");
  const BuildUp& build_up = t.transmittance->build_up;
  const auto layers = vapour_build_up(build_up, build_up.bridged.sections.front(), model.project, builder);
  REQUIRE(layers);
  CHECK(layers->layers.front().sd_m == Approx(4.0 * 0.0125));
  CHECK(layers->layers.back().sd_m == Approx(50.0 * 0.012));
}

TEST_CASE("layers are divided until none resists more than a quarter") {
  const VapourBuildUp fine = subdivided({{{"thin", 0.25, 1.0}, {"thick", 0.26, 1.0}}, 0.13, 0.04});
  REQUIRE(fine.layers.size() == 3);
  CHECK(fine.layers[1].sd_m == 0.5);
  CHECK(fine.layers[1].resistance_m2k_per_w == 0.13);
}

TEST_CASE("a missing vapour resistance is named") {
  MoistureModel model;
  Properties& wool = model.project.materials[model.wool].properties;
  wool = {};
  put(wool, "Pset_MaterialThermal", "ThermalConductivity", 0.035);
  const Finding finding = model.interstitial();
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason == "material 'mineral wool' has no Pset_MaterialHygroscopic.UpperVaporResistanceFactor");
}

TEST_CASE("the surface needs most in the month that the table shows") {
  const Finding finding = MoistureModel().surface();
  CHECK(finding.relation == Relation::at_least);
  double greatest = 0.0;
  for (const auto& row : finding.tables.at(0).rows) {
    if (const double* factor = std::get_if<double>(&row[5])) greatest = std::max(greatest, *factor);
  }
  CHECK(std::get<double>(finding.limit) == greatest);
  CHECK(finding.verdict == Verdict::pass);
}
