// Commands as the program holds them, without the program: what they end with and what they refuse.
#include "core/cli/commands.h"

#include <spdlog/logger.h>
#include <spdlog/sinks/null_sink.h>

#include <CLI/CLI.hpp>
#include <catch2/catch.hpp>
#include <iostream>
#include <memory>
#include <sstream>

#include "core/api/testing/temporary_folder.h"
#include "core/cli/build/nights/earlier_builds.h"
#include "core/cli/ids_command.h"
#include "core/cli/inputs.h"
#include "core/cli/terminal/exit_status.h"
#include "core/intake/ids/ids_check.h"
#include "core/pipeline/record/recorded_finding.h"
#include "core/trace/results_document.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// What is written to a stream meanwhile.
class Overheard {
 public:
  explicit Overheard(std::ostream& stream) : stream_(stream), before_(stream.rdbuf(heard_.rdbuf())) {}
  ~Overheard() { stream_.rdbuf(before_); }
  Overheard(const Overheard&) = delete;
  Overheard& operator=(const Overheard&) = delete;

  std::string text() const { return heard_.str(); }

 private:
  std::ostringstream heard_;
  std::ostream& stream_;
  std::streambuf* before_;
};

/// A build of nothing but one finding of the project.
ResultsDocument build_with(Verdict verdict, const std::string& time_utc) {
  ResultsDocument document;
  document.build.time_utc = time_utc;
  Finding finding;
  finding.check = "x.y";
  finding.verdict = verdict;
  document.project_findings.push_back(FindingRecorder().record(finding));
  return document;
}

int compared(const fs::path& before, const fs::path& after) {
  CLI::App app;
  int status = -1;
  add_compare_command(app, status);
  const Overheard heard(std::cout);
  app.parse("compare " + before.string() + " " + after.string());
  return status;
}

/// The builds that a new one at noon is compared with, by their times.
std::vector<std::string> compared_with(const fs::path& out) {
  spdlog::logger log("build", std::make_shared<spdlog::sinks::null_sink_mt>());
  ResultsDocument document = build_with(Verdict::pass, "2026-06-03T12:00:00Z");
  std::vector<std::string> times;
  for (const Comparison& comparison : compare_with_earlier(document, {}, KeptBuilds(out), out, {}, log).comparisons) {
    times.push_back(comparison.before.time_utc);
  }
  return times;
}

}  // namespace

TEST_CASE("compare ends with 1 when something became worse and with 0 when nothing or something better did") {
  const testing::TemporaryFolder folder;
  folder.write("sound/results.json", to_json(build_with(Verdict::pass, "2026-06-01T02:00:00Z")));
  folder.write("failing/results.json", to_json(build_with(Verdict::fail, "2026-06-02T02:00:00Z")));
  const fs::path sound = folder.path() / "sound";
  const fs::path failing = folder.path() / "failing";
  CHECK(compared(sound, sound) == exit_status::kClean);
  CHECK(compared(sound, failing) == exit_status::kVerdictFails);
  CHECK(compared(failing, sound) == exit_status::kClean);
}

TEST_CASE("A build is compared with the last issue and the last build, once where both are one") {
  const testing::TemporaryFolder folder;
  const fs::path out = folder.path() / "out";
  CHECK(compared_with(out).empty());
  ResultsDocument issued = build_with(Verdict::fail, "2026-06-01T02:00:00Z");
  issued.build.issue = {"P01", "for comment"};
  folder.write("out.issues/P01/issue.json", KeptBuilds::issue_file(issued.build));
  folder.write("out.issues/P01/results.json", to_json(issued));
  folder.write("out/results.json", to_json(issued));
  CHECK(compared_with(out) == std::vector<std::string>{"2026-06-01T02:00:00Z"});
  // Another time, and then other content of the same time.
  ResultsDocument last = issued;
  last.build.time_utc = "2026-06-02T02:00:00Z";
  folder.write("out/results.json", to_json(last));
  CHECK(compared_with(out) == std::vector<std::string>{"2026-06-01T02:00:00Z", "2026-06-02T02:00:00Z"});
  last.build.time_utc = issued.build.time_utc;
  last.build.hash_tree_root = std::string(64, 'a');
  folder.write("out/results.json", to_json(last));
  CHECK(compared_with(out).size() == 2);
}

TEST_CASE("A report of requirements takes the place of such a report and of nothing else") {
  const testing::TemporaryFolder folder;
  const fs::path requirements = folder.write("broken.ids", "no XML");
  const auto status_with = [&](const fs::path& report) {
    const Overheard heard(std::cerr);
    return check_against_ids({requirements, report}, folder.path() / "none.ifcxml", PANEL_DOSSIER_SCHEMA_DIR);
  };
  CHECK(status_with(folder.path() / "new.csv") == exit_status::kInputRefused);
  CHECK(status_with(folder.write("earlier.csv", ids_report_csv({}))) == exit_status::kInputRefused);
  CHECK_THROWS_WITH(status_with(folder.write("notes.csv", "somebody's")), Contains("is no report of such a check"));
}

TEST_CASE("Of warnings in the same words three are shown and the others counted") {
  Diagnostics diagnostics;
  for (const char* message : {"a", "a", "a", "a", "a", "b", "b", "b"}) {
    Diagnostic& diagnostic = diagnostics.emplace_back();
    diagnostic.severity = Severity::warning;
    diagnostic.file = "x.ifcxml";
    diagnostic.message = message;
  }
  diagnostics.emplace_back().message = "refused";
  const Overheard heard(std::cerr);
  print_diagnostics(diagnostics);
  const std::string text = heard.text();
  CHECK(std::count(text.begin(), text.end(), '\n') == 9);
  CHECK_THAT(text,
             Contains("\n2 more warnings of that kind: a\n1 error, 8 warnings\n") && !Contains("of that kind: b"));
}
