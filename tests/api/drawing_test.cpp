#include "core/api/finding/drawing.h"

#include <catch2/catch.hpp>
#include <cstddef>
#include <utility>
#include <vector>

using namespace panel_dossier;

TEST_CASE("pieces of a stacked bar follow one another, what is below zero on its own side") {
  const Bar bar = stacked_bar("year", {4.0, -1.5, 0.0, 2.0, -0.5});
  CHECK(bar.name == "year");
  const std::vector<std::pair<double, double>> ends{{0.0, 4.0}, {0.0, -1.5}, {4.0, 4.0}, {4.0, 6.0}, {-1.5, -2.0}};
  REQUIRE(bar.pieces.size() == ends.size());
  for (std::size_t i = 0; i < ends.size(); ++i) {
    CHECK(bar.pieces[i].part == i);
    CHECK(bar.pieces[i].from == ends[i].first);
    CHECK(bar.pieces[i].to == ends[i].second);
  }
  CHECK(stacked_bar("none", {}).pieces.empty());
}
