#include "core/trace/nearest.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

TEST_CASE("Edit distances are the fewest single changes") {
  CHECK(edit_distance("", "") == 0);
  CHECK(edit_distance("abc", "") == 3);
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("P-01", "P-10") == 2);
}

TEST_CASE("Nearest names come first and far ones not at all") {
  CHECK(nearest("P-1", {"Q-99", "P-11", "P-01", "P-1x", "wall"}, 2) == std::vector<std::string>{"P-11", "P-01"});
  CHECK(nearest("zzz", {"P-11"}, 2).empty());
}
