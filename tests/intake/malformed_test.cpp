// Every fault that an export may have: one row a fault, made by one edit of a sound file, with the exact message.
#include <catch2/catch.hpp>
#include <functional>
#include <vector>

#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using intake_test::all_of;
using intake_test::edited;
using intake_test::file_text;
using intake_test::read_text;

/// One edit: the first `from` after `anchor` becomes `to`.
struct Fault {
  const char* label;
  const char* anchor;
  const char* from;
  const char* to;
  Severity severity;
  const char* entity;
  const char* message;
};

const Fault kFaults[] = {
    {"malformed GlobalId", "xsi:type=\"IfcWindow\"", "GlobalId=\"", "GlobalId=\"x", Severity::error, "IfcWindow",
     "GlobalId 'x05kCTClPRxyjvC6ZKd0llq' is malformed"},
    {"missing GlobalId", "xsi:type=\"IfcWindow\"", "GlobalId=", "Unknown=", Severity::error, "IfcWindow",
     "breaks the schema: the attribute 'GlobalId' is required but missing"},
    {"dangling reference", "<PlacementRelTo", "ref=\"", "ref=\"none-", Severity::error, "IfcLocalPlacement",
     "ref 'none-i22' points to no entity of this file"},
    {"length that is not a number", "Name=\"Stud 1\"", "Depth=\"2610.\"", "Depth=\"NaN\"", Severity::error,
     "IfcExtrudedAreaSolid", "Depth 'NaN' is not a finite number"},
    {"infinite length", "Name=\"Stud 1\"", "Depth=\"2610.\"", "Depth=\"INF\"", Severity::error, "IfcExtrudedAreaSolid",
     "Depth 'INF' is not a finite number"},
    {"decimal comma", "Name=\"Stud 1\"", "Depth=\"2610.\"", "Depth=\"2,61\"", Severity::error, "IfcExtrudedAreaSolid",
     "Depth '2,61' is not a finite number"},
    {"number out of range", "Name=\"Stud 1\"", "Depth=\"2610.\"", "Depth=\"1e999\"", Severity::error,
     "IfcExtrudedAreaSolid", "Depth '1e999' is not a finite number"},
    {"negative length", "Name=\"Stud 1\"", "Depth=\"2610.\"", "Depth=\"-2610.\"", Severity::error,
     "IfcExtrudedAreaSolid", "Depth is not greater than zero"},
    {"length of zero", "Name=\"Stud 1\"", "Depth=\"2610.\"", "Depth=\"0.\"", Severity::error, "IfcExtrudedAreaSolid",
     "Depth is not greater than zero"},
    {"missing length", "Name=\"Stud 1\"", "Depth=\"2610.\"", "", Severity::error, "IfcExtrudedAreaSolid",
     "has no Depth"},
    {"profile without width", "Name=\"Stud 1\"", "XDim=\"45.\"", "XDim=\"0.\"", Severity::error,
     "IfcRectangleProfileDef", "XDim is not greater than zero"},
    {"direction without length", "<IfcBuildingStorey", "DirectionRatios=\"0. 0. 1.\"", "DirectionRatios=\"0. 0. 0.\"",
     Severity::error, "IfcDirection", "DirectionRatios give no direction"},
    {"point of four coordinates", "Name=\"Stud 1\"", "Coordinates=\"0. 12.5 45.\"", "Coordinates=\"0. 12.5 45. 1.\"",
     Severity::error, "IfcCartesianPoint", "a point has 4 Coordinates"},
    {"millimetres taken as metres", "UnitType=\"lengthunit\"", "Prefix=\"milli\" ", "", Severity::error, "IfcWall",
     "the panel is 2400 m wide, not between 0.05 m and 60 m"},
    {"unknown unit", "UnitType=\"lengthunit\"", "Name=\"metre\"", "Name=\"cubit\"", Severity::error, "IfcSIUnit",
     "unknown unit 'MILLI CUBIT'"},
    {"unknown prefix", "UnitType=\"lengthunit\"", "Prefix=\"milli\"", "Prefix=\"tiny\"", Severity::error, "IfcSIUnit",
     "unknown unit 'TINY METRE'"},
    {"unit of another kind", "UnitType=\"lengthunit\"", "Name=\"metre\"", "Name=\"second\"", Severity::error,
     "IfcSIUnit", "unit 'SECOND' is no LENGTHUNIT"},
    {"part far outside its panel", "Name=\"Stud 1\"", "Coordinates=\"0. 12.5 45.\"", "Coordinates=\"9000. 12.5 45.\"",
     Severity::error, "IfcMember",
     "the part lies outside its panel 'P-01': 'Qto_WallBaseQuantities.Length' is 2.4 m and its parts measure 9.045 m"},
    {"opening outside its panel", "Name=\"Window opening\"", "Coordinates=\"300. 0. 900.\"",
     "Coordinates=\"2300. 0. 900.\"", Severity::error, "IfcOpeningElement",
     "the opening lies outside its panel 'P-01'"},
    {"negative layer", "LayerThickness=\"140.\"", "140.", "-140.", Severity::error, "IfcMaterialLayer",
     "LayerThickness is negative"},
    {"face neither inside nor outside", "FirstLayerFace", "OUTSIDE", "NORTH", Severity::error, "IfcWall",
     "Panel_Construction.FirstLayerFace is 'NORTH'"},
    {"logical that is neither", "Name=\"IsExternal\"", ">true<", ">yes<", Severity::error, "IfcBoolean-wrapper",
     "breaks the schema: the value 'yes' is not accepted"},
    {"count below one", "CountValue=\"120.\"", "120.", "-3.", Severity::error, "IfcMechanicalFastener",
     "quantity Count is not a whole number from 1"},
    {"second project", "</ifcXML>", "</ifcXML>",
     "<IfcProject GlobalId=\"0YvctVUKr0kugbFTf53O9L\" Name=\"Other\"/></ifcXML>", Severity::error, "IfcProject",
     "the file has a second IfcProject; the first is at line 7"},
    {"id used twice", "</ifcXML>", "</ifcXML>", "<IfcDirection id=\"i1\" DirectionRatios=\"1. 0.\"/></ifcXML>",
     Severity::error, "IfcDirection", "id 'i1' is used twice, first at line 20"},
    {"density without its unit", "Name=\"MassDensity\"",
     "<IfcMassDensityMeasure-wrapper>420.</IfcMassDensityMeasure-wrapper>", "<IfcReal-wrapper>0.42</IfcReal-wrapper>",
     Severity::warning, "IfcPropertySingleValue",
     "'Pset_MaterialCommon.MassDensity' has a value of type 'IfcReal' and is not read"},
    {"evidence not there", "evidence/fire-test.txt", "fire-test", "none", Severity::warning, "IfcDocumentReference",
     "evidence 'evidence/none.txt' is not there; listed as missing"},
    {"evidence above the folder", "evidence/fire-test.txt", "evidence/", "../", Severity::warning,
     "IfcDocumentReference", "evidence '../fire-test.txt' is not inside the project folder; not followed"},
    {"evidence at an absolute path", "evidence/fire-test.txt", "evidence/", "/etc/", Severity::warning,
     "IfcDocumentReference", "evidence '/etc/fire-test.txt' is not inside the project folder; not followed"},
};

