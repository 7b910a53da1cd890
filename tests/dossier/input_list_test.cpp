#include "core/dossier/parts/input_list.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

namespace {

Input input(const std::string& name, double value, std::uint32_t line) {
  Origin origin;
  origin.entity = "IfcPropertySingleValue";
  origin.property = "Pset_MaterialThermal.ThermalConductivity";
  origin.line = line;
  return {name, "λ", value, "W/(m·K)", origin};
}

}  // namespace

TEST_CASE("an input used again keeps its number") {
  InputList list;
  CHECK(list.number(input("wool", 0.035, 10)) == std::pair<std::size_t, bool>{1, true});
  CHECK(list.number(input("timber", 0.13, 20)) == std::pair<std::size_t, bool>{2, true});
  CHECK(list.number(input("wool", 0.035, 10)) == std::pair<std::size_t, bool>{1, false});
}

TEST_CASE("inputs that differ in value or line are not one") {
  InputList list;
  list.number(input("wool", 0.035, 10));
  CHECK(list.number(input("wool", 0.036, 10)).second);
  CHECK(list.number(input("wool", 0.035, 11)).second);
}

TEST_CASE("each source stands once with the numbers of all its inputs") {
  InputList list;
  list.number(input("wool", 0.035, 10));
  list.number(input("timber", 0.13, 20));
  list.number(input("the same line under another name", 0.035, 10));
  REQUIRE(list.sources().size() == 2);
  CHECK(list.sources()[0].first == "Pset_MaterialThermal.ThermalConductivity, line 10");
  CHECK(list.sources()[0].second == std::vector<std::size_t>{1, 3});
}

TEST_CASE("runs of numbers are shortened to ranges") {
  CHECK(number_ranges({3, 1, 2, 7}) == "[1–3, 7]");
  CHECK(number_ranges({4, 5}) == "[4, 5]");
  CHECK(number_ranges({9, 9}) == "[9]");
}
