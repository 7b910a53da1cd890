#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>

#include "core/api/panel_values.h"
#include "plugins/thermal/moisture_climate.h"
#include "plugins/thermal/moisture_interstitial.h"
#include "plugins/thermal/moisture_layers.h"
#include "plugins/thermal/moisture_saturation.h"
#include "plugins/thermal/moisture_surface.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/timber_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::test_support;
using namespace panel_dossier::thermal;

namespace {

/// The timber panel seen without its U-value finding, which is another check's business.
struct MoistureModel : TimberPanel {
  MoistureModel() {
    settings.set("thermal.condensate_limit", std::string("non-absorbent plane"));
    settings.set("thermal.punctured_vapour_control_sd_m", 0.5);
  }

  /// Puts a vapour control layer of this μ · 0.2 mm behind the lining.
  void add_vapour_control(double resistance_factor) {
    Panel fresh = plain_panel(2.4, 2.7);
    const std::size_t membrane = add_material(project, "polyethylene", "plastic", 950.0, 0.33);
    put(project.materials[membrane].properties, "Pset_MaterialHygroscopic", "UpperVaporResistanceFactor",
        resistance_factor);
    add_layer(fresh, "lining", "finish", gypsum, 0.0125);
    add_layer(fresh, "vapour control", "membrane", membrane, 0.0002);
    add_layer(fresh, "cassette", "insulation", wool, 0.140);
    add_layer(fresh, "sheathing", "sheathing", board, 0.012);
    panel().layers = fresh.layers;
    panel().parts.clear();
    panel().thickness_m = fresh.thickness_m;
  }

  TransmittanceResult transmittance() const {
    FindingBuilder builder("thermal.u_value", "", "", "");
    TransmittanceResult result;
    Settings with_framing = settings;
    with_framing.set("thermal.assumed_framing_fraction", 0.0);
    with_framing.set("thermal.assumed_framing_conductivity_w_per_mk", 0.13);
    Transmittance t{read_build_up(project.panels.front(), project, with_framing, thermal_tables(), builder), {}};
    if (builder.incomplete()) {
      result.u_value = builder.not_assessed();
    } else {
      result.transmittance = std::move(t);
    }
    return result;
  }

  Finding interstitial() const {
    return check_interstitial_condensation(project.panels.front(), project, settings, thermal_tables(),
                                           transmittance());
  }
  Finding surface() const {
    return check_surface_condensation(project.panels.front(), settings, thermal_tables(), transmittance());
  }
};

std::string step_text(const Finding& finding, const std::string& name) {
  for (const Step& step : finding.steps) {
    if (step.name == name) return std::get<std::string>(step.value);
  }
  return "no step '" + name + "'";
}

void set_months(Settings& settings, const std::string& key, double value, int months) {
  for (int m = 0; m < months; ++m) settings.set(key + "." + std::to_string(m), value);
}

}  // namespace

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
  CHECK(step_value(finding, "M_a,12") == 0.0);
  CHECK(step_value(finding, "M_a") > 0.0);
  CHECK(finding.verdict != Verdict::not_assessed);
}

