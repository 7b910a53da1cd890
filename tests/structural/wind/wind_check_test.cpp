#include <catch2/catch.hpp>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/wind/wind_checks.h"
#include "tests/structural/structural_tables.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Finding wind_of(const Project& project, const Settings& settings) {
  return structural::wind_pressure(project.panels.front(), project, settings, structural_tables(),
                                   structural::lay_out_facades(project, settings))
      .finding;
}

}  // namespace

TEST_CASE("A wind pressure given for the panel is taken as it stands") {
  Project project = cassette_project();
  project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(850.0));
  const Finding finding = wind_of(project, cassette_settings());
  CHECK(finding.basis == Basis::declared);
  CHECK(finding.verdict == Verdict::information);
  CHECK(std::get<double>(finding.value) == 850.0);
  CHECK(finding.inputs.front().origin.line == 7);
}

TEST_CASE("Without a given pressure it follows from terrain, velocity and building height") {
  const Finding finding = wind_of(cassette_project(), cassette_settings());
  // By hand for category III, z = 10 m: k_r = 0.19·6^0.07 = 0.2154; c_r = 0.2154·ln(33.33) = 0.7553;
  // v_m = 16.99 m/s; I_v = 0.2852; q_p = 2.996·0.625·288.8 = 540.8 Pa; w = 1.4·q_p. Rounded at each step: 0.1 %.
  CHECK(finding.basis == Basis::calculation);
  CHECK(step_of(finding, "k_r") == Approx(0.2154).epsilon(0.001));
  CHECK(step_of(finding, "q_p") == Approx(540.8).epsilon(0.001));
  CHECK(std::get<double>(finding.value) == Approx(1.4 * 540.8).epsilon(0.001));
}

TEST_CASE("A panel whose top stands above the building's height raises the reference height") {
  Project project = cassette_project();
  project.panels.front().frame.origin.z = 9.0;
  CHECK(step_of(wind_of(project, cassette_settings()), "z_e") == Approx(12.0));
}

TEST_CASE("A missing or unusable wind setting is named and nothing is calculated") {
  struct Case {
    const char* label;
    const char* key;
    Settings::Value value;
    const char* reason;
  };
  const std::vector<Case> cases{
      {"negative velocity", "structural.wind.basic_velocity_m_per_s", -3.0,
       "fundamental value of the basic wind velocity must be greater than zero (setting "
       "'structural.wind.basic_velocity_m_per_s')"},
      {"unknown category", "structural.wind.terrain_category", std::string("V"),
       "terrain category 'V' is not one of 0, I, II, III, IV"},
      {"height beyond the standard", "building.height_m", 250.0,
       "reference height above 200 m, where EN 1991-1-4 4.3.2 ends"},
      {"unknown annex", "structural.national_annex", std::string("XX"), "no parameters for national annex 'XX'"},
      {"annex with a procedure of its own", "structural.national_annex", std::string("UK"),
       "national annex 'UK' replaces the procedure of EN 1991-1-4 4.3 to 4.5: give "
       "Panel_Structure.DesignWindPressure"}};
  for (const Case& bad : cases) {
    Settings settings = cassette_settings();
    settings.set(bad.key, bad.value);
    const Finding finding = wind_of(cassette_project(), settings);
    INFO(bad.label);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason == bad.reason);
  }
  for (const char* key : {"structural.wind.terrain_category", "building.height_m", "structural.national_annex"}) {
    const Finding finding = wind_of(cassette_project(), without(cassette_settings(), key));
    INFO(key);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find(std::string("setting ") + key) != std::string::npos);
  }
}

TEST_CASE("A given pressure of zero or below is refused") {
  Project project = cassette_project();
  project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(-10.0));
  const Finding finding = wind_of(project, cassette_settings());
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("wind pressure given for the panel must be greater than zero") == 0);
}

TEST_CASE("The annex with a procedure of its own is passed over only when the settings say so") {
  Settings settings = cassette_settings();
  settings.set("structural.national_annex", std::string("UK"));
  settings.set("structural.wind.procedure", std::string("recommended"));
  const Finding finding = wind_of(cassette_project(), settings);
  CHECK(std::get<double>(finding.value) == Approx(1.4 * 540.8).epsilon(0.001));
  CHECK(finding.notes.front().find("the structural engineer must agree to it") != std::string::npos);
}

TEST_CASE("An altitude below the sea and two statements of one slope are refused") {
  Settings low = cassette_settings();
  low.set("structural.national_annex", std::string("UK"));
  low.set("structural.wind.site_altitude_m", -1.0);
  CHECK(wind_of(cassette_project(), low).reason.find("setting structural.wind.site_altitude_m must not be negative") !=
        std::string::npos);
  Settings twice = cassette_settings();
  twice.set("structural.wind.orography_factor", 1.1);
  twice.set("structural.wind.upwind_slope", 0.1);
  twice.set("structural.wind.orographic_location_factor", 0.5);
  const Finding finding = wind_of(cassette_project(), twice);
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason ==
        "settings structural.wind.orography_factor and upwind_slope exclude each other: leave one out");
}

TEST_CASE("The altitude factor of the UK annex raises the velocity, and no other annex takes one") {
  Settings settings = cassette_settings();
  settings.set("structural.wind.site_altitude_m", 100.0);
  CHECK(wind_of(cassette_project(), settings).reason.find("setting structural.wind.site_altitude_m") == 0);
  settings.set("structural.national_annex", std::string("UK"));
  settings.set("structural.wind.procedure", std::string("recommended"));
  // At 10 m: 1 + 0.001·100 = 1.1.
  CHECK(step_of(wind_of(cassette_project(), settings), "v_b") == Approx(1.1 * 22.5));
}

TEST_CASE("Direction, season, orography and probability factors are taken from the settings") {
  Settings settings = cassette_settings();
  settings.set("structural.wind.direction_factor", 0.9);
  settings.set("structural.wind.season_factor", 0.8);
  settings.set("structural.wind.orography_factor", 1.2);
  const Finding finding = wind_of(cassette_project(), settings);
  CHECK(step_of(finding, "v_b") == Approx(0.72 * 22.5));
  CHECK(step_of(finding, "v_m") == Approx(1.2 * 0.7553 * 0.72 * 22.5).epsilon(0.001));
  // I_v = 1/(1.2·ln(33.33)) = 0.2377.
  CHECK(step_of(finding, "I_v") == Approx(0.2377).epsilon(0.001));
  settings.set("structural.wind.annual_probability", 0.02);
  CHECK(step_of(wind_of(cassette_project(), settings), "v_b") == Approx(0.72 * 22.5));
}

TEST_CASE("A slope stands for the orography factor and needs its location factor") {
  Settings settings = cassette_settings();
  settings.set("structural.wind.upwind_slope", 0.1);
  CHECK(wind_of(cassette_project(), settings).reason.find("setting structural.wind.orographic_location_factor") == 0);
  settings.set("structural.wind.orographic_location_factor", 0.5);
  const Finding finding = wind_of(cassette_project(), settings);
  CHECK(step_of(finding, "v_m") == Approx(1.1 * 0.7553 * 22.5).epsilon(0.001));
}
