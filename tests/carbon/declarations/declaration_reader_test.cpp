// Environmental declarations as files: what is read, and what is refused with its line.
#include "plugins/carbon/declarations/declaration_reader.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>
#include <utility>

#include "plugins/carbon/declarations/ilcd.h"

using namespace panel_dossier;
using namespace panel_dossier::carbon;
namespace fs = std::filesystem;

namespace {

const std::string kXml = R"(<?xml version="1.0" encoding="UTF-8"?>
<p:processDataSet xmlns:p="http://lca.jrc.it/ILCD/Process" xmlns:common="http://lca.jrc.it/ILCD/Common"
    xmlns:epd="http://www.iai.kit.edu/EPD/2013">
  <p:processInformation>
    <p:dataSetInformation><p:name><p:baseName xml:lang="de">Schnittholz</p:baseName>
      <p:baseName xml:lang="en">Sawn timber</p:baseName></p:name></p:dataSetInformation>
    <p:quantitativeReference><p:referenceToReferenceFlow>7</p:referenceToReferenceFlow></p:quantitativeReference>
    <p:time><common:dataSetValidUntil>2029</common:dataSetValidUntil></p:time>
    <p:geography><p:locationOfOperationSupplyOrProduction location="GB"/></p:geography>
  </p:processInformation>
  <p:modellingAndValidation><p:LCIMethodAndAllocation><common:other>
    <epd:subType>specific dataset</epd:subType></common:other></p:LCIMethodAndAllocation></p:modellingAndValidation>
  <p:exchanges>
    <p:exchange dataSetInternalID="7"><p:meanAmount>2</p:meanAmount></p:exchange>
    <p:exchange dataSetInternalID="8">
      <p:referenceToFlowDataSet><common:shortDescription>Use of fresh water (FW)</common:shortDescription>
      </p:referenceToFlowDataSet>
      <common:other><epd:amount epd:module="A1-A3">0.5</epd:amount></common:other>
    </p:exchange>
  </p:exchanges>
  <p:LCIAResults>
    <p:LCIAResult>
      <p:referenceToLCIAMethodDataSet><common:shortDescription xml:lang="en">Global Warming Potential - fossil fuels (GWP-fossil)</common:shortDescription></p:referenceToLCIAMethodDataSet>
      <common:other>
        <epd:amount epd:module="A1–A3">124.5</epd:amount>
        <epd:amount epd:module="C3" epd:scenario="energy">3e0</epd:amount>
        <epd:amount epd:module="B1"/>
        <epd:referenceToUnitGroupDataSet><common:shortDescription>kg CO2 eq.</common:shortDescription>
        </epd:referenceToUnitGroupDataSet>
      </common:other>
    </p:LCIAResult>
  </p:LCIAResults>
</p:processDataSet>
)";

const std::string kFlow = R"(<?xml version="1.0" encoding="UTF-8"?>
<p:flowDataSet xmlns:p="http://lca.jrc.it/ILCD/Flow" xmlns:common="http://lca.jrc.it/ILCD/Common">
  <p:flowInformation><p:quantitativeReference>
    <p:referenceToReferenceFlowProperty>3</p:referenceToReferenceFlowProperty>
  </p:quantitativeReference></p:flowInformation>
  <p:flowProperties>
    <p:flowProperty dataSetInternalID="3">
      <p:referenceToFlowPropertyDataSet type="flow property data set">
        <common:shortDescription xml:lang="en">Volume</common:shortDescription>
      </p:referenceToFlowPropertyDataSet>
      <p:meanValue>1.0</p:meanValue>
    </p:flowProperty>
  </p:flowProperties>
</p:flowDataSet>
)";

const std::string kCsv =
    "# a comment\r\n"
    "field,module,value,unit\r\n"
    "product,,\"Wool, in slabs\",\r\n"
    "declared_unit,,1,m2\r\n"
    "thickness,,100,mm\r\n"
    "density,,40,kg/m3\r\n"
    "valid_until,,2030-01-31,\r\n"
    "kind,,generic,\r\n"
    "GWP-fossil,A1-A3,4.5,kg CO2e\r\n"
    "AP,A1-A3,0.02,mol H+ eq.\r\n";