TEST_CASE("each fault is reported with its line, its entity and what is wrong", "[intake]") {
  const std::string sound = file_text("hall-ifc4-nested.ifcxml");
  for (const Fault& fault : kFaults) {
    DYNAMIC_SECTION(fault.label) {
      const IntakeResult result = read_text(edited(sound, fault.anchor, fault.from, fault.to));
      INFO(all_of(result.diagnostics));
      const auto found = std::find_if(result.diagnostics.begin(), result.diagnostics.end(),
                                      [&](const Diagnostic& d) { return d.message == fault.message; });
      REQUIRE(found != result.diagnostics.end());
      CHECK(found->severity == fault.severity);
      CHECK(found->entity == fault.entity);
      CHECK(found->file == "hall.ifcxml");
      CHECK_FALSE(found->advice.empty());
      CHECK(result.project.has_value() == (fault.severity == Severity::warning));
      if (found->entity != std::string()) CHECK(found->line > 0);
    }
  }
}

Diagnostic only_error(const IntakeResult& result) {
  INFO(all_of(result.diagnostics));
  REQUIRE(result.diagnostics.size() == 1);
  CHECK(result.diagnostics.front().severity == Severity::error);
  CHECK_FALSE(result.project.has_value());
  return result.diagnostics.front();
}

