#include "plugins/fire/calculation/load_in_fire.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <utility>

#include "core/api/testing/temporary_folder.h"
#include "tests/fire/fire_tables.h"
#include "tests/fire/tested_panel.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

fire::LoadInFire load_of(const Project& project, const Settings& settings = cassette_settings()) {
  return fire::load_in_fire(project.panels.front(), project, settings, fire_tables());
}

}  // namespace

TEST_CASE("The load in fire is a share of the design load, with half the panel's weight where it is held at its ends") {
  // EN 1990 (6.10) with the recommended factors, and η_fi = 0.6.
  const fire::LoadInFire load = load_of(tested_load_bearing_panel());
  REQUIRE(load.missing.empty());
  CHECK(load.share == 0.5);
  CHECK(load.self_weight_n_per_m == Approx(0.5 * load.mass_kg * 9.80665 / 2.4));
  CHECK(load.in_fire_n_per_m == Approx(0.6 * (1.35 * (8000.0 + load.self_weight_n_per_m) + 1.5 * 6000.0)));
}

TEST_CASE("Held between head and sole, more of the panel stands above the middle of the lowest span") {
  Project project = tested_load_bearing_panel();
  properties_of(project).add("Panel_Structure", "SupportSpacing", property_of(1.5));
  CHECK(load_of(project).share == Approx(0.75));
  // Supports further apart than the panel is high hold it at its ends only.
  replace(properties_of(project), "Panel_Structure", "SupportSpacing", property_of(4.0));
  CHECK(load_of(project).share == 0.5);
  Settings settings = cassette_settings();
  settings.set("structural.support_spacing_m", 1.0);
  CHECK(load_of(tested_load_bearing_panel(), settings).span_m == 1.0);
}

TEST_CASE("A part without a mass leaves the load unknown") {
  Project project = tested_load_bearing_panel();
  remove(project.materials[kOsb].properties, "Pset_MaterialCommon.MassDensity");
  CHECK(
      load_of(project).missing ==
      "needs setting fire.load_ratio_in_fire, Panel_Structure.PermanentLineLoad and VariableLineLoad, and the density "
      "of every part");
}

TEST_CASE("The load ratio in fire lies above 0 and is at most 1") {
  for (const auto& [ratio, used] : {std::pair{0.0, false}, {0.05, true}, {1.0, true}, {1.01, false}}) {
    Settings settings = cassette_settings();
    settings.set("fire.load_ratio_in_fire", ratio);
    const fire::LoadInFire load = load_of(tested_load_bearing_panel(), settings);
    INFO(ratio);
    CHECK(load.missing == (used ? "" : "setting fire.load_ratio_in_fire must be above 0 and at most 1"));
    if (used) {
      CHECK(load.in_fire_n_per_m == Approx(ratio * (1.35 * (8000.0 + load.self_weight_n_per_m) + 1.5 * 6000.0)));
    }
  }
}

TEST_CASE("An annex without one of its factors gives no load in fire") {
  const std::filesystem::path data = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/fire/data";
  for (const char* row : {"recommended,,1.50,0.0,x", "recommended,1.35,,0.0,x", "recommended,1.35,1.50,,x"}) {
    const TemporaryFolder folder;
    std::filesystem::copy(data, folder.path());
    folder.write("load_factors.csv",
                 std::string("key,gamma_g_unfavourable,gamma_q,wind_in_fire,source\n") + row + "\n");
    const Project project = tested_load_bearing_panel();
    INFO(row);
    CHECK(
        fire::load_in_fire(project.panels.front(), project, cassette_settings(), fire::Tables(folder.path())).missing ==
        "load_factors.csv has no row for the national annex 'recommended'");
  }
}
