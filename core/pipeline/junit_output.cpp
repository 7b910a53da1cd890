#include "core/pipeline/junit_output.h"

#include <map>
#include <pugixml.hpp>
#include <sstream>
#include <string_view>

#include "core/api/support/text_encoding.h"

namespace panel_dossier {

namespace {

/// XML has no word for most control characters.
void set_attribute(pugi::xml_node node, const char* name, std::string_view value) {
  node.append_attribute(name) = visible_text(value).c_str();
}

/// Adds cases to suites and keeps the counts of each.
class SuiteWriter {
 public:
  explicit SuiteWriter(pugi::xml_node root) : root_(root) {}

  void add(const std::string& suite_name, const std::string& case_name, const RecordedFinding& finding) {
    Suite& suite = suite_named(suite_name);
    pugi::xml_node test_case = begin_case(suite, finding.check, case_name);
    if (finding.verdict == Verdict::fail) {
      ++suite.failures;
      describe(test_case, "failure", finding);
    } else if (finding.verdict == Verdict::evidence_needed || finding.verdict == Verdict::not_assessed) {
      ++suite.skipped;
      describe(test_case, "skipped", finding);
    }
  }

  void add_error(const std::string& message) {
    Suite& suite = suite_named("run");
    ++suite.errors;
    set_attribute(begin_case(suite, "run", message).append_child("error"), "message", message);
  }

  void close() {
    for (auto& [name, suite] : suites_) {
      suite.node.append_attribute("tests") = suite.tests;
      suite.node.append_attribute("failures") = suite.failures;
      suite.node.append_attribute("errors") = suite.errors;
      suite.node.append_attribute("skipped") = suite.skipped;
    }
  }

 private:
  struct Suite {
    pugi::xml_node node;
    int tests = 0;
    int failures = 0;
    int errors = 0;
    int skipped = 0;
  };

  Suite& suite_named(const std::string& name) {
    Suite& suite = suites_[name];
    if (!suite.node) {
      suite.node = root_.append_child("testsuite");
      set_attribute(suite.node, "name", name);
    }
    return suite;
  }

  static pugi::xml_node begin_case(Suite& suite, const std::string& check, const std::string& name) {
    ++suite.tests;
    pugi::xml_node test_case = suite.node.append_child("testcase");
    set_attribute(test_case, "classname", check);
    set_attribute(test_case, "name", name);
    return test_case;
  }

  static void describe(pugi::xml_node test_case, const char* kind, const RecordedFinding& finding) {
    pugi::xml_node node = test_case.append_child(kind);
    set_attribute(node, "message", std::string(to_string(finding.verdict)) + ": " + finding.reason);
    node.text().set(visible_text(finding.title + ", " + finding.clause).c_str());
  }

  pugi::xml_node root_;
  std::map<std::string, Suite> suites_;
};

std::string suite_of(const RecordedFinding& finding) {
  return finding.check.substr(0, finding.check.find('.'));
}

}  // namespace

std::string junit_xml(const Project& project, const Results& results) {
  pugi::xml_document document;
  pugi::xml_node root = document.append_child("testsuites");
  set_attribute(root, "name", project.name);
  SuiteWriter writer(root);
  for (std::size_t i = 0; i < results.panel_findings.size(); ++i) {
    for (const RecordedFinding& finding : results.panel_findings[i]) {
      writer.add(suite_of(finding), project.panels[i].mark, finding);
    }
  }
  for (const RecordedFinding& finding : results.project_findings) writer.add(suite_of(finding), "project", finding);
  for (const std::string& failure : results.failures) writer.add_error(failure);
  writer.close();
  std::ostringstream text;
  document.save(text, "  ");
  return text.str();
}

}  // namespace panel_dossier