TEST_CASE("a file that is no export at all is refused with one plain error", "[intake]") {
  CHECK(only_error(read_text("")).message == "the file is empty");
  CHECK(only_error(read_text(" \n")).message == "the file is empty");
  CHECK(only_error(read_text("{\"a\": 1}")).message ==
        "the file is neither ifcXML nor a STEP file, whatever its name says");
  CHECK(only_error(read_text("\xFF\xFE<\0")).message == "the file is not valid UTF-16LE from this line on");
  CHECK(only_error(read_text("<a>caf\xE9</a>")).message == "the file is not valid UTF-8 from this byte on");
  CHECK(only_error(read_text("<?xml version='1.0' encoding='ISO-2022-JP'?><a/>")).message ==
        "the file declares the encoding 'ISO-2022-JP'");
  CHECK(only_error(read_text("<html xmlns='http://www.w3.org/1999/xhtml'/>")).message ==
        "'html' in namespace 'http://www.w3.org/1999/xhtml' is no ifcXML of IFC2x3, IFC4 or IFC4X3");
}

TEST_CASE("a truncated file is refused at the line where it breaks off", "[intake]") {
  const std::string sound = file_text("hall-ifc4-nested.ifcxml");
  const Diagnostic error = only_error(read_text(sound.substr(0, sound.size() / 2)));
  CHECK(error.message.find("the file is not well-formed XML") == 0);
  CHECK(error.line > 300);
}

TEST_CASE("a document type declaration is refused before any entity is looked at", "[intake]") {
  const std::string text = edited(file_text("hall-ifc4-nested.ifcxml"), "<ifcXML", "<ifcXML",
                                  "<!DOCTYPE ifcXML [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>\n<ifcXML");
  const Diagnostic error = only_error(read_text(text));
  CHECK(error.message == "the file has a document type declaration (DOCTYPE)");
  CHECK(error.line == 2);
}

