#include <catch2/catch.hpp>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> findings_of(const Project& project, const Settings& settings = braced_settings()) {
  return findings_as_drawn(project, settings);
}

}  // namespace

TEST_CASE("The project's table counts the panels in which a check has no result") {
  Finding assessed;
  assessed.check = "structural.bearing";
  assessed.title = "Bearing";
  assessed.verdict = Verdict::pass;
  assessed.utilisation = 0.4;
  Finding withheld = assessed;
  withheld.verdict = Verdict::not_assessed;
  withheld.utilisation.reset();
  const Project project = braced_project();
  const Panel& panel = project.panels.front();
  const Finding finding =
      structural::utilisation_table({{&panel, {assessed}}, {&panel, {withheld}}, {&panel, {withheld}}});
  REQUIRE(finding.tables.front().rows.size() == 1);
  const auto& row = finding.tables.front().rows.front();
  CHECK(std::get<double>(row[1]) == 1.0);
  CHECK(std::get<double>(row[2]) == 2.0);
  CHECK(std::get<double>(row[3]) == 0.4);
}

TEST_CASE("The project's table is sorted worst first") {
  const Project project = braced_project();
  const std::vector<PanelFindings> panels{{&project.panels.front(), findings_of(project)}};
  const Finding finding = structural::utilisation_table(panels);
  CHECK(finding.verdict == Verdict::information);
  REQUIRE(finding.tables.size() == 2);
  const auto& rows = finding.tables[1].rows;
  REQUIRE(rows.size() == 7);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    CHECK(std::get<double>(rows[i - 1][3]) >= std::get<double>(rows[i][3]));
  }
  CHECK(std::get<double>(finding.value) == std::get<double>(rows[0][3]));
  CHECK(structural::utilisation_table({}).verdict == Verdict::not_assessed);
}
