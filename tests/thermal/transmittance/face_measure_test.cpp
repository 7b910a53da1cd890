#include <catch2/catch.hpp>

#include "plugins/thermal/transmittance/bridging.h"

using namespace panel_dossier::thermal;

TEST_CASE("an uncovered face is one section of the whole area") {
  const auto face = measure_face(2.0, 3.0, {}, {}, 2);
  CHECK(face.net_area_m2 == Approx(6.0));
  REQUIRE(face.sections.size() == 1);
  CHECK(face.sections.front().slots == std::vector<std::size_t>{0, 0});
}

TEST_CASE("a stud that runs into a rail is counted once where they meet") {
  const std::vector<Cover> covers{{0, 1, {0.0, 2.0, 0.0, 0.1}}, {0, 1, {0.9, 1.0, 0.0, 3.0}}};
  const auto face = measure_face(2.0, 3.0, {}, covers, 1);
  CHECK(face.cover_areas_m2[0] == Approx(0.2));
  CHECK(face.cover_areas_m2[1] == Approx(0.1 * 2.9));
  CHECK(face.sections[1].area_m2 == Approx(0.2 + 0.29));
}

TEST_CASE("framing inside an opening does not count") {
  const auto face = measure_face(2.0, 3.0, {{0.5, 1.5, 1.0, 2.0}}, {{0, 1, {0.9, 1.0, 0.0, 3.0}}}, 1);
  CHECK(face.net_area_m2 == Approx(5.0));
  CHECK(face.cover_areas_m2[0] == Approx(0.1 * 2.0));
}

TEST_CASE("parts that stick out of the panel are cut at its edge") {
  const auto face = measure_face(2.0, 3.0, {}, {{0, 1, {-0.5, 0.1, -1.0, 9.0}}}, 1);
  CHECK(face.cover_areas_m2[0] == Approx(0.3));
}

TEST_CASE("battens that cross studs give sections with the product of both shares") {
  const std::vector<Cover> covers{{0, 1, {0.0, 2.0, 0.0, 0.3}}, {1, 1, {0.0, 0.2, 0.0, 3.0}}};
  const auto face = measure_face(2.0, 3.0, {}, covers, 2);
  REQUIRE(face.sections.size() == 4);
  for (const SectionArea& section : face.sections) {
    const double batten = section.slots[0] == 1 ? 0.1 : 0.9;
    const double stud = section.slots[1] == 1 ? 0.1 : 0.9;
    CHECK(section.area_m2 / face.net_area_m2 == Approx(batten * stud));
  }
}

TEST_CASE("battens in line with studs give no section through one of them alone") {
  const std::vector<Cover> covers{{0, 1, {0.0, 0.2, 0.0, 3.0}}, {1, 1, {0.0, 0.2, 0.0, 3.0}}};
  const auto face = measure_face(2.0, 3.0, {}, covers, 2);
  REQUIRE(face.sections.size() == 2);
  CHECK(face.sections[1].slots == std::vector<std::size_t>{1, 1});
  CHECK(face.sections[1].area_m2 == Approx(0.6));
}

TEST_CASE("noise below a hundredth of a millimetre gives no section of its own") {
  const std::vector<Cover> covers{{0, 1, {0.0, 0.2, 0.0, 3.0}}, {1, 1, {0.0, 0.200001, 0.0, 3.0}}};
  CHECK(measure_face(2.0, 3.0, {}, covers, 2).sections.size() == 2);
}
