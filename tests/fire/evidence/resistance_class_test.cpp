#include "plugins/fire/evidence/resistance_class.h"

#include <catch2/catch.hpp>

using namespace panel_dossier::fire;

TEST_CASE("Resistance classes are read with or without blanks") {
  for (const char* text : {"REI 60", "REI60", " REI  60 "}) {
    const auto parsed = parse_resistance_class(text);
    INFO(text);
    REQUIRE(parsed.has_value());
    CHECK(parsed->minutes_for("R") == 60);
    CHECK(parsed->minutes_for("EI") == 60);
    CHECK(parsed->direction == FireDirection::not_stated);
  }
}

TEST_CASE("A class says nothing about criteria it does not name") {
  CHECK(parse_resistance_class("EI 60")->minutes_for("R") == 0);
  CHECK(parse_resistance_class("E 30")->minutes_for("EI") == 0);
}

TEST_CASE("Classes joined by a slash give each criterion its own period") {
  const auto parsed = parse_resistance_class("R 90 / EI 30");
  REQUIRE(parsed.has_value());
  CHECK(parsed->minutes_for("R") == 90);
  CHECK(parsed->minutes_for("EI") == 30);
  CHECK(parsed->minutes_for("REI") == 30);
}

TEST_CASE("Radiation and mechanical action are read beside the main criteria") {
  CHECK(parse_resistance_class("EW 30")->minutes_for("W") == 30);
  CHECK(parse_resistance_class("REI 120-M")->minutes_for("M") == 120);
  CHECK(parse_resistance_class("REI 120-M")->minutes_for("REI") == 120);
}

TEST_CASE("Directions are read in both spellings") {
  CHECK(parse_resistance_class("EI 60 (i→o)")->direction == FireDirection::inside_to_outside);
  CHECK(parse_resistance_class("EI 60 (o->i)")->direction == FireDirection::outside_to_inside);
  CHECK(parse_resistance_class("EI 60 (i↔o)")->direction == FireDirection::both);
}

TEST_CASE("A direction is covered by itself or by both") {
  const auto required = *parse_resistance_class("EI 60 (o→i)");
  CHECK(parse_resistance_class("EI 60 (o→i)")->covers_direction_of(required));
  CHECK(parse_resistance_class("EI 60 (i↔o)")->covers_direction_of(required));
  CHECK_FALSE(parse_resistance_class("EI 60 (i→o)")->covers_direction_of(required));
  CHECK_FALSE(parse_resistance_class("EI 60")->covers_direction_of(required));
  CHECK(parse_resistance_class("EI 60 (i→o)")->covers_direction_of(*parse_resistance_class("EI 60")));
}

TEST_CASE("What is no class is refused") {
  for (const char* text : {"", "60", "EI", "EI 61", "EI 0", "EI -60", "XI 60", "EI 60 min", "EI 60 (up)", "EI 60/",
                           "EI 6000", "EI 61-M", "EI-M", "-M", "one hour"}) {
    INFO(text);
    CHECK_FALSE(parse_resistance_class(text).has_value());
  }
}

TEST_CASE("A class of several periods is written with the shortest first and its direction") {
  const auto written = [](const char* text) { return class_text(*parse_resistance_class(text), "REI"); };
  CHECK(written("REI 60") == "REI 60");
  CHECK(written("R 60 / EI 30 (i->o)") == "REI 30 / R 60 (i→o)");
  CHECK(written("E 60 / I 15") == "EI 15 / E 60");
}

TEST_CASE("Classes by side of fire give what holds for the sides asked") {
  const auto classes = parse_resistance_classes("REI 60 (i->o); REI 30 (o->i)");
  REQUIRE(classes);
  const auto text_for = [&](FireDirection asked) { return class_text(class_for(*classes, asked), "REI"); };
  CHECK(text_for(FireDirection::inside_to_outside) == "REI 60 (i→o)");
  CHECK(text_for(FireDirection::outside_to_inside) == "REI 30 (o→i)");
  CHECK(text_for(FireDirection::both) == "REI 30 (i↔o)");
  CHECK(text_for(FireDirection::not_stated) == "REI 30 (i↔o)");
  CHECK_FALSE(parse_resistance_classes("REI 60 (i->o); one hour"));
  CHECK_FALSE(parse_resistance_classes("REI 60;"));
}

TEST_CASE("A criterion shown for one side alone is not shown for both") {
  const auto classes = parse_resistance_classes("REI 60 (i→o); EI 90 (o→i)");
  REQUIRE(classes);
  CHECK(class_text(class_for(*classes, FireDirection::both), "REI") == "EI 60 (i↔o)");
  const auto twice_inside = parse_resistance_classes("EI 60 (i→o); EI 30 (i→o)");
  REQUIRE(twice_inside);
  CHECK(class_for(*twice_inside, FireDirection::both).direction == FireDirection::not_stated);
}
