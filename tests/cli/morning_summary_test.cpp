#include "core/cli/build/nights/morning_summary.h"

#include <catch2/catch.hpp>

#include "core/api/testing/temporary_folder.h"
#include "core/cli/build/outcome.h"
#include "core/cli/terminal/exit_status.h"
#include "core/intake/document/file_bytes.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

/// Panels of one finding of each of these verdicts.
ResultsDocument document_with(const std::vector<Verdict>& verdicts, std::size_t panels) {
  ResultsDocument document;
  document.project.name = "Example Hall";
  document.build.time_utc = "2026-06-03T02:00:00Z";
  FindingRecorder recorder;
  for (std::size_t i = 0; i < panels; ++i) {
    PanelSummary panel;
    panel.global_id = "id-" + std::to_string(i);
    panel.mark = "P-" + std::to_string(i);
    for (const Verdict verdict : verdicts) {
      Finding finding;
      finding.check = "quarry.check_" + std::to_string(static_cast<int>(verdict));
      finding.verdict = verdict;
      panel.findings.push_back(recorder.record(std::move(finding)));
    }
    document.panels.push_back(std::move(panel));
  }
  return document;
}

std::string state_of(const std::vector<Verdict>& verdicts, std::size_t panels, std::size_t points) {
  return summary_of(document_with(verdicts, panels), std::vector<OpenPoint>(points), {}, "out/dossier.pdf")
      .lines[0]
      .second;
}

Comparison comparison_with(const std::vector<Change>& changes) {
  Comparison comparison;
  comparison.before.time_utc = "2026-06-02T02:00:00Z";
  comparison.changes = changes;
  return comparison;
}

Change worse(const std::string& check, const std::string& mark) {
  Change change{ChangeKind::verdict_moved, mark, check, "1, pass", "2, fail", true};
  change.verdict_before = Verdict::pass;
  change.verdict_after = Verdict::fail;
  return change;
}

std::string line_of(const std::vector<Comparison>& comparisons, std::size_t line) {
  return summary_of(document_with({Verdict::pass}, 1), {}, comparisons, "out/dossier.pdf").lines.at(line).second;
}

}  // namespace

TEST_CASE("The state of a build is that of its worst verdict, with every verdict counted") {
  CHECK(state_of({Verdict::pass}, 1, 0) ==
        "all pass: 0 fail, 0 evidence needed, 0 not assessed, 1 pass in 1 panel; 0 open causes");
  CHECK(state_of({Verdict::pass, Verdict::fail, Verdict::not_assessed}, 3, 1) ==
        "FAILS: 3 fail, 0 evidence needed, 3 not assessed, 3 pass in 3 panels; 1 open cause");
  CHECK_THAT(state_of({Verdict::evidence_needed}, 1, 1), Catch::Matchers::StartsWith("OPEN: "));
  CHECK_THAT(state_of({Verdict::not_assessed}, 1, 1), Catch::Matchers::StartsWith("OPEN: "));
  auto incomplete = document_with({Verdict::pass}, 1);
  incomplete.build.incomplete = true;
  CHECK_THAT(summary_of(incomplete, {}, {}, "").lines[0].second, Catch::Matchers::StartsWith("INCOMPLETE, all pass: "));
}

TEST_CASE("The exit status follows the worst verdict, and an incomplete build above all") {
  CHECK(status_of(document_with({Verdict::pass, Verdict::information}, 2)) == exit_status::kClean);
  CHECK(status_of(document_with({Verdict::evidence_needed}, 1)) == exit_status::kOpen);
  CHECK(status_of(document_with({Verdict::not_assessed}, 1)) == exit_status::kOpen);
  CHECK(status_of(document_with({Verdict::not_assessed, Verdict::fail}, 1)) == exit_status::kVerdictFails);
  auto incomplete = document_with({Verdict::fail}, 1);
  incomplete.build.incomplete = true;
  CHECK(status_of(incomplete) == exit_status::kIncomplete);
}

TEST_CASE("What became worse is named, three groups and how many more") {
  CHECK(line_of({}, 1) == "no earlier build to compare with");
  CHECK(line_of({comparison_with({})}, 1) == "none since the build of 2026-06-02T02:00:00Z");
  CHECK(line_of({comparison_with({worse("quarry.dust", "P-1")})}, 1) ==
        "1 since the build of 2026-06-02T02:00:00Z (quarry.dust of 'P-1')");
  CHECK(line_of({comparison_with({worse("quarry.dust", "")})}, 1) ==
        "1 since the build of 2026-06-02T02:00:00Z (quarry.dust of the project)");
  CHECK(line_of({comparison_with({worse("quarry.dust", "P-1"), worse("quarry.dust", "P-2")})}, 1) ==
        "2 since the build of 2026-06-02T02:00:00Z (quarry.dust (2))");
  CHECK(line_of({comparison_with({worse("a.a", "P-1"), worse("a.b", "P-1"), worse("a.c", "P-1")})}, 1) ==
        "3 since the build of 2026-06-02T02:00:00Z (a.a of 'P-1', a.b of 'P-1', a.c of 'P-1')");
  CHECK(line_of({comparison_with({worse("a.a", "P-1"), worse("a.b", "P-1"), worse("a.c", "P-1"), worse("a.d", "P-1")})},
                1) == "4 since the build of 2026-06-02T02:00:00Z (a.a of 'P-1', a.b of 'P-1', a.c of 'P-1', 1 more)");
}

