// The tables of the standard's schemas: what they must hold for the entities of a wall's export.
#include "core/intake/step/step_schema.h"

#include <catch2/catch.hpp>

#include "core/api/testing/temporary_folder.h"

namespace panel_dossier {
namespace {

const std::filesystem::path kSchemas = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";

std::size_t arguments(Generation generation, const char* upper_case) {
  const StepSchema& schema = step_schema(kSchemas, generation);
  const std::uint16_t found = schema.find_entity(upper_case);
  return found == kNoStepEntity ? 0 : schema.entity(found).argument_count;
}

TEST_CASE("entities have the arguments of their generation", "[intake]") {
  CHECK(arguments(Generation::ifc2x3, "IFCWALL") == 8);
  CHECK(arguments(Generation::ifc4, "IFCWALL") == 9);
  CHECK(arguments(Generation::ifc4x3, "IFCWALL") == 9);
  CHECK(arguments(Generation::ifc2x3, "IFCMATERIAL") == 1);
  CHECK(arguments(Generation::ifc4, "IFCMATERIAL") == 3);
  CHECK(arguments(Generation::ifc2x3, "IFCWALLELEMENTEDCASE") == 0);
  CHECK(arguments(Generation::ifc4, "IFCWALLELEMENTEDCASE") == 9);
  CHECK(arguments(Generation::ifc2x3, "IFCELEMENTASSEMBLYTYPE") == 0);
  CHECK(arguments(Generation::ifc4, "IFCCARTESIANPOINTLIST2D") == 1);
  CHECK(arguments(Generation::ifc4x3, "IFCCARTESIANPOINTLIST2D") == 2);
}

TEST_CASE("attributes stand in the order of the arguments with the form of their values", "[intake]") {
  const StepSchema& schema = step_schema(kSchemas, Generation::ifc4);
  const StepEntity& bounded = schema.entity(schema.find_entity("IFCPROPERTYBOUNDEDVALUE"));
  REQUIRE(bounded.attributes.size() == 6);
  CHECK(bounded.attributes[2].name == "UpperBoundValue");
  CHECK(bounded.attributes[3].name == "LowerBoundValue");
  CHECK(bounded.attributes[2].type.kind == StepKind::select);
  const StepEntity& unit = schema.entity(schema.find_entity("IFCSIUNIT"));
  CHECK(unit.attributes[0].presence == StepPresence::derived);
  CHECK(unit.attributes[3].type.kind == StepKind::enumeration);
  CHECK(unit.attributes[3].presence == StepPresence::required);
  const StepEntity& list = schema.entity(schema.find_entity("IFCCARTESIANPOINTLIST3D"));
  CHECK(list.attributes[0].type.kind == StepKind::real);
  CHECK(list.attributes[0].type.levels == 2);
  CHECK(schema.find_type("IFCPROPERTYSETDEFINITIONSET")->type.levels == 1);
  CHECK(schema.find_type("IFCPOSITIVELENGTHMEASURE")->type.kind == StepKind::real);
  CHECK(schema.find_type("IFCFOO") == nullptr);
  const std::uint16_t wall = schema.find_entity("IFCWALLSTANDARDCASE");
  CHECK(schema.is_a(wall, schema.find_entity("IFCPRODUCT")));
  CHECK_FALSE(schema.is_a(wall, schema.find_entity("IFCSLAB")));
  CHECK(schema.entity(wall).is_rooted);
}

TEST_CASE("FILE_SCHEMA names a published schema, and drafts are none", "[intake]") {
  CHECK(generation_of_schema_name("IFC2X3") == Generation::ifc2x3);
  CHECK(generation_of_schema_name("ifc4") == Generation::ifc4);
  CHECK(generation_of_schema_name("IFC4X3_ADD2") == Generation::ifc4x3);
  CHECK(generation_of_schema_name("IFC4X1") == Generation::unknown);
  CHECK(generation_of_schema_name("IFC4X3_RC4") == Generation::unknown);
  CHECK(generation_of_schema_name("") == Generation::unknown);
}

TEST_CASE("a table that is not there or not whole is named", "[intake]") {
  const testing::TemporaryFolder folder;
  CHECK_THROWS_WITH(StepSchema(folder.path(), Generation::ifc4), Catch::Matchers::Contains("enumerations.csv"));
  std::filesystem::copy(kSchemas / "ifc", folder.path() / "ifc", std::filesystem::copy_options::recursive);
  CHECK_NOTHROW(StepSchema(folder.path(), Generation::ifc4));
  std::filesystem::resize_file(folder.path() / "ifc/attributes.csv", 300'000);
  CHECK_THROWS_WITH(StepSchema(folder.path(), Generation::ifc4x3), Catch::Matchers::Contains("attributes.csv"));
}

}  // namespace
}  // namespace panel_dossier
