// Results written into the standard's own sets: which, where, in which unit, and that nobody takes them for claims.
#include "core/trace/write_back/standard_results.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "core/intake/document/file_bytes.h"
#include "core/intake/export_reader.h"
#include "core/intake/graph/property_reader.h"
#include "core/pipeline/record/recorded_finding.h"
#include "core/trace/canonical.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {
namespace {

const std::filesystem::path kFolder = PANEL_DOSSIER_SOURCE_DIR;
constexpr double kU = 0.19;
constexpr double kArea = 5.123456;
constexpr double kCarbon = 185.113424;

const std::vector<std::string> kExports{"hall-ifc2x3.ifcxml",
                                        "hall-ifc4-nested.ifcxml",
                                        "hall-ifc4-flat-metres.ifcxml",
                                        "hall-ifc4x3-nested.ifcxml",
                                        "hall-ifc2x3.ifc",
                                        "hall-ifc4.ifc",
                                        "hall-ifc4x3.ifc"};

std::string export_text(const std::string& name) {
  return read_file(kFolder / "tests/intake/data" / name);
}

IntakeResult read_text(const std::string& text) {
  IntakeOptions options;
  options.schema_dir = kFolder / "schemas";
  options.project_dir = kFolder / "tests/intake/data";
  IntakeResult result = read_export(text, "hall", options);
  for (const Diagnostic& diagnostic : result.diagnostics) UNSCOPED_INFO(to_string(diagnostic));
  REQUIRE(result.project);
  return result;
}

std::string canonical_text(const Project& project) {
  std::string text;
  for (const Panel& panel : project.panels) text += canonical_panel(panel, project);
  return text;
}

std::vector<WrittenBack> rows() {
  return {{"a.u", "Pset_WallCommon", "ThermalTransmittance", "U-value"},
          {"a.area", "Qto_WallBaseQuantities", "NetSideArea", "area"},
          {"a.mass", "Qto_WallBaseQuantities", "NetWeight", "mass", true},
          {"a.carbon", "Pset_EnvironmentalImpactValues", "ClimateChange", "A1–A3"}};
}

RecordedFinding finding_of(const std::string& check, double value, const std::string& unit) {
  Finding finding;
  finding.check = check;
  finding.value = value;
  finding.unit = unit;
  finding.verdict = Verdict::information;
  return FindingRecorder().record(std::move(finding));
}

ResultsDocument document_of(const Project& project) {
  ResultsDocument document;
  for (const Panel& panel : project.panels) {
    PanelSummary summary;
    summary.global_id = panel.global_id;
    summary.findings = {finding_of("a.u", kU, "W/(m²·K)"), finding_of("a.area", kArea, "m²"),
                        finding_of("a.mass", 300.0, "kg"), finding_of("a.carbon", kCarbon, "kg CO2e")};
    document.panels.push_back(std::move(summary));
  }
  return document;
}

struct Written {
  std::vector<PanelResults> results;
  StandardOutcome outcome;
};

Written results_for(const std::string& text, const Project& project, const ResultsDocument& document) {
  const StandardSets standard(kFolder / "schemas");
  std::set<std::string> panels;
  for (const Panel& panel : project.panels) panels.insert(panel.global_id);
  Written written{panel_results(document), {}};
  written.outcome =
      add_standard_results(written.results, document, project, rows(), standard,
                           read_standing_sets(text, kFolder / "schemas", panels, types_of(rows(), standard)));
  return written;
}

std::string written_export(const std::string& text, const Project& project, const ResultsDocument& document) {
  return export_with_results(text, results_for(text, project, document).results);
}

std::string replaced(std::string text, const std::string& old, const std::string& with) {
  for (std::size_t at = text.find(old); at != std::string::npos; at = text.find(old, at + with.size())) {
    text.replace(at, old.size(), with);
  }
  return text;
}

/// How many sets bear the name, in any form of an export; ids may hold it too.
std::size_t sets_named(const std::string& text, const std::string& name) {
  std::size_t count = 0;
  for (const auto& [before, behind] : {std::pair{'>', '<'}, std::pair{'"', '"'}, std::pair{'\'', '\''}}) {
    const std::string part = before + name + behind;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  }
  return count;
}

double stated(const Project& project, const std::string& set, const std::string& property) {
  const auto value = project.panels.front().properties.number(set, property);
  REQUIRE(value);
  return value->value;
}

TEST_CASE("results in the standard's sets are no claims: the export reads as before, lines included", "[trace]") {
  for (const std::string& name : kExports) {
    INFO(name);
    const std::string text = export_text(name);
    const IntakeResult before = read_text(text);
    const IntakeResult after = read_text(written_export(text, *before.project, document_of(*before.project)));
    CHECK(after.diagnostics.size() == before.diagnostics.size());
    CHECK(canonical_text(*after.project) == canonical_text(*before.project));
    const Panel& panel = after.project->panels.front();
    CHECK_FALSE(panel.properties.number("Pset_WallCommon", "ThermalTransmittance"));
    CHECK_FALSE(panel.properties.number("Qto_WallBaseQuantities", "NetSideArea"));
    CHECK_FALSE(panel.properties.number("Pset_EnvironmentalImpactValues", "ClimateChange"));
    CHECK(panel.origin.line == before.project->panels.front().origin.line);
    CHECK(panel.parts.back().origin.line == before.project->panels.front().parts.back().origin.line);
  }
}

TEST_CASE("without their mark they read as what was found, in any unit of the export", "[trace]") {
  for (const std::string& name : kExports) {
    INFO(name);
    const std::string text = export_text(name);
    const Project before = *read_text(text).project;
    const std::string written = written_export(text, before, document_of(before));
    const Project after = *read_text(replaced(written, std::string(kWrittenBackMark), "said by somebody: ")).project;
    CHECK(stated(after, "Pset_WallCommon", "ThermalTransmittance") == Approx(kU).epsilon(1e-12));
    CHECK(stated(after, "Qto_WallBaseQuantities", "NetSideArea") == Approx(kArea).epsilon(1e-12));
    CHECK(stated(after, "Pset_EnvironmentalImpactValues", "ClimateChange") == Approx(kCarbon).epsilon(1e-12));
    // Names of sets are unique: what the panel has of its own is added to.
    CHECK(sets_named(written, "Pset_WallCommon") == sets_named(text, "Pset_WallCommon"));
    CHECK(sets_named(written, "Qto_WallBaseQuantities") == sets_named(text, "Qto_WallBaseQuantities"));
    CHECK(sets_named(written, "Pset_EnvironmentalImpactValues") == 1);
  }
}

TEST_CASE("an area is written in the export's own unit of area", "[trace]") {
  for (const auto& [name, metres, millimetres] :
       {std::tuple{"hall-ifc4.ifc", "IFCSIUNIT(*,.AREAUNIT.,$,.SQUARE_METRE.)",
                   "IFCSIUNIT(*,.AREAUNIT.,.MILLI.,.SQUARE_METRE.)"},
        std::tuple{"hall-ifc4-nested.ifcxml", "UnitType=\"areaunit\" Name=\"square_metre\"",
                   "UnitType=\"areaunit\" Prefix=\"milli\" Name=\"square_metre\""}}) {
    INFO(name);
    const std::string text = replaced(export_text(name), metres, millimetres);
    REQUIRE(text != export_text(name));
    const Project before = *read_text(text).project;
    const std::string written = written_export(text, before, document_of(before));
    CHECK(written.find("5123456") != std::string::npos);  // mm²
    const Project after = *read_text(replaced(written, std::string(kWrittenBackMark), "said by somebody: ")).project;
    CHECK(stated(after, "Qto_WallBaseQuantities", "NetSideArea") == Approx(kArea).epsilon(1e-12));
  }
}

TEST_CASE("writing again puts new results in the place of the earlier ones", "[trace]") {
  for (const std::string& name : kExports) {
    INFO(name);
    const std::string text = export_text(name);
    const Project project = *read_text(text).project;
    ResultsDocument other = document_of(project);
    for (PanelSummary& panel : other.panels) panel.findings[0].value = 0.25;
    const std::string first = written_export(text, project, other);
    const Project again = *read_text(first).project;
    CHECK(written_export(first, again, document_of(again)) == written_export(text, project, document_of(project)));
    CHECK(export_with_results(first, {}) == text);
  }
}

TEST_CASE("what the export states of a panel or its type is not written", "[trace]") {
  const std::string text = export_text("hall-ifc4.ifc");
  Project project = *read_text(text).project;
  CHECK(results_for(text, project, document_of(project)).outcome.written == 3);
  Property property;
  property.value = 0.3;
  project.panels[0].properties.add("Pset_WallCommon", "ThermalTransmittance", property);
  Written written = results_for(text, project, document_of(project));
  CHECK(written.outcome.written == 2);
  CHECK(written.outcome.stated == 1);
  // Also where the intake could make nothing of it.
  project = *read_text(text).project;
  const std::string odd = replaced(text, "'Height',$,$", "'NetSideArea',$,$");
  REQUIRE(odd != text);
  written = results_for(odd, project, document_of(project));
  CHECK(written.outcome.written == 2);
  CHECK(written.outcome.stated == 1);
}

TEST_CASE("nothing is written of a finding that fails or is open, in another unit, or as text", "[trace]") {
  const std::string text = export_text("hall-ifc4.ifc");
  const Project project = *read_text(text).project;
  ResultsDocument document = document_of(project);
  for (const Verdict verdict : {Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed}) {
    document.panels[0].findings[0].verdict = verdict;
    CHECK(results_for(text, project, document).outcome.written == 2);
  }
  document.panels[0].findings[0].verdict = Verdict::pass;
  CHECK(results_for(text, project, document).outcome.written == 3);
  document.panels[0].findings[0].unit = "m²·K/W";
  CHECK(results_for(text, project, document).outcome.written == 2);
  document.panels[0].findings[1].value = std::string("5.1");
  CHECK(results_for(text, project, document).outcome.written == 1);
}

TEST_CASE("a mass that counts windows is not that of the wall, an assembly is no wall", "[trace]") {
  const std::string text = export_text("hall-ifc4.ifc");
  Project project = *read_text(text).project;
  for (Opening& opening : project.panels[0].openings) opening.filling_entity.clear();
  CHECK(results_for(text, project, document_of(project)).outcome.written == 4);
  project.panels[0].origin.entity = "IfcElementAssembly";
  CHECK(results_for(text, project, document_of(project)).outcome.written == 1);
}

TEST_CASE("a set that another object shares is left as it is", "[trace]") {
  const std::string text = export_text("hall-ifc4.ifc");
  const Project project = *read_text(text).project;
  const std::string shared = replaced(text, "$,$,(#41),#222)", "$,$,(#41,#170),#222)");
  REQUIRE(shared != text);
  const Written written = results_for(shared, project, document_of(project));
  CHECK(written.outcome.shared == 1);
  CHECK(written.outcome.written == 2);
}

TEST_CASE("a set that is not there is told, in both forms", "[trace]") {
  PanelResults results{"", {}, {{"Pset_WallCommon", "0000000000000000000009", {{"A", "", 1.0, "IfcReal"}}}}};
  for (const char* name : {"hall-ifc4.ifc", "hall-ifc4-nested.ifcxml"}) {
    const std::string text = export_text(name);
    results.global_id = read_text(text).project->panels.front().global_id;
    CHECK_THROWS_WITH(export_with_results(text, {results}),
                      "the export has no property set with the GlobalId '0000000000000000000009'");
  }
}

TEST_CASE("what is said of a property stands where its generation has a place for it", "[trace]") {
  const std::string mark(kWrittenBackMark);
  for (const auto& [name, of_property] :
       {std::pair{"hall-ifc4-nested.ifcxml", "Description"}, std::pair{"hall-ifc4x3-nested.ifcxml", "Specification"}}) {
    INFO(name);
    const std::string text = export_text(name);
    const Project project = *read_text(text).project;
    const std::string written = written_export(text, project, document_of(project));
    CHECK_THAT(written, Catch::Contains(std::string(" Name=\"ThermalTransmittance\" ") + of_property + "=\"" + mark));
    CHECK_THAT(written, Catch::Contains(" Name=\"NetSideArea\" Description=\"" + mark));
  }
}

TEST_CASE("a marked member of an ifcXML list goes and leaves the lines behind it their numbers", "[trace]") {
  const std::string head =
      "<ifcXML xmlns=\"https://standards.buildingsmart.org/IFC/RELEASE/IFC4/ADD2_TC1\">\n"
      "<IfcPropertySet GlobalId=\"0000000000000000000001\" Name=\"S\"><HasProperties>\n";
  const std::string marked = "<IfcPropertySingleValue Name=\"A\" Description=\"result of panel-dossier: x\"/>";
  const std::string end = "\n<IfcPropertySingleValue Name=\"B\"/>\n</HasProperties></IfcPropertySet>\n</ifcXML>\n";
  CHECK(xml_with_results(head + marked + end, {}) == head + end);
}

TEST_CASE("marked members go from any place in a list of a STEP file", "[trace]") {
  const std::string head =
      "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_NAME('','',(''),(''),'','','');\n"
      "FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n";
  const std::string end = "ENDSEC;\nEND-ISO-10303-21;\n";
  const std::string marked = "=IFCPROPERTYSINGLEVALUE('A','result of panel-dossier: x',IFCREAL(1.),$);\n";
  const std::string kept = "#3=IFCPROPERTYSINGLEVALUE('B',$,IFCREAL(1.),$);\n";
  const auto set = [](const std::string& list) {
    return "#9=IFCPROPERTYSET('0000000000000000000001',$,'S',$,(" + list + "));\n";
  };
  for (const auto& [before, after] : std::vector<std::pair<std::string, std::string>>{
           {"#1,#2,#3", "#3"}, {"#3,#1,#2", "#3"}, {"#1,#3,#2", "#3"}, {"#1 , #3 ,\n #2", " #3 "}, {"#1", ""}}) {
    INFO(before);
    CHECK(step_with_results(head + "#1" + marked + "#2" + marked + kept + set(before) + end, {}) ==
          head + kept + set(after) + end);
  }
}

}  // namespace
}  // namespace panel_dossier
