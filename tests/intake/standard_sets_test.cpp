// The table of the standard's property sets, beside the measures that the intake knows.
#include "core/intake/graph/standard_sets.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

#include "core/api/support/words.h"
#include "core/api/testing/temporary_folder.h"
#include "core/intake/graph/property_reader.h"

using namespace panel_dossier;

namespace {

const std::filesystem::path kSchemaFolder = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";

}  // namespace

TEST_CASE("Every property of the standard's sets has a known type, and the unit of that type") {
  const StandardSets standard(kSchemaFolder);
  std::ifstream stream(kSchemaFolder / "ifc/property_sets.csv");
  std::string line;
  std::getline(stream, line);
  std::size_t count = 0;
  while (std::getline(stream, line)) {
    INFO(line);
    const auto row = csv_fields(line);
    REQUIRE(row);
    const StandardProperty* property = standard.find(row->at(0), row->at(2));
    REQUIRE(property != nullptr);
    const QuantityForm* quantity = find_quantity(property->type);
    const Measure* measure = find_measure(quantity != nullptr ? quantity->measure : property->type);
    REQUIRE(measure != nullptr);
    // What a mass or volume is of stands behind its unit.
    CHECK(property->unit.substr(0, property->unit.find(' ')) == measure->symbol);
    ++count;
  }
  CHECK(count > 100);
}

TEST_CASE("A property is for its entity, the subtypes of a wall and, of elements, for all") {
  const StandardSets standard(kSchemaFolder);
  const StandardProperty* of_walls = standard.find("Pset_WallCommon", "ThermalTransmittance");
  const StandardProperty* of_elements = standard.find("Pset_EnvironmentalImpactValues", "ClimateChange");
  REQUIRE(of_walls != nullptr);
  REQUIRE(of_elements != nullptr);
  CHECK(of_elements->unit == "kg CO2e");
  CHECK(is_for(*of_walls, "IfcWall"));
  CHECK(is_for(*of_walls, "IfcWallStandardCase"));
  CHECK_FALSE(is_for(*of_walls, "IfcElementAssembly"));
  CHECK(is_for(*of_elements, "IfcElementAssembly"));
  CHECK(standard.find("Pset_WallCommon", "Colour") == nullptr);
}

TEST_CASE("A table of standard sets that is absent or has a short row is told") {
  const testing::TemporaryFolder folder;
  CHECK_THROWS_WITH(StandardSets(folder.path()), Catch::Matchers::Contains("property_sets.csv'; give the folder"));
  folder.write("ifc/property_sets.csv", "set,on,property,type,unit\nPset_A,IfcWall,B,IfcReal\n");
  CHECK_THROWS_WITH(StandardSets(folder.path()), Catch::Matchers::Contains("not of 5 fields"));
}