std::string replaced(std::string text, const std::string& old, const std::string& with) {
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), with);
}

DeclarationResult from_xml(const std::string& text) {
  return read_declaration_xml(text, "evidence/epd.xml", "EPD-1");
}

DeclarationResult from_csv(const std::string& text) {
  return read_declaration_csv(text, "evidence/epd.csv", "EPD-1");
}

/// A file of the test's own, taken away again.
struct OwnFile {
  std::filesystem::path path = std::filesystem::temp_directory_path() / "panel-dossier-declaration.xml";

  explicit OwnFile(const std::string& bytes) { std::ofstream(path, std::ios::binary) << bytes; }
  OwnFile(const OwnFile&) = delete;
  OwnFile& operator=(const OwnFile&) = delete;
  ~OwnFile() { std::filesystem::remove(path); }
};

}  // namespace

TEST_CASE("an ILCD+EPD data set gives facts and figures with their lines") {
  const auto result = from_xml(kXml);
  INFO(result.fault.message);
  REQUIRE(result.declaration);
  const Declaration& epd = *result.declaration;
  CHECK(epd.product->value == "Sawn timber");
  CHECK(epd.valid_until->value == "2029");
  CHECK(epd.geography->value == "GB");
  CHECK(epd.kind->value == "specific dataset");
  CHECK(epd.amount->value == 2.0);
  CHECK_FALSE(epd.unit);
  REQUIRE(epd.values.size() == 3);
  CHECK(epd.values[0].indicator == "FW");
  CHECK(epd.values[1].indicator == "GWP-fossil");
  CHECK(epd.values[1].module == "A1-A3");
  CHECK(epd.values[1].unit == "kg CO2 eq.");
  CHECK(epd.values[1].value.value == 124.5);
  CHECK(describe(epd.values[1].value.origin) == "evidence/epd.xml, row 'line 25' (environmental declaration EPD-1)");
  CHECK(epd.values[2].scenario == "energy");
}

TEST_CASE("texts and numbers of a data set may stand in CDATA, with remarks between") {
  const auto result = from_xml(replaced(replaced(kXml, ">Sawn timber<", "><![CDATA[Sawn]]><!-- once --> timber<"),
                                        ">124.5<", "><![CDATA[124.5]]><"));
  INFO(result.fault.message);
  REQUIRE(result.declaration);
  CHECK(result.declaration->product->value == "Sawn timber");
  CHECK(result.declaration->values[1].value.value == 124.5);
}

TEST_CASE("a CSV gives the same facts, in SI") {
  const auto result = from_csv(kCsv);
  INFO(result.fault.message);
  REQUIRE(result.declaration);
  const Declaration& epd = *result.declaration;
  CHECK(epd.product->value == "Wool, in slabs");
  CHECK(epd.unit->value == "m2");
  CHECK(epd.amount->value == 1.0);
  CHECK(epd.thickness_m->value == Approx(0.1));
  CHECK(epd.density_kg_per_m3->value == 40.0);
  REQUIRE(epd.values.size() == 2);
  CHECK(epd.values[1].indicator == "AP");
  CHECK(epd.values[1].value.origin.row == "line 10");
}

