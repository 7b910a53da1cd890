#include "plugins/thermal/moisture/climate.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "tests/thermal/moisture/moisture_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::thermal;

TEST_CASE("a climate of eleven months is refused with the number it has") {
  MoistureModel model;
  drop_setting("thermal.monthly.external_temperature_c.11")(model.project, model.settings);
  for (const Finding& finding : {model.interstitial(), model.surface()}) {
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason == "setting 'thermal.monthly.external_temperature_c' has 11 months, not 12");
  }
}

namespace {

/// Why a climate of climates.csv with these months is refused; `humidity` is that of the last of them.
std::string refusal_of_months(const std::vector<int>& months, const char* humidity = "0.8") {
  const TemporaryFolder folder;
  const std::filesystem::path data(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  for (const auto& file : std::filesystem::directory_iterator(data)) {
    std::filesystem::copy(file.path(), folder.path() / file.path().filename());
  }
  std::ofstream climates(folder.path() / "climates.csv");
  climates << "key,location,month,external_temperature_c,external_relative_humidity,jurisdiction,source\n";
  for (std::size_t i = 0; i < months.size(); ++i) {
    climates << i << ",made," << months[i] << ",5," << (i + 1 == months.size() ? humidity : "0.8")
             << ",England,made for this test\n";
  }
  climates.close();
  MoistureModel model;
  climate_of_table("made")(model.project, model.settings);
  const Tables tables(folder.path());
  const Finding finding =
      check_surface_condensation(model.project.panels.front(), model.settings, tables, model.transmittance());
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(std::holds_alternative<std::monostate>(finding.value));
  return finding.reason;
}

}  // namespace

TEST_CASE("a climate table without twelve different months is refused by what is wrong with it") {
  const std::string rows = "climates.csv has ";
  const std::string rule = " rows for 'made'; each of 12 months is needed once";
  CHECK(refusal_of_months({1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}) == rows + "11" + rule + ", December is not there");
  CHECK(refusal_of_months({1, 2, 3, 3, 5, 6, 7, 8, 9, 10, 11, 12}) ==
        rows + "12" + rule + ", March is repeated, April is not there");
  CHECK(refusal_of_months({1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13}) == rows + "13" + rule);
}

TEST_CASE("a climate table with a humidity above one is refused by month") {
  CHECK(refusal_of_months({1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, "1.01") ==
        "external relative humidity of December is out of range");
}

TEST_CASE("without a climate, and with one that no table holds, the setting is named") {
  MoistureModel model;
  climate_of_table("nowhere")(model.project, model.settings);
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

TEST_CASE("a climate that is named and given by month as well is not guessed") {
  MoistureModel model;
  model.settings.set("thermal.climate", std::string("London (Heathrow), England"));
  CHECK(model.surface().reason ==
        "settings 'thermal.climate' and 'thermal.monthly.external_temperature_c' both give the climate: keep one");
  MoistureModel damp;
  climate_of_table("London (Heathrow), England")(damp.project, damp.settings);
  set_months(damp.settings, "thermal.monthly.external_relative_humidity", 0.8, 12);
  CHECK(damp.surface().reason ==
        "settings 'thermal.climate' and 'thermal.monthly.external_relative_humidity' both give the climate: keep one");
}

TEST_CASE("a humidity class falls linearly with the external temperature") {
  MoistureModel model;
  set_months(model.settings, "thermal.monthly.external_temperature_c", 5.0, 12);
  set_months(model.settings, "thermal.monthly.external_relative_humidity", 0.8, 12);
  model.settings.set("thermal.humidity_class", std::string("class 3"));
  FindingBuilder builder(thermal::kUValueCheck, "");
  const auto climate = read_climate(model.settings, thermal_tables(), builder);
  REQUIRE(climate);
  CHECK(climate->front().internal_vapour_pressure_pa - climate->front().external_vapour_pressure_pa ==
        Approx(810.0 * 0.75));
}
