// The STEP form as the standard has it and as exporters write it: what makes no difference, what is remarked, what is
// refused, each made by one edit of a sound file.
#include <catch2/catch.hpp>

#include "tests/intake/project_text.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using intake_test::all_of;
using intake_test::describe;
using intake_test::edited;
using intake_test::file_text;
using intake_test::read_text;

std::string sound() {
  return file_text("hall-ifc4.ifc");
}

/// One edit: the first `from` after `anchor` becomes `to`.
struct StepEdit {
  const char* label;
  const char* anchor;
  const char* from;
  const char* to;
};

const StepEdit kNoDifference[] = {
    {"blanks and line ends between all tokens", "#1=", "#1=IFCSIUNIT(*,.LENGTHUNIT.,.MILLI.,.METRE.);",
     "#1 =\r\n\tIFCSIUNIT\f( * , .LENGTHUNIT.\n, .MILLI. , .METRE. )\n;"},
    {"comments between all tokens", "#1=", "#1=IFCSIUNIT(*,.LENGTHUNIT.,.MILLI.,.METRE.);",
     "/* ; ' ( */#1/**/=/* \n * ; */IFCSIUNIT/*'*/(*/*,*/,.LENGTHUNIT./**/,.MILLI.,.METRE./*)*/)/**/;"},
    {"a comment before the first token", "ISO-10303-21;", "ISO-10303-21;", "/* exported */ ISO-10303-21;"},
    {"keywords in small letters", "#1=", "IFCSIUNIT(*,.LENGTHUNIT.,.MILLI.", "ifcsiunit(*,.lengthunit.,.milli."},
    {"leading zeros of a reference", "=IFCPROJECT", "(#18)", "(#0018)"},
    {"two DATA sections", "#41=IFCWALL", "#41=", "ENDSEC;\nDATA;\n#41="},
    {"a named DATA section", "DATA;", "DATA;", "DATA('hall',('IFC4'));"},
    {"absent fields of the header", "FILE_NAME", "(''),(''),'','',''", "$,(''),$,'',$"},
    {"the object identifier of the schema", "FILE_SCHEMA", "'IFC4'", "'IFC4 {1 0 10303}'"},
    {"a set of property sets", "=IFCRELDEFINESBYPROPERTIES", "(#170),#234",
     "(#170),IFCPROPERTYSETDEFINITIONSET((#234))"},
    {"an exponent", "Two storey hall", "#18=IFCGEOMETRICREPRESENTATIONCONTEXT($,'Model',3,0.00001,",
     "#18=IFCGEOMETRICREPRESENTATIONCONTEXT($,'Model',3,1.E-5,"},
};

TEST_CASE("ways of writing that the standard leaves free give the same model", "[intake]") {
  const IntakeResult plain = read_text(sound());
  REQUIRE(plain.project);
  for (const StepEdit& edit : kNoDifference) {
    DYNAMIC_SECTION(edit.label) {
      const IntakeResult result = read_text(edited(sound(), edit.anchor, edit.from, edit.to));
      CHECK(all_of(result.diagnostics) == "");
      REQUIRE(result.project);
      CHECK(describe(*result.project) == describe(*plain.project));
    }
  }
}

TEST_CASE("what stands behind the end and a second schema are remarked", "[intake]") {
  const IntakeResult behind = read_text(sound() + "\n" + sound());
  CHECK(behind.project);
  CHECK(all_of(behind.diagnostics).find("bytes behind 'END-ISO-10303-21;' are not read") != std::string::npos);
  const IntakeResult second = read_text(edited(sound(), "FILE_SCHEMA", "'IFC4'", "'IFC4','IFC2X3'"));
  CHECK(second.project);
  CHECK(all_of(second.diagnostics).find("FILE_SCHEMA names 'IFC4', which is used, and 'IFC2X3', which is not") !=
        std::string::npos);
}

