#include "core/api/model/settings.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

TEST_CASE("a setting names its key as origin") {
  Settings settings;
  settings.set("structural.wind.basic_velocity_m_per_s", 22.5);
  const auto found = settings.number("structural.wind.basic_velocity_m_per_s");
  REQUIRE(found);
  CHECK(found->value == 22.5);
  CHECK(found->origin.kind == OriginKind::setting);
  CHECK(describe(found->origin) == "setting 'structural.wind.basic_velocity_m_per_s'");
}

TEST_CASE("a setting of another type or an absent one is none") {
  Settings settings;
  settings.set("a", std::string("text"));
  settings.set("b", true);
  CHECK_FALSE(settings.number("a"));
  CHECK_FALSE(settings.number("b"));
  CHECK_FALSE(settings.logical("c"));
  CHECK(settings.logical("b")->value);
  CHECK(settings.text("a")->value == "text");
}

TEST_CASE("setting a key again replaces its value") {
  Settings settings;
  settings.set("a", 1.0);
  settings.set("a", 2.0);
  CHECK(settings.number("a")->value == 2.0);
}
