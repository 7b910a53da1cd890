#include "plugins/fire/facade/reaction_class.h"

#include <catch2/catch.hpp>

#include "core/api/testing/cassette_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::fire;

TEST_CASE("Reaction classes are read however they are spaced, and written one way") {
  for (const char* text : {"A2-s1,d0", "A2-s1, d0", "A2-s1 d0", "A2 - s1, d0"}) {
    INFO(text);
    REQUIRE(parse_reaction_class(text).has_value());
    CHECK(parse_reaction_class(text)->text() == "A2-s1,d0");
  }
  for (const char* text : {"A1", "E", "E-d2", "F", "D-s2,d0"}) CHECK(parse_reaction_class(text)->text() == text);
}

TEST_CASE("A class from A2 to D without smoke and droplets is none") {
  for (const char* text : {"A2", "B", "B-s1", "C-d0", "D-s4,d0", "D-s2,d3", "A1-s1,d0", "F-d2", "G", "", "Class 0"}) {
    INFO(text);
    CHECK_FALSE(parse_reaction_class(text).has_value());
  }
}

TEST_CASE("A class meets another only in class, smoke and droplets alike") {
  const auto meets = [](const char* actual, const char* required) {
    return parse_reaction_class(actual)->meets(*parse_reaction_class(required));
  };
  CHECK(meets("A1", "A2-s1,d0"));
  CHECK(meets("A2-s1,d0", "B-s3,d2"));
  CHECK(meets("B-s3,d2", "B-s3,d2"));
  CHECK_FALSE(meets("A2-s2,d0", "A2-s1,d0"));
  CHECK_FALSE(meets("A2-s1,d1", "A2-s1,d0"));
  CHECK_FALSE(meets("C-s1,d0", "B-s3,d2"));
  CHECK_FALSE(meets("E", "D-s3,d2"));
  CHECK(meets("D-s3,d2", "E"));
}

TEST_CASE("A layer is insulation by its own category or by its material's") {
  Project project = testing::cassette_project();
  Panel& panel = project.panels.front();
  const auto is_insulation = [&] { return layer_classes(panel, project).front().insulation; };
  CHECK_FALSE(is_insulation());
  panel.layers.front().category = "insulation";
  CHECK(is_insulation());
  panel.layers.front().category.clear();
  project.materials[*panel.layers.front().material].category = "insulation";
  CHECK(is_insulation());
}
