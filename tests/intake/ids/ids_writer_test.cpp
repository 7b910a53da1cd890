// Our own requirements: made of the lists of properties, and held by the sample.
#include "core/intake/ids/ids_writer.h"

#include <catch2/catch.hpp>

#include "tests/intake/ids/ids_test_support.h"

namespace panel_dossier {
namespace {

using namespace ids_test;

const std::filesystem::path kRoot = PANEL_DOSSIER_SOURCE_DIR;

std::string text_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

TEST_CASE("the committed requirements are made of the lists of the program and the plugins", "[ids]") {
  Reporter report("lists");
  std::vector<std::filesystem::path> lists{kRoot / "schemas/model_properties.csv"};
  const auto of_plugins = intake_test::plugin_files("properties.csv");
  lists.insert(lists.end(), of_plugins.begin(), of_plugins.end());
  const auto rows = read_property_lists(load_property_lists(lists, report), report);
  REQUIRE_FALSE(report.has_errors());
  CHECK(text_of(kRoot / "schemas/panel-dossier.ids") == ids_text(rows));
}

TEST_CASE("our requirements are sound, and the sample meets all of them", "[ids]") {
  const std::string ids = text_of(kRoot / "schemas/panel-dossier.ids");
  CHECK(faults_of(ids).empty());
  const IdsReport report = held(ids, text_of(kRoot / "sample_project/health-centre.ifcxml"));
  INFO(ids_report_text(report));
  CHECK(report.holds());
  std::size_t needed = 0;
  for (const IdsSpecificationResult& one : report.specifications) {
    if (one.name.starts_with("Must: ") && one.applicable != 0) ++needed;
  }
  CHECK(needed == 4);  // panels, windows, doors, materials
}

TEST_CASE("a row becomes a requirement with type, words and range", "[ids]") {
  const std::string head = "set,property,title,on,measure,unit,range,usual,need,standard,meaning\n";
  Reporter report("list");
  const auto rows =
      read_property_lists({{"list", head + "Panel_A,Word,Word,panel,IfcLabel,,X|Y,,must,none,\"is <this>\"\n"
                                           "Panel_A,Size,Size,part,IfcLengthMeasure,m,0..10,1..2,useful,none,\n"}},
                          report);
  REQUIRE_FALSE(report.has_errors());
  const std::string text = ids_text(rows);
  CHECK(text.find("<property dataType=\"IFCLABEL\" cardinality=\"required\" instructions=\"Word: is &lt;this") !=
        std::string::npos);
  CHECK(text.find("<xs:enumeration value=\"X\" />") != std::string::npos);
  CHECK(text.find("<xs:maxInclusive value=\"10\" />") != std::string::npos);
  CHECK(text.find("name=\"Must: panels\"") < text.find("name=\"Useful: parts, Panel_A\""));
  CHECK(faults_of(text).empty());
}

}  // namespace
}  // namespace panel_dossier
