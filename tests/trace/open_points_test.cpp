#include "core/trace/open_points.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

namespace {

Finding finding(const std::string& check, Verdict verdict, const std::string& reason) {
  Finding made;
  made.check = check;
  made.title = "Title of " + check;
  made.verdict = verdict;
  made.reason = reason;
  return made;
}

PanelSummary panel(const std::string& mark, std::vector<Finding> findings) {
  PanelSummary made;
  made.global_id = "id-" + mark;
  made.mark = mark;
  made.findings = FindingRecorder().record_all(std::move(findings));
  return made;
}

}  // namespace

TEST_CASE("Findings of one cause are one point, whatever the numbers in their reasons") {
  ResultsDocument document;
  document.panels = {
      panel("A", {finding("x.lift", Verdict::not_assessed, "radius 41.2 m is beyond the table"),
                  finding("x.area", Verdict::pass, "")}),
      panel("B", {finding("x.lift", Verdict::not_assessed, "radius 47 m is beyond the table")}),
      panel("C", {finding("x.lift", Verdict::fail, "too heavy"), finding("x.fire", Verdict::evidence_needed, "none")})};
  document.project_findings =
      FindingRecorder().record_all({finding("x.lift", Verdict::not_assessed, "radius 50.0 m is beyond the table")});
  const auto points = open_points(document);
  REQUIRE(points.size() == 4);
  CHECK(points[0].verdict == Verdict::fail);
  CHECK(points[1].verdict == Verdict::evidence_needed);
  CHECK(points[2].marks == std::vector<std::string>{"A", "B"});
  CHECK(points[2].what == "radius 41.2 m is beyond the table");
  CHECK(points[2].first_panel == "id-A");
  CHECK(points[3].marks.empty());
  CHECK(count_of(points, Verdict::not_assessed) == 2);
  CHECK(count_of(points, Verdict::fail) == 1);
  CHECK(count_of(points, Verdict::pass) == 0);
  CHECK(subject_of(points[0]) == "panel 'C'");
  CHECK(subject_of(points[2]) == "2 panels: A, B");
  CHECK(subject_of(points[3]) == "the project");
}

TEST_CASE("What checks of one discipline say alike of the same panels is one point") {
  ResultsDocument document;
  document.panels = {panel("A", {finding("x.paper", Verdict::evidence_needed, "no file"),
                                 finding("x.class", Verdict::evidence_needed, "no file"),
                                 finding("y.paper", Verdict::evidence_needed, "no file"),
                                 finding("x.size", Verdict::not_assessed, "no file")}),
                     panel("B", {finding("x.other", Verdict::evidence_needed, "no file")})};
  const auto points = open_points(document);
  REQUIRE(points.size() == 4);
  CHECK(points[0].check == "x.other");
  CHECK(points[1].check == "x.paper; x.class");
  CHECK(points[1].title == "Title of x.paper; Title of x.class");
  CHECK(points[1].marks == std::vector<std::string>{"A"});
  CHECK(points[2].check == "y.paper");
  CHECK(points[3].check == "x.size");
}

TEST_CASE("A failure with a figure is named with its value and limit") {
  Finding heavy = finding("x.lift", Verdict::fail, "too heavy");
  heavy.value = 1.234;
  heavy.limit = 1.0;
  heavy.unit = "t";
  ResultsDocument document;
  document.panels = {panel("A", {heavy})};
  CHECK(open_points(document).at(0).what == "1.23 t against 1.00 t: too heavy");
}

TEST_CASE("A failure by a short length is named in millimetres, a longer one in metres") {
  Finding crooked = finding("x.size", Verdict::fail, "out of tolerance");
  crooked.value = 0.0034;
  crooked.limit = 0.003;
  crooked.unit = "m";
  crooked.decimals = 4;
  ResultsDocument document;
  document.panels = {panel("A", {crooked})};
  CHECK(open_points(document).at(0).what == "3.4 mm against 3.0 mm: out of tolerance");
  crooked.value = 0.12;
  document.panels = {panel("A", {crooked})};
  CHECK(open_points(document).at(0).what == "0.1200 m against 3.0 mm: out of tolerance");
}

TEST_CASE("The table of open points names every panel") {
  OpenPoint point;
  point.verdict = Verdict::fail;
  point.check = "x.lift";
  point.title = "Lift";
  point.what = "beyond the \"table\", far";
  point.who = "designer";
  point.marks = {"A", "B", "C", "D", "E", "F", "G"};
  CHECK(open_points_csv({point}) ==
        "verdict,check,title,what,who,panels,marks\r\nfail,x.lift,\"Lift\",\"beyond the \"\"table\"\", "
        "far\",\"designer\",7,\"A B C D E F G\"\r\n");
  CHECK(subject_of(point) == "7 panels: A, B, C, D, E, F, …");
}

TEST_CASE("A discipline without any result is one point in short, and its causes stay in the table") {
  ResultsDocument document;
  document.build.plugins.resize(2);
  document.build.plugins[0].id = "heat";
  document.build.plugins[0].title = "Heat";
  document.build.plugins[1].id = "mass";
  Finding weighed = finding("mass.all", Verdict::information, "");
  weighed.value = 12.0;
  document.panels = {panel("A", {finding("heat.u", Verdict::not_assessed, "no conductivity"), weighed,
                                 finding("mass.hook", Verdict::not_assessed, "no crane")})};
  document.project_findings =
      FindingRecorder().record_all({finding("heat.loss", Verdict::evidence_needed, "no report")});
  CHECK(disciplines_without_result(document) == std::vector<std::string>{"heat"});
  const auto points = open_points(document);
  REQUIRE(points.size() == 3);
  const auto shown = in_short(points, document);
  REQUIRE(shown.size() == 2);
  CHECK(shown[0].title == "Heat");
  CHECK(shown[0].what ==
        "nothing of this discipline can be assessed yet; open-points.csv holds the 2 causes, and `panel-dossier check` "
        "says what is missing and where it can come from");
  CHECK(shown[1].check == "mass.hook");
}

TEST_CASE("A discipline with one figure, pass or fail is not without result") {
  ResultsDocument document;
  document.build.plugins.resize(1);
  document.build.plugins[0].id = "heat";
  CHECK(disciplines_without_result(document).empty());  // it was not run
  document.panels = {panel("A", {finding("heat.u", Verdict::not_assessed, "no conductivity")})};
  CHECK(disciplines_without_result(document).size() == 1);
  document.project_findings = FindingRecorder().record_all({finding("heat.loss", Verdict::fail, "too much")});
  CHECK(disciplines_without_result(document).empty());
  document.project_findings = FindingRecorder().record_all({finding("heat.loss", Verdict::pass, "")});
  CHECK(disciplines_without_result(document).empty());
}