TEST_CASE("nesting 100,000 deep is refused without running out of stack", "[intake]") {
  std::string text = "<ifcXML xmlns=\"http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2\">";
  for (int i = 0; i < 100'000; ++i) text += "<a>";
  for (int i = 0; i < 100'000; ++i) text += "</a>";
  CHECK(only_error(read_text(text + "</ifcXML>")).message == "elements are nested more than 200 deep");
}

TEST_CASE("a placement that leads back to itself is an error at the placement", "[intake]") {
  std::string text = file_text("hall-ifc4-nested.ifcxml");
  const std::size_t placement = text.find("<ObjectPlacement", text.find("<IfcSite"));
  const std::size_t id = text.find("id=\"", placement) + 4;
  const std::string name = text.substr(id, text.find('"', id) - id);
  text.insert(text.find('>', placement) + 1,
              "<PlacementRelTo xsi:type=\"IfcLocalPlacement\" xsi:nil=\"true\" ref=\"" + name + "\"/>");
  CHECK(only_error(read_text(text)).message == "PlacementRelTo leads back to itself");
}

TEST_CASE("a panel that is a part of its own part is an error", "[intake]") {
  std::string text = file_text("hall-ifc4-nested.ifcxml");
  const auto id_of = [&](const std::string& entity) {
    const std::size_t at = text.find("id=\"", text.find("<" + entity + " ")) + 4;
    return text.substr(at, text.find('"', at) - at);
  };
  text.insert(text.find("</ifcXML>"),
              "<IfcRelAggregates GlobalId=\"0YvctVUKr0kugbFTf53O9L\"><RelatingObject xsi:type=\"IfcMember\" "
              "xsi:nil=\"true\" ref=\"" +
                  id_of("IfcMember") + "\"/><RelatedObjects><IfcWall xsi:nil=\"true\" ref=\"" + id_of("IfcWall") +
                  "\"/></RelatedObjects></IfcRelAggregates>");
  CHECK(only_error(read_text(text)).message == "is, through what it is a part of, inside itself");
}

TEST_CASE("two openings over one another are an error that names both", "[intake]") {
  std::string text = file_text("hall-ifc4-nested.ifcxml");
  const std::string closing = "</IfcRelVoidsElement>";
  const std::size_t start = text.find("<IfcRelVoidsElement");
  const std::size_t end = text.find(closing, start) + closing.size();
  std::string second = text.substr(start, end - start);
  for (std::size_t at = second.find(" id=\""); at != std::string::npos; at = second.find(" id=\"", at + 5)) {
    second.insert(at + 5, "second-");
  }
  for (std::size_t at = second.find("GlobalId=\""); at != std::string::npos; at = second.find("GlobalId=\"", at + 1)) {
    char& last = second[at + 31];
    last = last == '0' ? '1' : '0';
  }
  text.insert(end, second);
  const Diagnostic error = only_error(read_text(text));
  CHECK(error.entity == "IfcOpeningElement");
  CHECK(error.message.find("the opening overlaps opening '") == 0);
}

TEST_CASE("a GlobalId used twice is an error that names the first use", "[intake]") {
  std::string text = file_text("hall-ifc4-nested.ifcxml");
  const auto global_id_at = [&](const std::string& name) {
    return text.rfind("GlobalId=\"", text.find("Name=\"" + name + "\"")) + 10;
  };
  text.replace(global_id_at("Stud 2"), 22, text.substr(global_id_at("Stud 1"), 22));
  const Diagnostic error = only_error(read_text(text));
  CHECK(error.message.find("GlobalId is already that of IfcMember at line ") == 0);
}

TEST_CASE("an export without panels or without a project is an error", "[intake]") {
  std::string text = file_text("hall-ifc4-nested.ifcxml");
  for (std::size_t at = text.find("IfcWall "); at != std::string::npos; at = text.find("IfcWall ", at)) {
    text.replace(at, 8, "IfcSlab ");
  }
  for (std::size_t at = text.find("/IfcWall>"); at != std::string::npos; at = text.find("/IfcWall>", at)) {
    text.replace(at, 9, "/IfcSlab>");
  }
  CHECK(only_error(read_text(text)).message == "the project has no panels");
  CHECK(only_error(read_text("<ifcXML xmlns=\"http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2\"/>")).message ==
        "the file has no IfcProject");
}

TEST_CASE("all problems of a file are reported in one run, in file order", "[intake]") {
  std::string text = file_text("hall-ifc4-nested.ifcxml");
  text = edited(text, "Name=\"Stud 1\"", "Depth=\"2610.\"", "Depth=\"NaN\"");
  text = edited(text, "Name=\"Stud 2\"", "Depth=\"2610.\"", "Depth=\"-1.\"");
  text = edited(text, "LayerThickness=\"140.\"", "140.", "-140.");
  const IntakeResult result = read_text(text);
  std::vector<std::string> errors;
  std::uint32_t line = 0;
  for (const Diagnostic& diagnostic : result.diagnostics) {
    CHECK(diagnostic.line >= line);
    line = diagnostic.line;
    if (diagnostic.severity == Severity::error) errors.push_back(diagnostic.message);
  }
  CHECK(errors == std::vector<std::string>{"Depth 'NaN' is not a finite number", "Depth is not greater than zero",
                                           "LayerThickness is negative"});
}

TEST_CASE("a folder and a missing file are refused by name", "[intake]") {
  const IntakeOptions options = intake_test::options();
  CHECK(only_error(read_export(intake_test::kData, options)).message == "this is a folder, not a file");
  CHECK(only_error(read_export(intake_test::kData / "none.ifcxml", options)).message == "there is no such file");
}

}  // namespace
}  // namespace panel_dossier
