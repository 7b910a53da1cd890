// The climates of places that are shipped, against what the weather services publish.
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/tables.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal;

namespace {

YearClimate climate_of(const std::string& location) {
  static const Tables tables(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  Settings settings;
  settings.set("thermal.climate", location);
  settings.set("thermal.internal_temperature_c", 20.0);
  settings.set("thermal.internal_relative_humidity", 0.5);
  FindingBuilder builder(CheckDeclaration{}, "");
  return read_climate(settings, tables, builder).value();
}

double annual_mean_c(const YearClimate& year) {
  double sum = 0.0;
  for (const MonthClimate& month : year) sum += month.external_temperature_c;
  return sum / 12.0;
}

}  // namespace

// Annual mean temperatures 1991-2020 of the weather services, which print them beside the monthly ones (Met Office:
// mean of the annual maximum and minimum): Heathrow 11.7, Cardiff 10.8, Edinburgh 9.6, Aldergrove 9.4, Dublin
// Airport 9.8, Potsdam 9.9 °C. From memory. The monthly values are good to 0.5 K each, so their mean to less: 0.3 K is
// allowed.
TEST_CASE("the months of each place have the annual mean that is published") {
  struct Case {
    const char* location;
    double annual_mean_c;
  };
  for (const Case& c :
       {Case{"London (Heathrow), England", 11.7}, Case{"Cardiff, Wales", 10.8}, Case{"Edinburgh, Scotland", 9.6},
        Case{"Belfast, Northern Ireland", 9.4}, Case{"Dublin, Ireland", 9.8}, Case{"Potsdam, Germany", 9.9}}) {
    INFO(c.location);
    CHECK(annual_mean_c(climate_of(c.location)) == Approx(c.annual_mean_c).margin(0.3));
  }
}

// Common knowledge of mid-latitude climates: July or August is warmest, the air holds most vapour in summer, and
// relative humidity is highest from October to February.
TEST_CASE("each place has its warm, moist summer and damp winter") {
  for (const char* location : {"London (Heathrow), England", "Cardiff, Wales", "Edinburgh, Scotland",
                               "Belfast, Northern Ireland", "Dublin, Ireland", "Potsdam, Germany"}) {
    INFO(location);
    const YearClimate year = climate_of(location);
    const auto humidity = [&](std::size_t m) {
      return year[m].external_vapour_pressure_pa / saturation_pressure_pa(year[m].external_temperature_c);
    };
    for (std::size_t m = 0; m < kMonths; ++m) {
      CHECK(year[m].external_temperature_c <= std::max(year[6].external_temperature_c, year[7].external_temperature_c));
    }
    CHECK(year[6].external_vapour_pressure_pa > 1.5 * year[0].external_vapour_pressure_pa);
    CHECK(std::max(humidity(11), humidity(10)) > humidity(4));
    CHECK(humidity(0) > humidity(4));
  }
}