TEST_CASE("a vapour control layer keeps the cassette dry and its puncture is said") {
  MoistureModel model;
  model.add_vapour_control(500000.0);
  const Finding finding = model.interstitial();
  CHECK(finding.verdict == Verdict::pass);
  CHECK(number_of(finding) == 0.0);
  CHECK(step_text(finding, "main section") == "nothing condenses");
  CHECK(step_value(finding, "s_d,vcl") == Approx(100.0));
  CHECK(step_text(finding, "if the vapour control layer is punctured") != "nothing condenses");
  CHECK(step_value(finding, "M_a,max,p") > 0.0);
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

TEST_CASE("without a limit condensate that dries is information") {
  MoistureModel model;
  model.settings = TimberPanel().settings;
  CHECK(model.interstitial().verdict == Verdict::information);
}

TEST_CASE("a limit that no table holds is named") {
  MoistureModel model;
  model.settings.set("thermal.condensate_limit", std::string("sponge"));
  CHECK(model.interstitial().reason == "condensate_limits.csv has no row 'sponge' (setting thermal.condensate_limit)");
}

TEST_CASE("charts show condensate by plane, pressures and temperature") {
  const Finding finding = MoistureModel().interstitial();
  REQUIRE(finding.series.size() == 3);
  CHECK(finding.series[0].curves.front().points.size() == 13);
  CHECK(finding.series[1].curves.size() == 2);
  for (const Series& series : finding.series) {
    for (const Curve& curve : series.curves) {
      for (const Vec2& point : curve.points) CHECK(std::isfinite(point.x + point.y));
    }
  }
}

TEST_CASE("of two vapour resistance factors the less favourable counts on either side") {
  MoistureModel model;
  put(model.project.materials[model.gypsum].properties, "Pset_MaterialHygroscopic", "LowerVaporResistanceFactor", 4.0);
  put(model.project.materials[model.board].properties, "Pset_MaterialHygroscopic", "LowerVaporResistanceFactor", 30.0);
  const auto t = model.transmittance();
  REQUIRE(t.transmittance);
  FindingBuilder builder("", "", "", "");
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

TEST_CASE("a climate of eleven months is refused with the number it has") {
  MoistureModel model;
  set_months(model.settings, "thermal.monthly.external_temperature_c", 5.0, 11);
  set_months(model.settings, "thermal.monthly.external_relative_humidity", 0.8, 12);
  for (const Finding& finding : {model.interstitial(), model.surface()}) {
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason == "setting 'thermal.monthly.external_temperature_c' has 11 months, not 12");
  }
}

TEST_CASE("a climate table of eleven months is refused with the number it has") {
  const TemporaryFolder folder;
  const std::filesystem::path data(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  for (const auto& file : std::filesystem::directory_iterator(data)) {
    std::filesystem::copy(file.path(), folder.path() / file.path().filename());
  }
  std::ofstream climates(folder.path() / "climates.csv");
  climates << "key,location,month,external_temperature_c,external_relative_humidity,source\n";
  for (int month = 1; month <= 11; ++month) climates << month << ",short," << month << ",5,0.8,made for this test\n";
  climates.close();
  Settings settings;
  settings.set("thermal.climate", std::string("short"));
  FindingBuilder builder("", "", "", "");
  CHECK_FALSE(read_climate(settings, Tables(folder.path()), builder));
  CHECK(builder.not_assessed().reason.find("climates.csv has 11 rows for 'short'; each of 12 months is needed once") ==
        0);
}

TEST_CASE("without a climate, and with one that no table holds, the setting is named") {
  MoistureModel model;
  model.settings.set("thermal.climate", std::string("nowhere"));
  CHECK(model.surface().reason == "climates.csv has no location 'nowhere' (setting thermal.climate)");
  model.settings = {};
  CHECK(model.surface().reason.find("setting 'thermal.climate' is missing") == 0);
}

TEST_CASE("a humidity out of range is refused by month") {
  MoistureModel model;
  set_months(model.settings, "thermal.monthly.external_temperature_c", 5.0, 12);
  set_months(model.settings, "thermal.monthly.external_relative_humidity", 0.8, 12);
  model.settings.set("thermal.monthly.external_relative_humidity.3", 80.0);
  CHECK(model.surface().reason == "external relative humidity of April is out of range");
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

TEST_CASE("a humidity class falls linearly with the external temperature") {
  MoistureModel model;
  set_months(model.settings, "thermal.monthly.external_temperature_c", 5.0, 12);
  set_months(model.settings, "thermal.monthly.external_relative_humidity", 0.8, 12);
  model.settings.set("thermal.humidity_class", std::string("class 3"));
  FindingBuilder builder("", "", "", "");
  const auto climate = read_climate(model.settings, thermal_tables(), builder);
  REQUIRE(climate);
  CHECK(climate->front().internal_vapour_pressure_pa - climate->front().external_vapour_pressure_pa ==
        Approx(810.0 * 0.75));
}
