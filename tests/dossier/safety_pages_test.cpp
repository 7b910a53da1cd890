#include <catch2/catch.hpp>

#include "core/api/finding/roles.h"
#include "core/dossier/dossier.h"
#include "tests/dossier/shipped_guidance.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

std::string text_of(const test::SyntheticDossier& made, const std::string& name) {
  const auto file = test::temporary_file(name);
  write_dossier(made.content(), test::installed_fonts(), file);
  return test::output_of("pdftotext -layout '" + file.string() + "' - 2>/dev/null");
}

std::vector<std::string> pages_with(const std::string& text, const std::string& words) {
  std::vector<std::string> pages;
  std::istringstream stream(text);
  for (std::string page; std::getline(stream, page, '\f');) {
    if (page.find(words) != std::string::npos) pages.push_back(page);
  }
  return pages;
}

}  // namespace

TEST_CASE("the table of dismantling never offers a lifting point that is not shown to be for repeated use") {
  auto made = test::synthetic_dossier(1, 5);
  Part loop = test::box_part(PartKind::fastener, "Loop", 0, {0, 0, 3}, {0.1, 0.1, 3.1});
  loop.object_type = "LIFTING LOOP";
  made.project.panels[0].parts.push_back(loop);
  CHECK_THAT(text_of(made, "loops.pdf"), Contains("reuse not shown: not for lifting again"));
  made.project.panels[0].parts.back().properties.add(
      "Panel_Lifting", "Reuse",
      {std::string("SINGLE_USE"), "", test::export_origin("IfcPropertySingleValue", "Reuse", 7)});
  const std::string text = text_of(made, "single_loops.pdf");
  CHECK_THAT(text, Contains("single use: not for lifting again"));
  CHECK_THAT(text, !Contains("stated for repeated use"));
}

TEST_CASE("lifting findings are spoken of only where there are some") {
  auto made = test::synthetic_dossier(1, 5);
  CHECK_THAT(text_of(made, "no_lifting.pdf"), Contains("holds no check of lifting points"));
  test::claim(made.results.build, role::kLifting, made.results.panels[0].findings[0].check);
  CHECK_THAT(text_of(made, "lifting.pdf"), Contains("The lifting findings on the page of each panel"));
}

TEST_CASE("the table of dismantling gives the centre of gravity by axis and datum") {
  auto made = test::synthetic_dossier(1, 1);
  RecordedFinding& recorded = made.results.panels[0].findings[0];
  Finding finding = whole_finding(recorded);
  test::claim(made.results.build, role::kCentreOfGravity, finding.check);
  finding.values = {{"from_left_edge", 1.2345, "m"}, {"from_inner_face", 0.1114, "m"}, {"from_foot", 1.6789, "m"}};
  recorded = FindingRecorder().record(finding);
  const auto pages = pages_with(text_of(made, "centre.pdf"), "Dismantling, in the reverse order of erection");
  REQUIRE(pages.size() == 1);
  CHECK_THAT(pages[0], Contains("x from its left edge, y from its inner face, z from its foot") ||
                           Contains("x from its left edge, y from its inner"));
  for (const char* value : {"1.234", "0.111", "1.679"}) CHECK_THAT(pages[0], Contains(value));
}

TEST_CASE("every page of a panel says where the cautions stand, and its part begins with them in full") {
  auto made = test::synthetic_dossier(1, 25);
  made.results.build.plugins[1].caution = "Short warning. The longer part of the warning.";
  const std::string text = text_of(made, "cautions.pdf");
  const auto pages = pages_with(text, "5 Panels: P-1");
  REQUIRE(pages.size() == 2);
  for (const std::string& page : pages) CHECK_THAT(page, Contains("All cautions in full: part 7"));
  const auto first = pages_with(text, "Two pages a panel");
  REQUIRE(first.size() == 1);
  CHECK_THAT(first[0], Contains("Short warning. The longer part of"));
}

TEST_CASE("a project without cautions has no caution boxes") {
  auto made = test::synthetic_dossier(1, 5);
  for (PluginSummary& plugin : made.results.build.plugins) plugin.caution.clear();
  CHECK_THAT(text_of(made, "no_cautions.pdf"), !Contains("All cautions in full"));
}

