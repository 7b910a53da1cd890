#include "core/api/model/properties.h"

#include <catch2/catch.hpp>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/model/project.h"

using namespace panel_dossier;

namespace {

Property property(std::variant<double, bool, std::string> value, std::uint32_t line) {
  Property result{std::move(value), {}, {}};
  result.origin.line = line;
  return result;
}

}  // namespace

TEST_CASE("a property of the occurrence stands before that of its type") {
  Properties properties;
  properties.add("Pset_WallCommon", "FireRating", property(std::string("EI 60"), 10));
  properties.add("Pset_WallCommon", "FireRating", property(std::string("EI 30"), 99));
  const auto found = properties.text("Pset_WallCommon", "FireRating");
  REQUIRE(found);
  CHECK(found->value == "EI 60");
  CHECK(found->origin.line == 10);
}

TEST_CASE("a property of another type is not converted") {
  Properties properties;
  properties.add("Panel_Identity", "Mark", property(std::string("12"), 1));
  CHECK_FALSE(properties.number("Panel_Identity", "Mark"));
  CHECK_FALSE(properties.logical("Panel_Identity", "Mark"));
  CHECK(properties.text("Panel_Identity", "Mark"));
}

TEST_CASE("an absent property is none and null") {
  const Properties properties;
  CHECK(properties.find("Pset_WallCommon", "FireRating") == nullptr);
  CHECK_FALSE(properties.number("Pset_WallCommon", "FireRating"));
}

TEST_CASE("set and property names do not run into each other") {
  Properties properties;
  properties.add("A.B", "C", property(1.0, 1));
  CHECK(properties.number("A.B", "C"));
  CHECK_FALSE(properties.number("A", "C"));
}

TEST_CASE("all properties come in alphabetical order of their full names") {
  Properties properties;
  properties.add("Z", "A", property(1.0, 1));
  properties.add("A", "Z", property(2.0, 2));
  std::vector<std::string> names;
  for (const auto& entry : properties.all()) names.push_back(entry.first);
  CHECK(names == std::vector<std::string>{"A.Z", "Z.A"});
}

TEST_CASE("the standard strength grade stands before our own") {
  Material material;
  material.properties.add("Panel_Timber", "StrengthClass", property(std::string("C16"), 1));
  CHECK(material.strength_class()->value == "C16");
  material.properties.add("Pset_MaterialWood", "StrengthGrade", property(std::string("C24"), 2));
  CHECK(material.strength_class()->value == "C24");
}
