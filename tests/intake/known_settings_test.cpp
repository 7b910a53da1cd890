#include "core/intake/settings/known_settings.h"

#include <catch2/catch.hpp>

#include "core/intake/settings/settings_reader.h"

using namespace panel_dossier;

namespace {

Diagnostics unknown_in(const char* text) {
  const SettingsResult read = read_settings(text, "settings.json");
  REQUIRE(read.diagnostics.empty());
  const auto schema = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas" / "settings.schema.json";
  return unknown_settings(read.settings, schema, "settings.json");
}

}  // namespace

TEST_CASE("A misspelt setting is warned of and named") {
  const Diagnostics found = unknown_in(R"({"structural": {"wind": {"basic_velocty_m_per_s": 22.5}}})");
  REQUIRE(found.size() == 1);
  CHECK(
      to_string(found[0]) ==
      "settings.json: warning: structural.wind.basic_velocty_m_per_s: no check reads this setting; it is ignored; see "
      "settings.schema.json for the keys");
}

TEST_CASE("A group nobody knows is warned of") {
  CHECK(unknown_in(R"({"acoustic": {"limit": 1}})").size() == 1);
}

TEST_CASE("Known settings, elements of a list and open groups are not warned of") {
  CHECK(unknown_in(R"({"structural": {"wind": {"terrain_category": "II"}},
                       "quantities": {"stock_lengths_m": [3.0, 4.2]},
                       "thermal": {"details": {"slab_thickness_m": 0.25}, "design_value_classes": {"Oak": "timber 700"},
                                   "monthly": {"external_temperature_c": [1, 2, 3]}}})")
            .empty());
}

TEST_CASE("A misspelt thermal setting is warned of at any depth") {
  const Diagnostics found = unknown_in(R"({"thermal": {"climat": "Dublin", "details": {"slab_thicknes_m": 0.25},
                                                       "monthly": {"external_temperature": [1]}}})");
  REQUIRE(found.size() == 3);
  CHECK(found[0].entity == "thermal.climat");
  CHECK(found[1].entity == "thermal.details.slab_thicknes_m");
  CHECK(found[2].entity == "thermal.monthly.external_temperature.0");
}

TEST_CASE("A word that is not in its setting's list is refused with the list") {
  const Diagnostics found = unknown_in(R"({"structural": {"national_annex": "uk"}})");
  REQUIRE(found.size() == 1);
  CHECK(to_string(found[0]) ==
        "settings.json: error: structural.national_annex: 'uk' is not a word for this setting; write one of: "
        "recommended, UK");
}

TEST_CASE("A schema that cannot be read is an error with the way out") {
  CHECK_THROWS_WITH(unknown_settings({}, "/nonexistent/settings.schema.json", "s"),
                    "cannot read '/nonexistent/settings.schema.json'; give the folder of the schemas with --schemas");
}
