// What a build says while it runs and when it is done.
#include <spdlog/logger.h>
#include <spdlog/sinks/ostream_sink.h>

#include <catch2/catch.hpp>
#include <iostream>
#include <memory>
#include <sstream>

#include "core/cli/build/outcome.h"
#include "core/cli/terminal/console_progress.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

/// What is written to the standard error meanwhile.
class HeardErrors {
 public:
  HeardErrors() : before_(std::cerr.rdbuf(heard_.rdbuf())) {}
  ~HeardErrors() { std::cerr.rdbuf(before_); }
  HeardErrors(const HeardErrors&) = delete;
  HeardErrors& operator=(const HeardErrors&) = delete;

  std::string text() const { return heard_.str(); }

 private:
  std::ostringstream heard_;
  std::streambuf* before_;
};

OpenPoint point_of(Verdict verdict, const std::string& check) {
  OpenPoint point;
  point.verdict = verdict;
  point.check = check;
  point.what = "why";
  return point;
}

}  // namespace

TEST_CASE("A stage is told when it begins and when it is done, and a quiet build tells nothing") {
  for (const bool shown : {true, false}) {
    const HeardErrors heard;
    ConsoleProgress progress(shown);
    progress.begin("checking", 20);
    progress.advance(1);
    progress.advance(19);
    const bool has_begun = heard.text().find("checking: 0 / 20") != std::string::npos;
    const bool is_done = heard.text().find("checking: 20 / 20") != std::string::npos;
    CHECK(has_begun == shown);
    CHECK(is_done == shown);
    CHECK(heard.text().empty() != shown);
  }
}

TEST_CASE("A failed check is an error of the log, what is open a warning, and causes are counted") {
  std::ostringstream text;
  spdlog::logger log("build", std::make_shared<spdlog::sinks::ostream_sink_mt>(text));
  log.set_pattern("%l: %v");
  ResultsDocument document;
  document.build.failures = {"a plugin is not there"};
  document.build.withheld = {"a claim"};
  log_outcome(log, document,
              {point_of(Verdict::fail, "x.fails"), point_of(Verdict::evidence_needed, "x.lacks"),
               point_of(Verdict::not_assessed, "x.unknown")},
              {});
  CHECK_THAT(text.str(), Contains("error: a plugin is not there\n"));
  CHECK_THAT(text.str(), Contains("error: the project: x.fails: fail: why\n"));
  CHECK_THAT(text.str(), Contains("warning: the project: x.lacks: evidence needed: why\n"));
  CHECK_THAT(text.str(), Contains("warning: the project: x.unknown: not assessed: why\n"));
  CHECK_THAT(text.str(), Contains("causes: 1 fail, 1 evidence needed, 1 not assessed") &&
                             Contains("claims withheld: 1") && Contains("warning: not signed for issue"));
}