TEST_CASE("a faulty declaration is refused with the line") {
  struct Case {
    const char* label;
    DeclarationResult result;
    std::uint32_t line;
    const char* message;
  };
  const Case cases[] = {
      {"document type",
       from_xml(replaced(kXml, "<p:processDataSet", "<!DOCTYPE a [<!ENTITY b 'c'>]>\n<p:processDataSet")), 2,
       "the file has a document type declaration (DOCTYPE)"},
      {"another root", from_xml("<flowDataSet/>"), 1, "'flowDataSet' is no ILCD process data set"},
      {"wrong end tag", from_xml(replaced(kXml, "</p:exchanges>", "</p:exchange>")), 20,
       "the file is not well-formed XML"},
      {"comma in a number", from_xml(replaced(kXml, "124.5", "124,5")), 25, "'124,5' is not a number"},
      {"infinite", from_xml(replaced(kXml, "124.5", "inf")), 25, "'inf' is not a number"},
      {"amount of zero", from_xml(replaced(kXml, "<p:meanAmount>2", "<p:meanAmount>0")), 14,
       "the amount of the reference flow is not above 0"},
      {"no indicator", from_xml("<processDataSet/>"), 1, "the data set declares no indicator"},
      {"no header", from_csv("GWP-fossil,A1-A3,1,kg\n"), 1, "the header is not field,module,value,unit"},
      {"too few fields", from_csv(replaced(kCsv, "AP,A1-A3,0.02,", "AP,A1-A3,")), 10, "3 fields instead of 4"},
      {"open quote", from_csv(replaced(kCsv, "slabs\"", "slabs")), 3, "a quoted field is not closed"},
      {"unknown field", from_csv(replaced(kCsv, "density", "heaviness")), 6,
       "no field 'heaviness' without a module is known"},
      {"density of zero", from_csv(replaced(kCsv, "40,kg/m3", "0,kg/m3")), 6, "'0' is not a number above 0"},
      {"unknown unit of thickness", from_csv(replaced(kCsv, "100,mm", "4,inch")), 5, "'inch' is no unit of thickness"},
      {"figure stated twice", from_csv(kCsv + std::string("AP,A1-A3,0.03,mol H+ eq.\n")), 11,
       "'AP' of A1-A3 is stated a second time"},
      {"facts alone", from_csv("field,module,value,unit\nkind,,generic,\n"), 0, "the file declares no indicator"},
  };
  for (const Case& c : cases) {
    INFO(c.label);
    CHECK_FALSE(c.result.declaration);
    CHECK(c.result.fault.line == c.line);
    CHECK(c.result.fault.message == c.message);
    CHECK_FALSE(c.result.fault.advice.empty());
  }
}

TEST_CASE("a declaration that is too large, empty or no UTF-8 is refused") {
  const auto read = [](const std::string& bytes) {
    const OwnFile file(bytes);
    return read_declaration(file.path.parent_path(), file.path.filename().string(), "EPD-1");
  };
  CHECK(read(kXml).declaration);
  CHECK(read(std::string(kLargestDeclaration_bytes + 1, ' ')).fault.message == "the file is larger than 4 MiB");
  CHECK(read(kXml + std::string(kLargestDeclaration_bytes - kXml.size(), ' ')).declaration);
  CHECK(read("").fault.message == "the file is empty");
  CHECK(read(replaced(kXml, "Schnittholz", "Schnitth\xF6lzer")).fault.line == 5);
}

TEST_CASE("the reference property of a flow data set gives the unit, with its line") {
  const auto unit = ilcd::read_flow_unit(kFlow, "flows/1.xml", "EPD-1");
  REQUIRE(unit);
  CHECK(unit->value == "m3");
  CHECK(describe(unit->origin) == "flows/1.xml, row 'line 9' (environmental declaration EPD-1)");
  for (const auto& [name, word] : {std::pair{"Mass", "kg"},
                                   {"Area", "m2"},
                                   {"Length", "m"},
                                   {"Number of pieces", "piece"},
                                   {"Net calorific value", ""}}) {
    INFO(name);
    const auto other =
        ilcd::read_flow_unit(replaced(kFlow, ">Volume<", ">" + std::string(name) + "<"), "f.xml", "EPD-1");
    CHECK((other ? other->value : "") == word);
  }
}

