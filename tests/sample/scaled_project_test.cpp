// A project that the generator scales up stands as the sample does: what fails in it fails on purpose.
#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "tests/sample/sample_build.h"
#include "tests/support/command.h"

namespace panel_dossier {
namespace {

// Of the second, fourth, eleventh (first of the second row) and seventeenth wing.
constexpr const char* kScaledMarks = "W2-W1-02,W4-E1-03,W11-N0-01,W17-S1-02";

/// Marks of the panels by verdict of a check.
std::map<std::string, std::set<std::string>> verdicts_of(const nlohmann::json& results, const std::string& check) {
  std::map<std::string, std::set<std::string>> marks;
  for (const auto& panel : results.at("panels")) {
    for (const auto& finding : panel.at("findings")) {
      if (finding.at("check") == check) marks[finding.at("verdict")].insert(panel.at("mark").get<std::string>());
    }
  }
  return marks;
}

}  // namespace

TEST_CASE("panels of the far wings of a scaled project are lifted, recorded and supplied like those of the first",
          "[plain]") {
  const testing::TemporaryFolder folder;
  const auto project = folder.path() / "project";
  REQUIRE(run_command(PANEL_DOSSIER_SAMPLE_GENERATOR " --panels 1000 --only " + std::string(kScaledMarks) +
                      " --project " + quoted(project))
              .status == 0);
  const auto out = folder.path() / "out";
  const CommandResult built = run_command(build_command(project / "health-centre.ifcxml", out));
  INFO(built.err);
  REQUIRE(built.status == 1);
  const auto results = nlohmann::json::parse(text_of(out / "results.json"));
  const std::set<std::string> all = {"W2-W1-02", "W4-E1-03", "W11-N0-01", "W17-S1-02"};
  using Verdicts = std::map<std::string, std::set<std::string>>;
  CHECK(verdicts_of(results, "structural.crane_capacity") == Verdicts{{"pass", all}});
  // Nothing of these is judged where nothing is missing.
  for (const char* check : {"structural.wind_pressure", "carbon.chain_of_custody"}) {
    INFO(check);
    CHECK(verdicts_of(results, check) == Verdicts{{"information", all}});
  }
  CHECK(verdicts_of(results, "quantities.as_built_size") ==
        Verdicts{{"fail", {"W4-E1-03"}}, {"pass", {"W2-W1-02", "W11-N0-01", "W17-S1-02"}}});
  // It was accepted all the same.
  CHECK(verdicts_of(results, "quantities.records") ==
        Verdicts{{"evidence needed", {"W4-E1-03"}}, {"pass", {"W2-W1-02", "W11-N0-01", "W17-S1-02"}}});
}

}  // namespace panel_dossier