std::string with_all(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

TEST_CASE("numbers of instances have gaps and may exceed 32 bits", "[intake]") {
  std::string text = sound();
  for (const std::string end : {"=", ",", ")"}) text = with_all(text, "#18" + end, "#18446744073709551615" + end);
  const IntakeResult result = read_text(text);
  CHECK(all_of(result.diagnostics) == "");
  REQUIRE(result.project);
  CHECK(describe(*result.project) == describe(*read_text(sound()).project));
}

struct StepRemarkCase {
  StepEdit edit;
  const char* message;
};

const StepRemarkCase kRemarked[] = {
    {{"byte order mark", "ISO", "ISO-10303-21;", "\xEF\xBB\xBFISO-10303-21;"},
     "the file begins with a byte order mark, which a STEP file does not have"},
    {{"anchors of edition 3", "DATA;", "DATA;", "ANCHOR;\n<door>=#19;\nENDSEC;\nDATA;"},
     "the section ANCHOR is not read"},
    {{"an instance of several entities", "DATA;", "DATA;", "DATA;\n#9001=(IFCA(1,$)IFCB('x'));"},
     "1 times from here on: instances are of several entities or of one that is no part of the standard"},
    {{"an entity of the user's own", "DATA;", "DATA;", "DATA;\n#9001=!MYTHING('x',(1,2));"},
     "1 times from here on: instances are of several entities or of one that is no part of the standard"},
    {{"an integer where a real is due", "=IFCPROJECT", "0.00001", "1"},
     "1 times from here on: numbers with a point are due where integers stand"},
    {{"a star for an absent value", "=IFCWALL(", "'P-01',$)", "'P-01',*)"},
     "1 times from here on: absent values are written '*' instead of '$'"},
    {{"a type where none is due", "=IFCWALL(", "'P-01'", "IFCIDENTIFIER('P-01')"},
     "1 times from here on: values are written with a type where the schema wants them bare"},
    {{"a path with single backslashes", "=IFCWALL(", "'Panel of axis A',$", "'Panel of axis A','C:\\Temp'"},
     "1 times from here on: backslashes in strings begin no directive of the standard"},
    {{"bytes beyond ASCII", "=IFCWALL(", "'Panel of axis A',$", "'Panel of axis A','D\xC3\xA4mmung'"},
     "strings hold bytes above 126; they are read as UTF-8"},
    {{"an abstract entity", "DATA;", "DATA;", "DATA;\n#9001=IFCRELATIONSHIP('0YvctVUKr0kugbFTf53O9L',$,$,$);"},
     "breaks the schema: is abstract: no instance can be of it"},
    {{"an entity that is not read and too short", "DATA;", "DATA;",
      "DATA;\n#9001=IFCBOILERTYPE('0YvctVUKr0kugbFTf53O9L');"},
     "breaks the schema: has 1 arguments where IFC4 ADD2 TC1 has 10"},
};

TEST_CASE("what is met in the wild and means one thing only is read and remarked", "[intake]") {
  for (const StepRemarkCase& remarked : kRemarked) {
    DYNAMIC_SECTION(remarked.edit.label) {
      const StepEdit& edit = remarked.edit;
      const IntakeResult result = read_text(edited(sound(), edit.anchor, edit.from, edit.to));
      INFO(all_of(result.diagnostics));
      REQUIRE(result.diagnostics.size() == 1);
      CHECK(result.diagnostics.front().severity == Severity::warning);
      CHECK(result.diagnostics.front().message == remarked.message);
      REQUIRE(result.project);
      CHECK(result.project->panels.front().parts.size() == 10);
    }
  }
}

struct StepFaultCase {
  StepEdit edit;
  const char* entity;
  const char* message;
};

const StepFaultCase kFaulty[] = {
    {{"no mark at the end", "END-ISO", "END-ISO-10303-21;", ""}, "", "the file ends without 'END-ISO-10303-21;'"},
    {{"no header", "HEADER;", "HEADER;", ""}, "", "the HEADER section is missing"},
    {{"no schema", "FILE_SCHEMA", "FILE_SCHEMA(('IFC4'));", ""}, "", "FILE_SCHEMA names no schema"},
    {{"a draft of a schema", "FILE_SCHEMA", "IFC4", "IFC4X1"}, "", "the schema 'IFC4X1' is not one that is read"},
    {{"a comment that is not closed", "#41=", "#41=", "/* #41="}, "", "the file ends within its DATA section"},
    {{"a string that is not closed", "=IFCWALL(", "'P-01'", "'P-01"},
     "",
     "the file breaks off within #41, or a string in it is not closed"},
    {{"two strings that are not closed", "=IFCWALL(", "$,'P-01',$);", "$,'P-01,$);\n#9001=IFCMATERIAL('x,$,$);"},
     "IfcWall #41",
     "',' or ')' is expected here"},
    {{"a semicolon too few", "=IFCWALL(", "'P-01',$);", "'P-01',$)"}, "IfcWall #41", "';' is expected here"},
    {{"a bracket too many", "=IFCWALL(", "'P-01',$);", "'P-01',$));"}, "IfcWall #41", "';' is expected here"},
    {{"no equals sign", "#41=", "#41=", "#41 "}, "", "'=' is expected after #41"},
    {{"no number", "#41=", "#41=", "#="}, "", "'#' is not followed by a number of an instance"},
    {{"words between instances", "#41=", "#41=", "and now\n#41="},
     "",
     "an instance '#…=' or 'ENDSEC;' is expected here"},
    {{"a number used twice", "#41=", "#41=", "#19=IFCDIRECTION((1.,0.));\n#41="},
     "IfcDirection #19",
     "the number #19 is used twice, first at line 8"},
    {{"a reference to nothing", "=IFCWALL(", "#40", "#4711"}, "IfcWall #41", "#4711 is no instance of this file"},
    {{"a reference to something else", "=IFCWALL(", "#40", "#14"},
     "IfcWall #41",
     "breaks the schema: ObjectPlacement is '#14', an IfcUnitAssignment, where an IfcObjectPlacement is due"},
    {{"an argument too few", "=IFCWALL(", "'P-01',$);", "'P-01');"},
     "IfcWall #41",
     "breaks the schema: has 8 arguments where IFC4 ADD2 TC1 has 9"},
    {{"an argument too many", "=IFCWALL(", "'P-01',$);", "'P-01',$,$);"},
     "IfcWall #41",
     "breaks the schema: has 10 arguments where IFC4 ADD2 TC1 has 9"},
    {{"an entity of no schema", "#41=", "#41=IFCWALL", "#41=IFCWAL"},
     "#41",
     "breaks the schema: 'IFCWAL' is no entity of IFC4 ADD2 TC1"},
    {{"a value of no enumeration", "#1=", ".MILLI.", ".TINY."},
     "IfcSIUnit #1",
     "breaks the schema: Prefix is '.TINY.', no value of IfcSIPrefix"},
    {{"a required value that is absent", "#1=", ".METRE.", "$"},
     "IfcSIUnit #1",
     "breaks the schema: Name is required and not given"},
    {{"a required value that is a star", "#1=", ".METRE.", "*"},
     "IfcSIUnit #1",
     "breaks the schema: Name is required and written '*'"},
    {{"a text where a number is due", "=IFCPROJECT", "0.00001", "'fine'"},
     "IfcGeometricRepresentationContext #18",
     "breaks the schema: Precision is ''fine'' where a number is due"},
    {{"a number where a text is due", "=IFCWALL(", "'P-01'", "12"},
     "IfcWall #41",
     "breaks the schema: Tag is '12' where a text is due"},
    {{"one value where a list is due", "=IFCPROJECT", "(#18)", "#18"},
     "IfcProject #19",
     "breaks the schema: RepresentationContexts is '#18' where a list is due"},
    {{"a value without its type", "#6=", "IFCPLANEANGLEMEASURE(0.017453)", "0.017453"},
     "IfcMeasureWithUnit #6",
     "breaks the schema: ValueComponent is '0.017453' where a reference or a typed value is due"},
    {{"a type of no schema", "#6=", "IFCPLANEANGLEMEASURE", "IFCBENDINGMEASURE"},
     "IfcMeasureWithUnit #6",
     "breaks the schema: ValueComponent has the type 'IFCBENDINGMEASURE', which is none of IFC4 ADD2 TC1"},
    {{"a decimal comma", "=IFCPROJECT", "0.00001", "0,00001"},
     "IfcGeometricRepresentationContext #18",
     "breaks the schema: has 7 arguments where IFC4 ADD2 TC1 has 6"},
    {{"a number that begins with its point", "=IFCPROJECT", "0.00001", ".00001"},
     "IfcGeometricRepresentationContext #18",
     "a number does not begin with its point"},
    {{"no number at all", "=IFCPROJECT", "0.00001", "NAN"},
     "IfcGeometricRepresentationContext #18",
     "'(' is expected after the type of a value"},
    {{"an exponent without digits", "=IFCPROJECT", "0.00001", "1.E"},
     "IfcGeometricRepresentationContext #18",
     "the exponent of a number has no digit"},
    {{"an enumeration that is not closed", "#1=", ".MILLI.", ".MILLI"},
     "IfcSIUnit #1",
     "the value of an enumeration is not closed by a point"},
    {{"a malformed GlobalId", "#41=", "'0jXhsi0QCnMvLvJ$fpOEt3'", "'4jXhsi0QCnMvLvJ$fpOEt3'"},
     "IfcWall #41",
     "GlobalId '4jXhsi0QCnMvLvJ$fpOEt3' is malformed"},
    {{"a placement in itself", "#22=", "#22=IFCLOCALPLACEMENT($", "#22=IFCLOCALPLACEMENT(#22"},
     "IfcLocalPlacement #22",
     "PlacementRelTo leads back to itself"},
};

TEST_CASE("each fault of a STEP file is reported with its line, its entity and its number", "[intake]") {
  for (const StepFaultCase& fault : kFaulty) {
    const StepEdit& edit = fault.edit;
    DYNAMIC_SECTION(edit.label) {
      const IntakeResult result = read_text(edited(sound(), edit.anchor, edit.from, edit.to));
      INFO(all_of(result.diagnostics));
      const auto found = std::find_if(result.diagnostics.begin(), result.diagnostics.end(), [&](const Diagnostic& d) {
        return d.severity == Severity::error && d.message.find(fault.message) != std::string::npos;
      });
      REQUIRE(found != result.diagnostics.end());
      CHECK(found->entity == fault.entity);
      CHECK(found->line > 0);
      CHECK_FALSE(found->advice.empty());
      CHECK_FALSE(result.project);
    }
  }
}

TEST_CASE("a point list of IFC4 may leave out the tags that IFC4X3 gave it", "[intake]") {
  const auto diagnostics = [](const std::string& list) {
    return read_text(edited(sound(), "DATA;", "DATA;", "DATA;\n#9001=IFCCARTESIANPOINTLIST2D(" + list + ");"))
        .diagnostics;
  };
  CHECK(diagnostics("((0.,0.),(1.,0.))").empty());
  CHECK(diagnostics("((0.,0.),(1.,0.)),$").empty());
  CHECK(has_errors(diagnostics("((0.,0.),(1.,0.)),('a')")));
}

TEST_CASE("lists nested without end are refused and not followed", "[intake]") {
  std::string deep = "DATA;\n#9001=IFCDIRECTION(";
  for (int i = 0; i < 100'000; ++i) deep += '(';
  deep += "1.";
  for (int i = 0; i < 100'000; ++i) deep += ')';
  const IntakeResult result = read_text(edited(sound(), "DATA;", "DATA;", deep + ");"));
  CHECK(all_of(result.diagnostics).find("lists are nested more than 16 deep") != std::string::npos);
  CHECK_FALSE(result.project);
}

TEST_CASE("a file that breaks off is refused at the instance where it does", "[intake]") {
  const std::string text = sound();
  const IntakeResult result = read_text(text.substr(0, text.find("'P-01'") + 3));
  REQUIRE(result.diagnostics.size() == 1);
  CHECK(result.diagnostics.front().message == "the file breaks off within #41, or a string in it is not closed");
  CHECK(result.diagnostics.front().line > 40);
}

TEST_CASE("what a STEP file says has its line, entity and GlobalId as origin", "[intake]") {
  const std::string text = sound();
  const IntakeResult result = read_text(text);
  REQUIRE(result.project);
  const Panel& panel = result.project->panels.front();
  CHECK(panel.origin.entity == "IfcWall");
  CHECK(panel.origin.global_id == "0jXhsi0QCnMvLvJ$fpOEt3");
  CHECK(panel.origin.line ==
        1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(text.find("#41=")), '\n'));
}

TEST_CASE("more than a thousand faults are counted and not listed", "[intake]") {
  std::string many = "DATA;\n";
  for (int i = 0; i < 3000; ++i) many += "#" + std::to_string(10'000 + i) + "=IFCDIRECTION('x');\n";
  const IntakeResult result = read_text(edited(sound(), "DATA;", "DATA;\n", many));
  CHECK(result.diagnostics.size() <= 1001);
  CHECK(result.diagnostics.back().message == "2000 more problems are not listed");
}

}  // namespace
}  // namespace panel_dossier
