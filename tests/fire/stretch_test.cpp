#include "plugins/fire/stretch.h"

#include <catch2/catch.hpp>

using namespace panel_dossier::fire;

TEST_CASE("What covers overlap, and reach beyond the ends of a line, counts once and no further") {
  const Stretch line{1.0, 5.0};
  CHECK(bare_length_m(line, {}) == 4.0);
  CHECK(bare_length_m(line, {{0.0, 2.0}, {1.5, 3.0}}) == 2.0);
  CHECK(bare_length_m(line, {{4.0, 9.0}, {2.0, 3.0}}) == 2.0);
  CHECK(bare_length_m(line, {{0.0, 9.0}}) == 0.0);
}

TEST_CASE("What covers beside the line covers nothing of it") {
  const Stretch line{1.0, 5.0};
  CHECK(bare_length_m(line, {{-3.0, 1.0}, {5.0, 8.0}, {7.0, 6.0}}) == 4.0);
}
