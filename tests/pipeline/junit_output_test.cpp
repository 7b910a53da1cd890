#include "core/pipeline/junit_output.h"

#include <catch2/catch.hpp>
#include <pugixml.hpp>
#include <utility>

#include "core/api/finding/finding_builder.h"

using namespace panel_dossier;

namespace {

CheckDeclaration declared(std::string id, std::string title, std::string clause) {
  CheckDeclaration check;
  check.id = std::move(id);
  check.title = std::move(title);
  check.clause = std::move(clause);
  return check;
}

FindingBuilder builder(const std::string& name) {
  return FindingBuilder(declared("thermal." + name, "Title", "EN 1:2020, 2"), "id");
}

Results one_of_each_verdict() {
  Results results;
  results.panel_not_applicable.resize(1);
  results.panel_findings = {FindingRecorder().record_all(
      {builder("a").judge(1.0, "m", Relation::at_most, 2.0, "too long"),
       builder("b").judge(3.0, "m", Relation::at_most, 2.0, "too long & <odd>"),
       builder("c").needs_evidence("no report"), builder("d").not_assessed("no density")})};
  results.failures = {"plugin 'x' failed on panel 'P1': oops"};
  return results;
}

pugi::xml_document written(const Results& results) {
  Project project;
  project.panels.resize(1);
  project.panels[0].mark = "P1";
  pugi::xml_document document;
  REQUIRE(document.load_string(junit_xml(project, results).c_str()));
  return document;
}

}  // namespace

TEST_CASE("Every verdict is counted in its suite") {
  const pugi::xml_document document = written(one_of_each_verdict());
  const pugi::xml_node suite = document.first_child().find_child_by_attribute("testsuite", "name", "thermal");
  CHECK(suite.attribute("tests").as_int() == 4);
  CHECK(suite.attribute("failures").as_int() == 1);
  CHECK(suite.attribute("skipped").as_int() == 2);
  CHECK(suite.attribute("errors").as_int() == 0);
}

TEST_CASE("A test is skipped exactly where its verdict is open, and passes without a child") {
  Results results = one_of_each_verdict();
  results.panel_findings[0].push_back(FindingRecorder().record(builder("e").inform(2.0, "m")));
  const pugi::xml_document document = written(results);
  const auto child_of = [&](const std::string& check) {
    const std::string path = "//testcase[@classname='thermal." + check + "']";
    return std::string(document.select_node(path.c_str()).node().first_child().name());
  };
  CHECK(child_of("a").empty());
  CHECK(child_of("b") == "failure");
  CHECK(child_of("c") == "skipped");
  CHECK(child_of("d") == "skipped");
  CHECK(child_of("e").empty());
}

TEST_CASE("A failing verdict carries its reason, escaped") {
  const pugi::xml_document document = written(one_of_each_verdict());
  const pugi::xml_node failure = document.select_node("//testcase[@classname='thermal.b']/failure").node();
  CHECK(std::string(failure.attribute("message").value()) == "fail: too long & <odd>");
}

TEST_CASE("A plugin failure is an error in a suite of its own") {
  const pugi::xml_document document = written(one_of_each_verdict());
  const pugi::xml_node suite = document.first_child().find_child_by_attribute("testsuite", "name", "run");
  CHECK(suite.attribute("errors").as_int() == 1);
}

TEST_CASE("control characters of a mark or reason leave the XML well-formed") {
  Project project;
  project.panels.resize(1);
  project.panels[0].mark = "S0\x1B[1m-01\uFFFE";
  Results results;
  results.panel_not_applicable.resize(1);
  results.panel_findings = {FindingRecorder().record_all({builder("a").needs_evidence("record \x01 of\nthe site")})};
  const std::string xml = junit_xml(project, results);
  CHECK(xml.find('\x1B') == std::string::npos);
  pugi::xml_document document;
  REQUIRE(document.load_string(xml.c_str()));
  const pugi::xml_node test_case = document.select_node("//testcase").node();
  CHECK(std::string(test_case.attribute("name").value()) == "S0<U+001B>[1m-01<U+FFFE>");
  CHECK(std::string(test_case.child("skipped").attribute("message").value()) ==
        "evidence needed: record <U+0001> of<U+000A>the site");
}
