// Results written back into an export: what is added, what stays, and that it reads back.
#include "core/trace/write_back/write_back.h"

#include <catch2/catch.hpp>
#include <cstddef>
#include <filesystem>
#include <map>
#include <set>
#include <stdexcept>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/export_reader.h"
#include "core/intake/graph/graph.h"
#include "core/intake/graph/vocabulary.h"
#include "core/trace/canonical.h"

namespace panel_dossier {
namespace {

const std::filesystem::path kRoot = PANEL_DOSSIER_SOURCE_DIR;

std::string hall(const std::string& name) {
  return read_file(kRoot / "tests/intake/data" / name);
}

IntakeResult read_hall(const std::string& text) {
  IntakeOptions options;
  options.schema_dir = kRoot / "schemas";
  options.project_dir = kRoot / "tests/intake/data";
  IntakeResult result = read_export(text, "hall.ifcxml", options);
  for (const Diagnostic& diagnostic : result.diagnostics) UNSCOPED_INFO(to_string(diagnostic));
  REQUIRE(result.project);
  return result;
}

std::vector<PanelResults> results_of(const Project& project, double u_value = 0.19) {
  std::vector<PanelResults> results;
  for (const Panel& panel : project.panels) {
    results.push_back({panel.global_id,
                       {{"DossierHash", "root", std::string(64, 'a')},
                        {"thermal.u_value", "U-value, in W/(m²·K) & \"more\" <less>", u_value},
                        {"thermal.u_value.verdict", "", std::string("evidence needed")},
                        {"fire.class", "", std::string("REI 60 (i->o); 'quoted'")},
                        {"long", "", std::string(300, 'x')}}});
  }
  return results;
}

/// Name, type and text of every property in the sets of results, by GlobalId of the wall they are of.
std::map<std::string, std::map<std::string, std::string>> written_results(std::string text) {
  Reporter report("hall.ifcxml");
  XmlDocument document;
  REQUIRE(document.parse_in_place(text));
  const Graph graph(document.root(), report);
  REQUIRE_FALSE(report.has_errors());
  std::map<std::string, std::map<std::string, std::string>> found;
  for (const Element& entity : graph.rooted()) {
    for (const Element& set : graph.linked(Link::property_sets, entity)) {
      if (graph.text(set, "Name") != "Panel_Results") continue;
      for (const Element& property : graph.entities(set, "HasProperties")) {
        const auto value = graph.value(property, "NominalValue");
        REQUIRE(value);
        found[own_global_id(entity)][graph.text(property, "Name")] = value->type + " " + value->text;
      }
    }
  }
  return found;
}

/// All that a panel's hash is taken over.
std::string canonical(const Project& project) {
  std::string text;
  for (const Panel& panel : project.panels) text += canonical_panel(panel, project);
  return text;
}

const std::vector<std::string> kHalls{"hall-ifc2x3.ifcxml", "hall-ifc4-nested.ifcxml", "hall-ifc4-flat-metres.ifcxml",
                                      "hall-ifc4x3-nested.ifcxml"};

TEST_CASE("an export of any generation with results validates, reads as before and holds the results", "[trace]") {
  for (const std::string& name : kHalls) {
    INFO(name);
    const std::string text = hall(name);
    const IntakeResult before = read_hall(text);
    const std::string written = xml_with_results(text, results_of(*before.project));
    const IntakeResult after = read_hall(written);
    CHECK(after.diagnostics.size() == before.diagnostics.size());
    CHECK(canonical(*after.project) == canonical(*before.project));
    const auto found = written_results(written);
    REQUIRE(found.size() == before.project->panels.size());
    for (const Panel& panel : before.project->panels) {
      const auto& properties = found.at(panel.global_id);
      CHECK(properties.at("thermal.u_value") == "IfcReal 0.19");
      CHECK(properties.at("thermal.u_value.verdict") == "IfcLabel evidence needed");
      CHECK(properties.at("fire.class") == "IfcLabel REI 60 (i->o); 'quoted'");
      CHECK(properties.at("long") == "IfcText " + std::string(300, 'x'));
    }
  }
}

TEST_CASE("but for what is added, every byte is as it was", "[trace]") {
  for (const std::string& name : kHalls) {
    INFO(name);
    const std::string text = hall(name);
    const std::string written = xml_with_results(text, results_of(*read_hall(text).project));
    // The walls of these exports have an id, so there is one insertion.
    REQUIRE(written.size() > text.size());
    const auto [first, ignored] = std::mismatch(text.begin(), text.end(), written.begin());
    const auto same = static_cast<std::size_t>(first - text.begin());
    const std::size_t added = written.size() - text.size();
    CHECK(written.substr(same + added) == text.substr(same));
  }
}

TEST_CASE("writing again takes the earlier results out", "[trace]") {
  for (const std::string& name : kHalls) {
    INFO(name);
    const std::string text = hall(name);
    const Project project = *read_hall(text).project;
    const std::string first = xml_with_results(text, results_of(project, 0.25));
    CHECK(xml_with_results(first, results_of(project)) == xml_with_results(text, results_of(project)));
    CHECK(xml_with_results(first, {}) == text);
  }
}

TEST_CASE("in an export with line ends of two characters the earlier results go with theirs", "[trace]") {
  for (const std::string& name : kHalls) {
    INFO(name);
    std::string text = hall(name);
    const Project project = *read_hall(text).project;
    std::string written = xml_with_results(text, results_of(project));
    for (std::string* each : {&text, &written}) {
      for (std::size_t at = each->find('\n'); at != std::string::npos; at = each->find('\n', at + 2))
        each->insert(at, "\r");
    }
    CHECK(xml_with_results(written, {}) == text);
  }
}

TEST_CASE("a panel without an id is given one", "[trace]") {
  std::string text = hall("hall-ifc4-nested.ifcxml");
  const Project project = *read_hall(text).project;
  const std::size_t at = text.find(project.panels.front().global_id);
  const std::size_t start = text.rfind("<Ifc", at);
  const std::size_t id = text.find(" id=\"", start);
  REQUIRE(id < at);
  const std::string removed = text.substr(id, text.find('"', id + 5) + 1 - id);
  text.erase(id, removed.size());
  if (text.find("\"" + removed.substr(5, removed.size() - 6) + "\"") != std::string::npos) return;  // is referred to
  const std::string written = xml_with_results(text, results_of(project));
  CHECK(written_results(written).size() == project.panels.size());
  CHECK(xml_with_results(written, results_of(project)) == written);
}

TEST_CASE("what is no export, or has not the panel, is told", "[trace]") {
  const std::vector<PanelResults> results{{"0000000000000000000009", {}}};
  for (const char* text : {"", "<", "<a", "<a b=\"", "<a><!--", "<a>", "</a>", "<a/><b>", "no XML at all"}) {
    INFO(text);
    CHECK_THROWS_AS(xml_with_results(text, results), std::runtime_error);
  }
  CHECK_THROWS_WITH(xml_with_results(hall("hall-ifc4-nested.ifcxml"), results),
                    "the export has no element with the GlobalId '0000000000000000000009'");
}

TEST_CASE("identifiers are those of the standard and the same each time", "[trace]") {
  std::set<std::string> ids;
  for (const char* panel : {"0000000000000000000001", "0000000000000000000002"}) {
    for (const char* purpose : {"results", "has results"}) {
      const std::string id = derived_global_id(panel, purpose);
      CHECK(id.size() == 22);
      CHECK(id.front() <= '3');
      CHECK(id == derived_global_id(panel, purpose));
      ids.insert(id);
    }
  }
  CHECK(ids.size() == 4);
}

TEST_CASE("numbers have a point, and an exponent where they are small", "[trace]") {
  CHECK(real_text(0.19) == "0.19");
  CHECK(real_text(3.0) == "3.");
  CHECK(real_text(-1.5e-7) == "-1.5E-07");
  CHECK(real_text(1e30) == "1.E+30");
}

TEST_CASE("characters are taken one by one, and a byte that begins none is one unknown character", "[trace]") {
  const auto taken = [](std::string_view text) {
    std::vector<char32_t> all;
    while (!text.empty()) all.push_back(take_character(text));
    return all;
  };
  using Characters = std::vector<char32_t>;
  // Both ends of what one, two, three and four bytes hold (RFC 3629, 3).
  CHECK(taken("a\x7F") == Characters{0x61, 0x7F});
  CHECK(taken("\xC2\x80\xDF\xBF") == Characters{0x80, 0x7FF});
  CHECK(taken("\xE0\xA0\x80\xEF\xBF\xBF") == Characters{0x800, 0xFFFF});
  CHECK(taken("\xF0\x90\x80\x80\xF4\x8F\xBF\xBF") == Characters{0x10000, 0x10FFFF});
  CHECK(taken("\x80\xBF\xC0\xC1\xF5\xFF") == Characters(6, 0xFFFD));
  CHECK(taken("m\xC2") == Characters{0x6D, 0xFFFD});
  CHECK(taken("\xE2\x82") == Characters{0xFFFD, 0xFFFD});
}

const std::string kStep =
    "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_NAME('a;b','',(''),(''),'','','');\n"
    "FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n"
    "#1=IFCOWNERHISTORY($,$,$,.ADDED.,$,$,$,0);\n/* #99=IFCWALL('x'); */\n"
    "#7 = IFCWALL ( '0000000000000000000001', #1, 'it''s; #50=', $,$,$,$,'T',.NOTDEFINED.);\n"
    "#8=IFCPROPERTYSINGLEVALUE('Panel_Results',$,IFCLABEL('kept'),$);\nENDSEC;\nEND-ISO-10303-21;\n";

std::vector<PanelResults> step_results(double value = 0.5) {
  return {{"0000000000000000000001",
           {{"thermal.u_value", "in W/(m²·K)", value}, {"v", "", std::string("it's \\ \xF0\x9F\x91\x8D")}}}};
}

TEST_CASE("a STEP export with results reads as before, of each generation", "[trace]") {
  for (const char* name : {"hall-ifc2x3.ifc", "hall-ifc4.ifc", "hall-ifc4x3.ifc"}) {
    INFO(name);
    const std::string text = hall(name);
    const Project before = *read_hall(text).project;
    const std::string written = export_with_results(text, results_of(before));
    CHECK(canonical(*read_hall(written).project) == canonical(before));
    CHECK(written.find("'Panel_Results'") != std::string::npos);
    CHECK(export_with_results(export_with_results(text, results_of(before, 0.25)), results_of(before)) == written);
    CHECK(step_with_results(written, {}) == text);
  }
}

TEST_CASE("an export in another encoding is written back in UTF-8", "[trace]") {
  std::string text = hall("hall-ifc4-nested.ifcxml");
  const std::size_t encoding = text.find("UTF-8");
  REQUIRE(encoding < 60);
  text.replace(encoding, 5, "ISO-8859-1");
  const Project before = *read_hall(text).project;
  CHECK(canonical(*read_hall(export_with_results(text, results_of(before))).project) == canonical(before));
}

TEST_CASE("results in the STEP form stand before the end of the data, numbered above all others", "[trace]") {
  const std::string written = step_with_results(kStep, step_results());
  const std::string id = derived_global_id("0000000000000000000001", "results");
  const std::string relation = derived_global_id("0000000000000000000001", "has results");
  const std::string added =
      "#9=IFCPROPERTYSINGLEVALUE('thermal.u_value','in W/(m\\X2\\00B2\\X0\\\\X2\\00B7\\X0\\K)',IFCREAL(0.5),$);\n"
      "#10=IFCPROPERTYSINGLEVALUE('v',$,IFCLABEL('it''s \\\\ \\X4\\0001F44D\\X0\\'),$);\n"
      "#11=IFCPROPERTYSET('" +
      id +
      "',$,'Panel_Results',$,(#9,#10));\n"
      "#12=IFCRELDEFINESBYPROPERTIES('" +
      relation + "',$,$,$,(#7),#11);\n";
  std::string expected = kStep;
  expected.insert(expected.rfind("ENDSEC;"), added);
  CHECK(written == expected);
  CHECK(step_with_results(step_with_results(kStep, step_results(0.7)), step_results()) == written);
  CHECK(step_with_results(written, {}) == kStep);
}

TEST_CASE("in IFC2X3 the owner history of the panel is used again", "[trace]") {
  std::string text = kStep;
  text.replace(text.find("'IFC4'"), 6, "'IFC2X3'");
  CHECK(step_with_results(text, step_results()).find("',#1,'Panel_Results'") != std::string::npos);
  std::string without = text;
  without.replace(without.find(", #1, '"), 7, ", $, '");
  CHECK(step_with_results(without, step_results()).find("',#1,'Panel_Results'") != std::string::npos);
  without.erase(without.find("#1=IFCOWNERHISTORY"), std::string("#1=IFCOWNERHISTORY($,$,$,.ADDED.,$,$,$,0);\n").size());
  CHECK_THROWS_WITH(step_with_results(without, step_results()),
                    "the export is IFC2X3 and has no IfcOwnerHistory to use");
}

TEST_CASE("a STEP file that is none, or ends early, is told", "[trace]") {
  for (const std::string& text : {std::string(), std::string("ISO-10303-21;"), kStep.substr(0, kStep.find("DATA;")),
                                  kStep.substr(0, kStep.rfind("ENDSEC;")), kStep.substr(0, kStep.find("it''s"))}) {
    CHECK_THROWS_AS(step_with_results(text, step_results()), std::runtime_error);
  }
  CHECK_THROWS_AS(step_with_results(kStep, {{"0000000000000000000009", {}}}), std::runtime_error);
}

TEST_CASE("a file is put in its place whole, and never over an input", "[trace]") {
  const testing::TemporaryFolder folder;
  const std::filesystem::path input = folder.path() / "export.ifcxml";
  const std::filesystem::path output = folder.path() / "back.ifcxml";
  write_file(input, "input");
  CHECK_THROWS_AS(write_in_place(input, "new", {input}), std::runtime_error);
  CHECK_THROWS_AS(require_earlier_results(input), std::runtime_error);
  CHECK(read_file(input) == "input");
  require_earlier_results(output);
  write_in_place(output, "{ /* Panel_Results */ }", {input});
  CHECK_THROWS_AS(require_earlier_results(output), std::runtime_error);
  write_in_place(output, "ISO-10303-21; Panel_Results", {input});
  require_earlier_results(output);
  write_in_place(output, "again", {input});
  CHECK(read_file(output) == "again");
  CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 2);
}

TEST_CASE("a panel's set says of which dossier, and each verdict and figure", "[trace]") {
  ResultsDocument document;
  document.build.hash_tree_root = "abc";
  document.build.time_utc = "2026-06-01T02:00:00Z";
  document.build.program_version = "1.0";
  Finding finding;
  finding.check = "thermal.u_value";
  finding.title = "U-value";
  finding.unit = "W/(m²·K)";
  finding.clause = "EN ISO 6946:2017";
  finding.value = 0.19;
  finding.verdict = Verdict::pass;
  PanelSummary panel;
  panel.global_id = "0000000000000000000001";
  panel.hash = "def";
  panel.findings = {FindingRecorder().record(finding)};
  document.panels = {panel};
  const std::vector<PanelResults> results = panel_results(document);
  REQUIRE(results.size() == 1);
  std::map<std::string, ResultProperty> by_name;
  for (const ResultProperty& property : results[0].properties) by_name[property.name] = property;
  CHECK(std::get<std::string>(by_name["DossierHash"].value) == "abc");
  CHECK(std::get<std::string>(by_name["PanelHash"].value) == "def");
  CHECK(std::get<std::string>(by_name["BuildTime"].value) == "2026-06-01T02:00:00Z");
  CHECK(std::get<std::string>(by_name["ProgramVersion"].value) == "1.0");
  CHECK(std::get<std::string>(by_name["thermal.u_value.verdict"].value) == "pass");
  CHECK(std::get<double>(by_name["thermal.u_value"].value) == 0.19);
  CHECK(by_name["thermal.u_value"].description == "U-value, in W/(m²·K); EN ISO 6946:2017");
}

}  // namespace
}  // namespace panel_dossier
