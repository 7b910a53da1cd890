// What is read and said of an export does not hang on how many processors read it.
#include <sched.h>

#include <catch2/catch.hpp>
#include <cstdio>
#include <string>

#include "tests/intake/project_text.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using intake_test::all_of;
using intake_test::edited;
using intake_test::file_text;

constexpr int kWalls = 200;  // some shares of panels

/// A wall that states its sizes alone; all share one set of properties.
std::string stated_wall(int number, const std::string& height) {
  char digits[4];
  std::snprintf(digits, sizeof(digits), "%03d", number);
  const auto id = [&](const char* kind) { return "\"1" + std::string(18 - 1, '0') + kind + digits + "\""; };
  return "<IfcWall GlobalId=" + id("w") + " Name=\"Wall\" Tag=\"Q-" + digits +
         "\"><IsDefinedBy><IfcRelDefinesByProperties GlobalId=" + id("r") +
         "><RelatingPropertyDefinition xsi:type=\"IfcPropertySet\" xsi:nil=\"true\" ref=\"shared\"/>"
         "</IfcRelDefinesByProperties><IfcRelDefinesByProperties GlobalId=" +
         id("s") + "><RelatingPropertyDefinition><IfcElementQuantity GlobalId=" + id("q") +
         " Name=\"Qto_WallBaseQuantities\"><Quantities><IfcQuantityLength Name=\"Length\" LengthValue=\"" +
         std::to_string(1000 + number) + "\"/><IfcQuantityLength Name=\"Height\" LengthValue=\"" + height +
         "\"/><IfcQuantityLength Name=\"Width\" LengthValue=\"165\"/></Quantities></IfcElementQuantity>"
         "</RelatingPropertyDefinition></IfcRelDefinesByProperties></IsDefinedBy></IfcWall>\n";
}

/// `shared` is the value of a number in the set that all walls have.
std::string many_walls(const std::string& shared, const std::string& odd_height) {
  std::string walls;
  for (int i = 0; i < kWalls; ++i) walls += stated_wall(i, i % 30 == 7 ? odd_height : "2500");
  const std::string set =
      "<IfcPropertySet id=\"shared\" GlobalId=\"1000000000000000000set\" Name=\"Panel_FireEvidence\"><HasProperties>"
      "<IfcPropertySingleValue Name=\"MaxHeight\"><NominalValue><IfcPositiveLengthMeasure-wrapper>" +
      shared +
      "</IfcPositiveLengthMeasure-wrapper></NominalValue></IfcPropertySingleValue></HasProperties></IfcPropertySet>\n";
  std::string text = edited(file_text("hall-ifc4-nested.ifcxml"), "</IfcWall>", "</IfcWall>", "</IfcWall>\n" + walls);
  return edited(std::move(text), "</IfcProject>", "</IfcProject>", "</IfcProject>\n" + set);
}

/// Project and report in words, read by one processor or by all there are.
std::string read_by(bool one_processor, const std::string& text) {
  cpu_set_t all;
  REQUIRE(sched_getaffinity(0, sizeof(all), &all) == 0);
  if (one_processor) {
    cpu_set_t one;
    CPU_ZERO(&one);
    for (int cpu = 0; cpu < CPU_SETSIZE && CPU_COUNT(&one) == 0; ++cpu) {
      if (CPU_ISSET(cpu, &all)) CPU_SET(cpu, &one);
    }
    REQUIRE(sched_setaffinity(0, sizeof(one), &one) == 0);
  }
  const IntakeResult result = intake_test::read_text(text);
  REQUIRE(sched_setaffinity(0, sizeof(all), &all) == 0);
  return all_of(result.diagnostics) + (result.project ? intake_test::describe(*result.project) : "refused");
}

TEST_CASE("panels read in shares come out as panels read one after the other", "[intake]") {
  const std::string text = many_walls("4000", "2600");
  const std::string read = read_by(true, text);
  CHECK(read_by(false, text) == read);
  CHECK(read.find("refused") == std::string::npos);
  std::size_t at = 0;
  for (int i = 0; i < kWalls; ++i) {
    const std::string mark = " Q-" + std::string(i < 100 ? i < 10 ? "00" : "0" : "") + std::to_string(i) + " ";
    at = read.find(mark, at);
    INFO(mark);
    REQUIRE(at != std::string::npos);
  }
}

TEST_CASE("a fault that panels of several shares have in common is said once, and each panel's own in the file's order",
          "[intake]") {
  const std::string text = many_walls("12e999", "none");
  const std::string read = read_by(true, text);
  CHECK(read_by(false, text) == read);
  const auto count = [&](const std::string& words) {
    int found = 0;
    for (std::size_t at = read.find(words); at != std::string::npos; at = read.find(words, at + 1)) ++found;
    return found;
  };
  INFO(read);
  CHECK(count("'Panel_FireEvidence.MaxHeight' is '12e999', not a finite number") == 1);
  CHECK(count("'none'") == 7);
}

}  // namespace
}  // namespace panel_dossier