TEST_CASE("The causes are those of the last comparison, with what none of them explains") {
  CHECK(line_of({}, 2) == "no earlier build to compare with");
  CHECK(line_of({comparison_with({})}, 2) == "nothing changed since the build of 2026-06-02T02:00:00Z");
  Comparison moved = comparison_with({worse("quarry.dust", "P-1")});
  moved.causes = {{CauseKind::setting, "quarry.depth_m", "22.5", "25", {}, {4, 1, 1}}};
  CHECK(line_of({comparison_with({}), moved}, 2) ==
        "setting quarry.depth_m: 22.5 -> 25 (4 figures, 1 verdict (1 worse))");
  moved.not_attributed = {1, 0, 0};
  CHECK_THAT(line_of({moved}, 2), Contains("; not attributed (1 figure,"));
  moved.not_attributed = {0, 2, 0};
  CHECK_THAT(line_of({moved}, 2), Contains("; not attributed (0 figures, 2 verdicts"));
}

TEST_CASE("Issue, signature and the run's own faults are told") {
  auto document = document_with({Verdict::pass}, 1);
  CHECK(summary_of(document, {}, {}, "").lines[3].second == "a working build, no issue; NOT SIGNED FOR ISSUE");
  document.build.issue = {"P03", "for construction"};
  document.build.signed_for_issue = true;
  document.build.failures = {"a plugin failed"};
  document.build.warnings = {"the clock went backwards"};
  const MorningSummary summary = summary_of(document, {}, {}, "out/dossier.pdf");
  CHECK(summary.lines[3].second == "issue P03, for construction; signed for issue");
  CHECK(summary.lines[4].second == "out/dossier.pdf");
  REQUIRE(summary.sections.size() == 1);
  CHECK(summary.sections[0].heading == "The run itself");
  CHECK(summary.sections[0].lines == std::vector<std::string>{"a plugin failed", "the clock went backwards"});
}

TEST_CASE("A section of the page holds forty lines and says how many it leaves out") {
  const auto open_lines = [](std::size_t points) {
    const auto sections = summary_of(document_with({}, 1), std::vector<OpenPoint>(points), {}, "").sections;
    return sections.at(0).lines;
  };
  CHECK(open_lines(40).size() == 40);
  CHECK(open_lines(40).back() != "and 0 more");
  CHECK(open_lines(42).size() == 41);
  CHECK(open_lines(42).back() == "and 2 more");
}

TEST_CASE("A page is escaped, and text and page are written beside each other") {
  MorningSummary summary = summary_of_failure("no <space>", "a \"disk\" & 'more'", "", "");
  summary.sections = {{"Heading", {"one", "two"}}};
  CHECK_THAT(summary_html(summary), Contains("no &lt;space&gt;") &&
                                        Contains("a &quot;disk&quot; &amp; &#39;more&#39;") &&
                                        Contains("<h2>Heading</h2>\n<ul>\n<li>one</li>\n<li>two</li>\n</ul>\n"));
  CHECK(five_lines(summary) ==
        "state: NO BUILD: no <space>\nreason: a \"disk\" & 'more'\ncauses: not known without a build\n"
        "log: none is kept\ndossier: \n");
  CHECK(summary_text(summary) ==
        "panel-dossier: no build: no <space>\n\n" + five_lines(summary) + "\nHeading\n  one\n  two\n");
  using Pair = std::pair<std::filesystem::path, std::filesystem::path>;
  CHECK(summary_files("a/morning") == Pair{"a/morning.txt", "a/morning.html"});
  CHECK(summary_files("a/morning.txt") == Pair{"a/morning.txt", "a/morning.html"});
  CHECK(summary_files("a/morning.html") == Pair{"a/morning.txt", "a/morning.html"});
  CHECK(summary_files("a/morning.log") == Pair{"a/morning.log.txt", "a/morning.log.html"});
  const testing::TemporaryFolder folder;
  write_summary(summary, folder.path() / "morning.txt");
  CHECK(read_file(folder.path() / "morning.txt") == summary_text(summary));
  CHECK(read_file(folder.path() / "morning.html") == summary_html(summary));
}