TEST_CASE("a panel that does not carry its load in a fire is listed under no proved class") {
  auto made = test::synthetic_dossier(2, 0);
  for (std::size_t panel = 0; panel < 2; ++panel) {
    test::put_role(made, panel, role::kFireResistance, std::string("EI 60"), Verdict::pass);
    test::put_role(made, panel, role::kBearingInFire, std::string("R 60"), Verdict::pass);
  }
  test::put_role(made, 1, role::kBearingInFire, std::string("R 30"), Verdict::fail);
  const auto table_of = [](const test::SyntheticDossier& dossier) {
    const auto pages = pages_with(text_of(dossier, "proof.pdf"), "Which panels are proved, for how long");
    REQUIRE(pages.size() == 1);
    return pages[0];
  };
  CHECK_THAT(table_of(made), Contains("REI 60") && Contains("NOT PROVED") && !Contains("EI 60, R 30"));
  // Nobody says whether it carries its load, and nobody says anything of the other.
  made.results.panels[0].findings.pop_back();
  made.results.panels[1].findings.clear();
  CHECK_THAT(table_of(made), !Contains("EI 60") && Contains("P-1") && Contains("P-2"));
}

TEST_CASE("a lifting certificate that proves nothing on the day of assessment says so beside its id") {
  auto made = test::synthetic_dossier(1, 5);
  made.settings.set("project.assessment_date", std::string("2026-06-01"));
  made.project.evidence[0].kind = EvidenceKind::lifting_certificate;
  made.project.evidence[0].expires = "2026-05-31";
  CHECK_THAT(text_of(made, "expired_loops.pdf"), Contains("DOES NOT"));
  made.project.evidence[0].expires = "2026-06-01";
  CHECK_THAT(text_of(made, "valid_loops.pdf"), !Contains("DOES NOT"));
}

TEST_CASE("the lifting table gives load, radius, points and stop wind as the checks found them") {
  auto made = test::synthetic_dossier(2, 0);
  const auto put = [&made](std::size_t panel, std::string_view role, double value, double limit, Verdict verdict,
                           const std::vector<NamedValue>& values) {
    test::put_role(made, panel, role, value, verdict);
    RecordedFinding& recorded = made.results.panels[panel].findings.back();
    Finding finding = whole_finding(recorded);
    finding.limit = limit;
    finding.values = values;
    recorded = FindingRecorder().record(finding);
  };
  put(0, role::kHookLoad, 2295.0, 3800.0, Verdict::pass, {{"radius", 20.06, "m"}});
  put(1, role::kHookLoad, 2690.0, 2600.0, Verdict::fail, {{"radius", 33.33, "m"}});
  put(0, role::kLifting, 6.2, 10.0, Verdict::pass, {{"points", 4.0, ""}, {"stop_wind", 9.0, "m/s"}});
  test::put_role(made, 0, role::kTurningUp, std::string("in a turning frame"), Verdict::information);
  RecordedFinding deliveries = made.results.panels[0].findings.back();
  Finding loads = whole_finding(deliveries);
  loads.check = "structural.loads";
  loads.panel.clear();
  loads.tables = {{"Panels by load",
                   {{"load", ""}, {"global id", ""}},
                   {{7.0, made.project.panels[0].global_id}},
                   "panels_by_load"}};
  made.results.project_findings = {FindingRecorder().record(loads)};
  test::claim(made.results.build, role::kDeliveries, loads.check);

  const auto file = test::temporary_file("lifting_table.pdf");
  write_workshop(made.content(), test::installed_fonts(), file);
  const std::string text = test::output_of("pdftotext -layout -l 1 '" + file.string() + "' - 2>/dev/null");
  const auto row_of = [&text](const std::string& mark) {
    const std::size_t begin = text.find("\n" + mark + " ");
    return begin == std::string::npos ? std::string() : text.substr(begin + 1, text.find('\n', begin + 1) - begin - 1);
  };
  const std::string first = row_of(made.results.panels[0].mark);
  const std::string second = row_of(made.results.panels[1].mark);
  for (const char* words : {" 7 ", "2295", "20.1", "3800", " 4 ", "6.20", "10.00", "in a turning frame"})
    CHECK_THAT(first, Contains(words));
  for (const char* words : {"2690", "33.3", "2600"}) CHECK_THAT(second, Contains(words));
  CHECK_THAT(second, !Contains("6.20"));
  CHECK_THAT(text, Contains("Lifting stops at a wind of 9 m/s"));
  CHECK_THAT(text, !Contains("No wind at which lifting stops"));
}
