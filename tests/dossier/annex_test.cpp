#include <catch2/catch.hpp>

#include "core/dossier/parts/annex/annex_index.h"
#include "core/dossier/parts/check_summary.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;

namespace {

const auto kAll = [](const RecordedFinding&) { return true; };

}  // namespace

TEST_CASE("The annex numbers each derivation once and names the panels that it serves") {
  const test::SyntheticDossier made = test::synthetic_dossier(3, 4);
  const AnnexIndex annex(made.results, kAll);
  // The first finding's working is the project's too, but a project's finding is printed for itself.
  REQUIRE(annex.entries().size() == 5);
  for (std::size_t i = 0; i < annex.entries().size(); ++i) {
    const AnnexEntry& entry = annex.entries()[i];
    CHECK(entry.number == i + 1);
    CHECK(entry.panels ==
          (entry.finding->panel.empty() ? std::vector<std::size_t>{} : std::vector<std::size_t>{0, 1, 2}));
  }
  for (std::size_t panel = 0; panel < 3; ++panel) {
    for (std::size_t finding = 0; finding < 4; ++finding) {
      REQUIRE(annex.of_panel(panel, finding) != nullptr);
      CHECK(annex.of_panel(panel, finding)->finding->check == made.results.panels[panel].findings[finding].check);
    }
  }
}

TEST_CASE("Findings of one derivation with another reason, verdict or limit are printed apart") {
  test::SyntheticDossier made = test::synthetic_dossier(4, 1);
  made.results.panels[1].findings[0].reason = "another";
  made.results.panels[2].findings[0].verdict = Verdict::fail;
  made.results.panels[3].findings[0].limit = 12345.0;
  const AnnexIndex annex(made.results, kAll);
  std::set<std::size_t> numbers;
  for (std::size_t panel = 0; panel < 4; ++panel) numbers.insert(annex.of_panel(panel, 0)->number);
  CHECK(numbers.size() == 4);
}

TEST_CASE("The annex stands by discipline in the order of the plugins, then by check, then by type") {
  test::SyntheticDossier made = test::synthetic_dossier(4, 6);  // the fourth panel is of another type
  made.results.panels[0].findings[5].reason = "of the last type";
  made.results.panels[0].type = "Z9";
  const AnnexIndex annex(made.results,
                         [](const RecordedFinding& finding) { return !finding.check.starts_with("fire."); });
  std::vector<std::string> checks;
  for (const AnnexEntry& entry : annex.entries()) checks.push_back(entry.finding->check);
  const std::vector<std::string> expected{"thermal.check_0",   "thermal.check_0",    "thermal.check_5",
                                          "thermal.check_5",   "structural.check_1", "carbon.check_3",
                                          "quantities.check_4"};
  std::vector<std::string> by_plugin;
  for (const PluginSummary& plugin : made.results.build.plugins) {
    for (const std::string& check : expected) {
      if (check.substr(0, check.find('.')) == plugin.id) by_plugin.push_back(check);
    }
  }
  CHECK(checks == by_plugin);
  CHECK(annex.of_panel(0, 2) == nullptr);  // fire is left out
  CHECK(annex.of_panel(0, 5)->number == annex.of_panel(1, 5)->number + 1);
}

TEST_CASE("A check over the panels of a type is summed up by range, verdicts and hardest panel") {
  test::SyntheticDossier made = test::synthetic_dossier(3, 1);
  for (std::size_t i = 0; i < 3; ++i) {
    RecordedFinding& finding = made.results.panels[i].findings[0];
    finding.value = 0.15 + 0.01 * static_cast<double>(i);
    finding.utilisation = i == 1 ? 0.9 : 0.5;
    finding.verdict = Verdict::pass;
  }
  const std::string type = made.results.panels[0].type;
  const auto summaries = summarise(made.results, kAll);
  REQUIRE(summaries.contains({type, "thermal.check_0"}));
  const CheckSummary& summary = summaries.at({type, "thermal.check_0"});
  CHECK(values_in_words(summary) == "0.150 to 0.170 W/(m²·K)");
  // A length is printed in mm, both ends of the range.
  CheckSummary deviation;
  deviation.unit = "m";
  deviation.decimals = 4;
  deviation.values = {{"1 mm", 1}, {"2 mm", 1}};
  deviation.range = std::pair{0.001, 0.002};
  CHECK(values_in_words(deviation) == "1 to 2 mm");
  CHECK(summary.most_used == 0.9);
  CHECK(summary.worst_mark == "P-2");
  CHECK(summary.verdicts[static_cast<std::size_t>(Verdict::pass)] == 3);

  made.results.panels[2].findings[0].verdict = Verdict::fail;
  CHECK(summarise(made.results, kAll).at({type, "thermal.check_0"}).worst_mark == "P-3");
  made.results.panels[0].findings[0].value = std::string("EI 60");
  made.results.panels[0].findings[0].unit.clear();
  CHECK(values_in_words(summarise(made.results, kAll).at({type, "thermal.check_0"})) ==
        "0.160 W/(m²·K) (1), 0.170 W/(m²·K) (1), EI 60 (1)");
}