TEST_CASE("a flow data set that is not sound gives no unit") {
  for (const auto& [old, with] : {std::pair{"<p:flowDataSet", "<!DOCTYPE x [<!ENTITY e SYSTEM 'x'>]><p:flowDataSet"},
                                  {"</p:flowDataSet>", ""},
                                  {"dataSetInternalID=\"3\"", "dataSetInternalID=\"4\""},
                                  {"<p:meanValue>1.0<", "<p:meanValue>450<"},
                                  {"<p:meanValue>1.0<", "<p:meanValue>one<"}}) {
    INFO(with);
    CHECK_FALSE(ilcd::read_flow_unit(replaced(kFlow, old, with), "f.xml", "EPD-1"));
  }
  CHECK_FALSE(ilcd::read_flow_unit(kXml, "f.xml", "EPD-1"));
  CHECK_FALSE(ilcd::read_flow_unit("", "f.xml", "EPD-1"));
}

TEST_CASE("the flow data set is read from the project folder alone") {
  const fs::path root = fs::temp_directory_path() / ("declaration-flow-test-" + std::to_string(::getpid()));
  fs::create_directories(root / "project/processes");
  fs::create_directories(root / "project/flows");
  std::ofstream(root / "project/flows/1.xml") << kFlow;
  std::ofstream(root / "project/flows/1.txt") << kFlow;
  std::ofstream(root / "outside.xml") << kFlow;
  fs::create_symlink(root / "outside.xml", root / "project/flows/link.xml");
  const auto unit_by = [&](const std::string& uri) {
    const std::string exchange = "<p:exchange dataSetInternalID=\"7\">";
    std::ofstream(root / "project/processes/1.xml")
        << replaced(kXml, exchange, exchange + "<p:referenceToFlowDataSet uri=\"" + uri + "\"/>");
    const auto result = read_declaration(root / "project", "processes/1.xml", "EPD-1");
    REQUIRE(result.declaration);
    return result.declaration->unit ? result.declaration->unit->value : std::string();
  };
  CHECK(unit_by("../flows/1.xml") == "m3");
  CHECK(unit_by("../flows/1.txt").empty());
  CHECK(unit_by("../flows/2.xml").empty());
  std::ofstream(root / "project/flows/large.xml") << kFlow << std::string(kLargestDeclaration_bytes, ' ');
  CHECK(unit_by("../flows/large.xml").empty());
  CHECK(unit_by((root / "project/flows/1.xml").string()).empty());
  CHECK(unit_by("../flows/link.xml").empty());
  CHECK(unit_by("../../outside.xml").empty());
  CHECK(unit_by((root / "outside.xml").string()).empty());
  CHECK(unit_by("https://example.invalid/flows/1.xml").empty());
  CHECK(unit_by("").empty());
  fs::remove_all(root);
}

TEST_CASE("facts of a table are read in each of their units") {
  const auto facts = [](const std::string& rows) {
    const auto read =
        read_declaration_csv("field,module,value,unit\n" + rows + "GWP-fossil,A1-A3,1,kg CO2e\n", "a.csv", "EPD-1");
    REQUIRE(read.declaration);
    return *read.declaration;
  };
  CHECK(facts("thickness,,0.0125,m\n").thickness_m.value().value == 0.0125);
  CHECK(facts("thickness,,12.5,mm\n").thickness_m.value().value == Approx(0.0125).epsilon(1e-12));
  CHECK(facts("density,,640,kg/m3\n").density_kg_per_m3.value().value == 640.0);
  CHECK(facts("density,,640,kg/m³\n").density_kg_per_m3.value().value == 640.0);
  CHECK(facts("reference_service_life,,50,years\n").reference_service_life.value().value == 50.0);
  CHECK(facts("reference_service_life,,50,a\n").reference_service_life.value().value == 50.0);
}

TEST_CASE("only XML and CSV are read, whatever the case of the ending") {
  CHECK(is_readable_declaration("evidence/a.XML"));
  CHECK(is_readable_declaration("evidence/a.csv"));
  CHECK_FALSE(is_readable_declaration("evidence/a.pdf"));
  CHECK_FALSE(is_readable_declaration("evidence/xml"));
}
