// Files of requirements that are refused, and exports that are.
#include <catch2/catch.hpp>

#include "core/intake/ids/ids_pattern.h"
#include "tests/intake/ids/ids_test_support.h"

namespace panel_dossier {
namespace {

using namespace ids_test;

TEST_CASE("what is no IDS 1.0 is refused with its place", "[ids]") {
  struct Case {
    const char* name;
    std::string text;
    std::string fault;
  };
  const std::string tag = simple("name", "Tag");
  const auto wants = [&](const std::string& value) { return ids_of("<attribute>" + tag + value + "</attribute>"); };
  const auto with_pattern = [&](const std::string& pattern) {
    return wants(restriction("value", "xs:string", "<xs:pattern value=\"" + pattern + "\"/>"));
  };
  const std::vector<Case> cases{
      {"nothing", "", "r.ids: error: the file is empty"},
      {"no XML", "ISO-10303-21;", "the file is not well-formed XML"},
      {"cut off", ids_of("").substr(0, 200), "the file is not well-formed XML"},
      {"a document type", "<!DOCTYPE ids [<!ENTITY a \"b\">]>" + ids_of(""), "has a document type declaration"},
      {"another form", "<ids/>", "'ids' is no IDS file; give a file whose root is 'ids' in namespace"},
      {"a facet that the form does not have", ids_of("<colour/>"),
       "r.ids:3: error: colour: has no place here in IDS 1.0"},
      {"a name in the wrong order",
       ids_of("<property>" + simple("baseName", "A") + simple("propertySet", "B") + "</property>"),
       "r.ids:3: error: propertySet: has no place here"},
      {"no name", ids_of("<attribute/>"), "attribute: has no name; IDS 1.0 requires it"},
      {"both occurrences wrong", ids_of("", "", "minOccurs=\"2\" maxOccurs=\"3\""),
       "has minOccurs '2' and maxOccurs '3'"},
      {"absent ones count 1", ids_of("", "", ""), "has minOccurs '1' and maxOccurs '1'"},
      {"prohibited with requirements",
       ids_of("<attribute>" + tag + "</attribute>", "", "minOccurs=\"0\" maxOccurs=\"0\""),
       "stands in a specification that prohibits its entities"},
      {"an optional entity", ids_of("<entity cardinality=\"optional\">" + simple("name", "IFCWALL") + "</entity>"),
       "has the cardinality 'optional'"},
      {"an optional whole",
       ids_of("<partOf cardinality=\"optional\"><entity>" + simple("name", "IFCWALL") + "</entity></partOf>"),
       "has the cardinality 'optional'"},
      {"an unknown relation",
       ids_of("<partOf relation=\"IFCRELX\"><entity>" + simple("name", "IFCWALL") + "</entity></partOf>"),
       "names the relation 'IFCRELX'"},
      {"optional without a value", ids_of("<attribute cardinality=\"optional\">" + tag + "</attribute>"),
       "is optional and asks for nothing"},
      {"a value without its type", ids_of(wants_property("A", "", simple("value", "x"))),
       "asks for a value without dataType"},
      {"prohibited with its type", ids_of(wants_property("A", "IFCLABEL", "", "prohibited")),
       "prohibits a property and states its type or value"},
      {"two values in one", wants("<value><simpleValue>a</simpleValue><simpleValue>b</simpleValue></value>"),
       "holds no single value"},
      {"a bound that is no number", wants(restriction("value", "xs:double", "<xs:minInclusive value=\"much\"/>")),
       "'much' is no number"},
      {"a length that is none", wants(restriction("value", "xs:string", "<xs:length value=\"-1\"/>")),
       "'-1' is no length"},
      {"digits", wants(restriction("value", "xs:double", "<xs:totalDigits value=\"3\"/>")),
       "totalDigits: is no restriction that IDS 1.0 supports"},
      {"a base without a prefix", wants(restriction("value", "string", "<xs:length value=\"1\"/>")),
       "has the base 'string'"},
      {"a base that is no simple type", wants(restriction("value", "xs:thing", "<xs:length value=\"1\"/>")),
       "has the base 'xs:thing'"},
      {"a pattern of numbers", wants(restriction("value", "xs:double", "<xs:pattern value=\"1.*\"/>")),
       "asks for a pattern of xs:double"},
      {"no regular expression", with_pattern("[A-"), "'[A-' is no regular expression of XML Schema"},
      {"too long a pattern", with_pattern(std::string(600, 'a')), "is longer than 512 bytes"},
      {"too deep a pattern", with_pattern(std::string(20, '(') + "a" + std::string(20, ')')),
       "nests its brackets too deep"},
      {"too many repeats", with_pattern("a{999999999}"), "repeats more than 1000 times"},
      {"repeats of repeats", with_pattern("((a{100}){100}){100}"), "repeats more than 1000 times"},
      {"an unknown version",
       "<ids xmlns=\"http://standards.buildingsmart.org/IDS\"><info><title>T</title></info><specifications>"
       "<specification name=\"S\" ifcVersion=\"IFC5\"><applicability minOccurs=\"0\" maxOccurs=\"unbounded\"/>"
       "</specification></specifications></ids>",
       "names the version 'IFC5'"},
  };
  for (const Case& c : cases) {
    const std::string faults = faults_of(c.text);
    INFO(c.name << ": " << faults);
    CHECK(faults.find(c.fault) != std::string::npos);
  }
}

TEST_CASE("what the standard does not have is said before an export is looked at", "[ids]") {
  const auto attribute = [](const std::string& name, const std::string& value = {}) {
    return ids_of("<attribute>" + simple("name", name) + value + "</attribute>");
  };
  CHECK(
      faults_of(ids_of("", "<entity>" + simple("name", "IFCWAL") + "</entity>")) ==
      "r.ids:2: error: specification 'S': 'IFCWAL' is no class of the versions it names; write the name of a class in "
      "capitals, as IFCWALL\n");
  CHECK(faults_of(ids_of("", "<entity>" + simple("name", "IfcWall") + "</entity>")).find("'IfcWall' is no class") !=
        std::string::npos);
  CHECK(faults_of(attribute("Colour")).find("'Colour' is no attribute of IFCWALL") != std::string::npos);
  CHECK(faults_of(attribute("Representation")).empty());
  CHECK(faults_of(attribute("Representation", simple("value", "x"))).find("which is an object or a list") !=
        std::string::npos);
  CHECK(faults_of(ids_of(wants_property("A", "IFCCOLOUR"))).find("'IFCCOLOUR' is no type") != std::string::npos);
  CHECK(faults_of(ids_of(wants_property("A", "IFCREAL", simple("value", "x")))).find("'x' is no value of IFCREAL") !=
        std::string::npos);
  CHECK(faults_of(ids_of(wants_property("A", "IFCBOOLEAN", simple("value", "TRUE")))).find("write true or false") !=
        std::string::npos);
  const std::string bounds = restriction("value", "xs:string", "<xs:minInclusive value=\"1\"/>");
  CHECK(faults_of(ids_of(wants_property("A", "IFCLABEL", bounds))).find("asks for bounds of IFCLABEL") !=
        std::string::npos);
}

TEST_CASE("a pattern that would take for ever is given up", "[ids]") {
  std::string fault;
  const auto pattern = IdsPattern::make("(a|a?)+(a|a?)+(a|a?)+(a|a?)+b", fault);
  INFO(fault);
  REQUIRE(pattern);
  CHECK(pattern->match(std::string(5000, 'a')) == IdsPattern::Result::too_hard);
  CHECK(pattern->match("aaab") == IdsPattern::Result::matches);
  CHECK(IdsPattern::make("\\d{2}\\.[A-Z\\-]+", fault)->match("12.A-B") == IdsPattern::Result::matches);
  CHECK(IdsPattern::make("a", fault)->match("ab") == IdsPattern::Result::differs);
}

TEST_CASE("an export that cannot be read is refused, whatever is asked of it", "[ids]") {
  Reporter of_ids("r.ids");
  const auto file = read_ids(ids_of(""), kSchemas, of_ids);
  REQUIRE(file);
  for (const char* text :
       {"", "no XML", "<ifcXML", "<a/>", "<ifcXML xmlns=\"http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2\"/>"}) {
    INFO(text);
    Reporter report("e.ifcxml");
    const IdsReport result = hold_against(*file, text, kSchemas, report);
    CHECK(report.has_errors());
    CHECK(result.specifications.empty());
  }
}

}  // namespace
}  // namespace panel_dossier
