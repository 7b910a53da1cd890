#include "core/trace/value_text.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace panel_dossier;

TEST_CASE("A list names as many as are shown, and one more rather than to count it") {
  const std::vector<std::string> names{"A1", "A2", "A3", "A4"};
  CHECK(list_some({}, 2).empty());
  CHECK(list_some({"A1"}, 2) == "A1");
  CHECK(list_some({"A1", "A2"}, 2) == "A1, A2");
  CHECK(list_some({"A1", "A2", "A3"}, 2) == "A1, A2, A3");
  CHECK(list_some(names, 2) == "A1, A2 and 2 more");
  CHECK(list_some(names, 3) == "A1, A2, A3, A4");
}

TEST_CASE("A value is printed with its decimals and unit, or with all of its digits") {
  CHECK(value_text(0.18567, "W/(m²·K)", 2) == "0.19 W/(m²·K)");
  CHECK(exact_value_text(0.18567, "W/(m²·K)") == "0.18567 W/(m²·K)");
  CHECK(value_text(std::string("no opening"), "", 2) == "no opening");
}
