#include <catch2/catch.hpp>

#include "core/api/testing/temporary_folder.h"
#include "core/intake/graph/property_reader.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using intake_test::all_of;

std::filesystem::path list_of(const testing::TemporaryFolder& folder, const std::string& rows) {
  const std::filesystem::path file = folder.path() / "properties.csv";
  std::ofstream(file) << "# comment\nset,property,on,measure,unit,range,usual,meaning\n" << rows;
  return file;
}

TEST_CASE("a value may stand for a property of the same unit, or bring the unit that a plain number lacks",
          "[intake]") {
  const testing::TemporaryFolder folder;
  Reporter report("hall.ifcxml");
  const ExpectedMeasures expected(
      load_property_lists({list_of(folder,
                                   "Panel_X,Length,panel,IfcPositiveLengthMeasure,m,0..9,1..2,\n"
                                   "Panel_X,Strength,panel,IfcReal,Pa,0..9,1..2,\n"
                                   "Panel_X,Count,panel,IfcInteger,,0..9,1..2,\n"
                                   "Panel_X,Name,panel,IfcLabel,,,,\n"
                                   "Panel_X,Life,panel,IfcDuration,s,0..9,1..2,\n"
                                   "Qto_X,Length,panel,IfcQuantityLength,m,0..9,1..2,\n")},
                          report),
      report);
  const auto breach = [&](const char* property, const char* type) {
    return expected.breach(std::string("Panel_X.") + property, *find_measure(type));
  };
  CHECK_FALSE(breach("Length", "IfcLengthMeasure"));
  CHECK(breach("Length", "IfcReal") == "IfcPositiveLengthMeasure");
  CHECK(breach("Length", "IfcAreaMeasure") == "IfcPositiveLengthMeasure");
  CHECK_FALSE(breach("Strength", "IfcReal"));
  CHECK_FALSE(breach("Strength", "IfcPressureMeasure"));
  CHECK(breach("Strength", "IfcForceMeasure") == "IfcReal in Pa");
  CHECK_FALSE(breach("Count", "IfcReal"));
  CHECK(breach("Count", "IfcLabel") == "IfcInteger");
  CHECK_FALSE(breach("Name", "IfcIdentifier"));
  CHECK_FALSE(breach("Life", "IfcDuration"));
  CHECK_FALSE(breach("Life", "IfcTimeMeasure"));
  CHECK(breach("Life", "IfcText") == "IfcDuration");
  CHECK(breach("Life", "IfcReal") == "IfcDuration");
  CHECK(breach("Name", "IfcBoolean") == "IfcLabel");
  CHECK_FALSE(breach("Unknown", "IfcReal"));
  CHECK_FALSE(report.has_errors());
}

TEST_CASE("a list of properties that is absent or names no measure is an error with its place", "[intake]") {
  const testing::TemporaryFolder folder;
  Reporter report("hall.ifcxml");
  const ExpectedMeasures absent(load_property_lists({folder.path() / "none.csv"}, report), report);
  const ExpectedMeasures faulty(
      load_property_lists({list_of(folder, "Panel_X,Length,panel,IfcCubit,m,0..9,1..2,\nPanel_X\n")}, report), report);
  const std::string all = all_of(report.take());
  CHECK(all.find("none.csv' cannot be read") != std::string::npos);
  CHECK(all.find("properties.csv:3' names 'IfcCubit', which is no measure") != std::string::npos);
  CHECK(all.find("properties.csv:4' has not the fields") != std::string::npos);
}

TEST_CASE("a list of a plugin counts beside that of the program", "[intake]") {
  const testing::TemporaryFolder folder;
  const std::filesystem::path own = folder.path() / "own.csv";
  std::ofstream(own)
      << "set,property,on,measure,unit,range,usual,meaning\nPanel_Y,Weight,panel,IfcMassMeasure,kg,0..9,1..2,\n";
  Reporter report("hall.ifcxml");
  const ExpectedMeasures expected(
      load_property_lists({list_of(folder, "Panel_X,Name,panel,IfcLabel,,,,\n"), own}, report), report);
  CHECK(expected.breach("Panel_Y.Weight", *find_measure("IfcReal")) == "IfcMassMeasure");
  CHECK(expected.breach("Panel_X.Name", *find_measure("IfcReal")) == "IfcLabel");
  CHECK_FALSE(report.has_errors());
}

}  // namespace
}  // namespace panel_dossier
