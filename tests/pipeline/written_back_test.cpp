// The lists of results that are written into properties of the standard.
#include "core/pipeline/written_back.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <stdexcept>
#include <string>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;

namespace {

const std::filesystem::path kSchemas = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";

std::string fault_of(const std::string& text) {
  const testing::TemporaryFolder folder;
  folder.write("written_back.json", text);
  try {
    read_written_back(folder.path() / "written_back.json");
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return {};
}

const std::string kRow =
    R"({"check": "heat.u", "set": "Pset_WallCommon", "property": "ThermalTransmittance", "meaning": "U"})";

std::vector<CheckDeclaration> checks() {
  CheckDeclaration u{.id = "heat.u", .title = {}, .sentence = {}, .clause = {}, .units = {"W/(m²·K)"}};
  CheckDeclaration total{.id = "heat.total", .title = {}, .sentence = {}, .clause = {}, .units = {"W/(m²·K)"}};
  total.scope = CheckScope::project;
  CheckDeclaration words{.id = "heat.class", .title = {}, .sentence = {}, .clause = {}};
  return {u, total, words};
}

std::string breach_of(const WrittenBack& row) {
  return written_back_breach({row}, checks(), StandardSets(kSchemas));
}

}  // namespace

TEST_CASE("A list of results written back is read whole") {
  const testing::TemporaryFolder folder;
  folder.write("written_back.json",
               "{\"written_back\": [" + kRow + R"(, {"check": "heat.m", "set": "A", "property": "B",
      "meaning": "M", "without_fillings": true}]})");
  const auto rows = read_written_back(folder.path() / "written_back.json");
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].check == "heat.u");
  CHECK(rows[0].property == "ThermalTransmittance");
  CHECK_FALSE(rows[0].without_fillings);
  CHECK(rows[1].without_fillings);
}

TEST_CASE("What is wrong with a list of results written back is told") {
  const auto in_list = [](const std::string& rows) { return "{\"written_back\": [" + rows + "]}"; };
  CHECK(fault_of("{") == "it is not valid JSON");
  CHECK(fault_of("[]") == "it has no list 'written_back'");
  CHECK(fault_of(in_list("")) == "it has no list 'written_back'");
  CHECK(fault_of(in_list("1")) == "a row is no object");
  CHECK(fault_of(in_list(R"({"check": "heat.u"})")) == "a row has no text 'set'");
  CHECK(fault_of(in_list(R"({"check": "heat.u", "set": 1})")) == "a row has no text 'set'");
  CHECK(fault_of(in_list(R"({"check": "heat.u", "set": ""})")) == "a row has no text 'set'");
  CHECK(fault_of(in_list(R"({"unit": "kg"})")) == "a row has the unknown member 'unit'");
  CHECK(fault_of(in_list(kRow + "," + kRow)) == "it names 'heat.u' twice");
  CHECK(fault_of(in_list(R"({"check": "a.b", "set": "A", "property": "B", "meaning": "M", "without_fillings": 1})")) ==
        "'without_fillings' of 'a.b' is no true or false");
}

TEST_CASE("A result is written only into a property that the standard has, in its unit") {
  CHECK(breach_of({"heat.u", "Pset_WallCommon", "ThermalTransmittance", "U"}).empty());
  CHECK(breach_of({"heat.class", "Pset_WallCommon", "FireRating", "class"}).empty());
  const std::string into_u = "'heat.u' into 'Pset_WallCommon.";
  CHECK(breach_of({"heat.u", "Pset_WallCommon", "Transmittance", "U"}) ==
        into_u + "Transmittance': the standard has no such property of an element");
  CHECK(breach_of({"heat.u", "Pset_WallCommon", "FireRating", "U"}) ==
        into_u + "FireRating': the property is in '', the check's result is not");
  CHECK(breach_of({"heat.u", "Pset_WallCommon", "LoadBearing", "U"}) ==
        into_u + "LoadBearing': a value of type 'IfcBoolean' cannot be written");
  CHECK(breach_of({"heat.u", "Qto_WallBaseQuantities", "NetWeight", "U"}) ==
        "'heat.u' into 'Qto_WallBaseQuantities.NetWeight': the property is in 'kg', the check's result is not");
  CHECK(breach_of({"heat.total", "Pset_WallCommon", "ThermalTransmittance", "U"}) ==
        "'heat.total' into 'Pset_WallCommon.ThermalTransmittance': the check makes no findings of panels");
  CHECK(breach_of({"heat.none", "Pset_WallCommon", "ThermalTransmittance", "U"}) ==
        "'heat.none' into 'Pset_WallCommon.ThermalTransmittance': the plugin declares no such check");
}

TEST_CASE("The page of results written back has a row for each") {
  CHECK(written_back_page({}).empty());
  const std::string page = written_back_page({{"Heat", {"heat.m", "Qto_A", "NetWeight", "mass", true}}});
  CHECK_THAT(page, Catch::Matchers::Contains(
                       "| `Qto_A.NetWeight` | `heat.m` | Heat | mass; of panels without windows and doors |\n"));
}
