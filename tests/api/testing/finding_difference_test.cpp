// Two findings are the same only when every member is.
#include "core/api/testing/finding_difference.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <string>
#include <utility>
#include <vector>

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// A finding with one of everything.
Finding full() {
  Finding finding;
  finding.check = "toy.load";
  finding.value = 3.0;
  finding.inputs = {{"load", "F", 2.0, "kN", {}}};
  finding.steps = {{"design load", "F_d", 3.0, "kN", "F_d = 1.5 · F"}};
  finding.values = {{"design", 3.0, "kN"}};
  finding.notes = {"a note"};
  finding.tables = {{"loads", {{"F", "kN"}}, {{1.0}, {2.0}}}};
  finding.series = {{"line", "x", "m", "y", "m", {{"curve", {{0.0, 1.0}}}}}};
  finding.bar_charts = {{"bars", "m", "m", {"part"}, {{"bar", {{0, 0.0, 1.0}}}}}};
  Drawing drawing;
  drawing.title = "panel";
  drawing.lines = {{{0.0, 0.0}, {1.0, 0.0}, LineStyle::thin}};
  drawing.polygons = {{{{0.0, 0.0}, {1.0, 0.0}, {1.0, 1.0}}, Hatch::timber, LineStyle::thin, "stud", 1}};
  drawing.dimensions = {{{0.0, 0.0}, {1.0, 0.0}, 0.1, ""}};
  drawing.texts = {{{0.0, 0.0}, "P1"}};
  finding.drawings = {drawing};
  return finding;
}

}  // namespace

TEST_CASE("Findings with the same members do not differ") {
  CHECK(finding_difference(full(), full()).empty());
  Finding one = full();
  one.value = std::nan("");
  CHECK(finding_difference(one, one).empty());
}

TEST_CASE("The first member that differs is named, with both contents") {
  using Edit = std::function<void(Finding&)>;
  const std::vector<std::pair<std::string, Edit>> edits{
      {"check: 'toy.load' and 'toy.class'", [](Finding& f) { f.check = "toy.class"; }},
      {"verdict: 'not assessed' and 'pass'", [](Finding& f) { f.verdict = Verdict::pass; }},
      {"value: 3 and 'heavy'", [](Finding& f) { f.value = "heavy"; }},
      {"value: 3 and nothing", [](Finding& f) { f.value = {}; }},
      {"limit: nothing and 4", [](Finding& f) { f.limit = 4.0; }},
      {"utilisation: nothing and 0.5", [](Finding& f) { f.utilisation = 0.5; }},
      {"reason: '' and 'why'", [](Finding& f) { f.reason = "why"; }},
      {"inputs[0].origin.line: 0 and 7", [](Finding& f) { f.inputs.front().origin.line = 7; }},
      {"inputs[0].origin.key: '' and 'k'", [](Finding& f) { f.inputs.front().origin.key = "k"; }},
      {"steps[0].value: 3 and 3.5", [](Finding& f) { f.steps.front().value = 3.5; }},
      {"steps: 1 and 2 entries", [](Finding& f) { f.steps.push_back(f.steps.front()); }},
      {"values[0].unit: 'kN' and 'N'", [](Finding& f) { f.values.front().unit = "N"; }},
      {"notes[0]: 'a note' and 'another'", [](Finding& f) { f.notes.front() = "another"; }},
      {"tables[0].rows[1][0]: 2 and 5", [](Finding& f) { f.tables.front().rows[1][0] = 5.0; }},
      {"series[0].curves[0].points[0]: 1 and 2", [](Finding& f) { f.series[0].curves[0].points[0].y = 2.0; }},
      {"bar_charts[0].bars[0].pieces[0].to: 1 and 2", [](Finding& f) { f.bar_charts[0].bars[0].pieces[0].to = 2.0; }},
      {"drawings[0].polygons[0].tint: 1 and 2", [](Finding& f) { f.drawings[0].polygons[0].tint = 2; }},
      {"drawings[0].lines[0].style: 0 and 2", [](Finding& f) { f.drawings[0].lines[0].style = LineStyle::heavy; }},
      {"drawings[0].dimensions[0].text: '' and '1 m'", [](Finding& f) { f.drawings[0].dimensions[0].text = "1 m"; }},
      {"drawings[0].texts[0].at: 0 and 1", [](Finding& f) { f.drawings[0].texts[0].at.x = 1.0; }}};
  for (const auto& [difference, edit] : edits) {
    Finding other = full();
    edit(other);
    CHECK(finding_difference(full(), other) == difference);
  }
}

TEST_CASE("Of a text that differs 120 letters are shown") {
  Finding one = full();
  Finding other = full();
  one.notes = {std::string(120, 'a')};
  other.notes = {std::string(121, 'b')};
  const std::string found = finding_difference(one, other);
  CHECK_THAT(found, Catch::Contains("'" + std::string(120, 'a') + "' and '" + std::string(120, 'b') + "…'"));
}

TEST_CASE("Outcomes differ by their findings, and by the checks that do not apply") {
  const CheckOutcome one{{full()}, {{"toy.openings", "the panel has no opening"}}};
  CHECK(outcome_difference(one, one).empty());
  CheckOutcome other = one;
  other.findings.front().notes.clear();
  CHECK(outcome_difference(one, other) == "toy.load: notes: 1 and 0 entries");
  CHECK(outcome_difference(one, {}) == "1 and 0 findings");
  other = one;
  other.not_applicable.front().reason = "another";
  CHECK(outcome_difference(one, other) ==
        "checks that do not apply[0]: 'toy.openings: the panel has no opening' and 'toy.openings: another'");
}
