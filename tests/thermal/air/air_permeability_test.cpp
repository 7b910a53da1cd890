// Measured air permeability and lengths of joints.
#include "plugins/thermal/air/air_permeability.h"

#include <catch2/catch.hpp>
#include <limits>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/thermal/air/joint_length.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Finding check(HeatedPanel& model, std::optional<double> q50) {
  model.panel().properties = {};
  if (q50) put(model.panel().properties, "Panel_Air", "PermeabilityQ50", *q50);
  put(model.panel().properties, "Panel_Air", "DocumentId", std::string("AIR-1"));
  return thermal::check_air_permeability(model.panel(), model.project, model.settings, thermal_tables());
}

}  // namespace

TEST_CASE("the measured permeability is held against the design value first, then against the rule") {
  HeatedPanel model;
  const auto by_rule = check(model, 1.2);
  CHECK(by_rule.verdict == Verdict::pass);
  CHECK(std::get<double>(by_rule.limit) == 8.0);
  CHECK(by_rule.basis == Basis::test_evidence);
  CHECK(step_of(by_rule, "V_50") == Approx(1.2 * 2.4 * 2.7));
  model.settings.set("thermal.design_q50_m3_per_hm2", 1.0);
  CHECK(check(model, 1.0).verdict == Verdict::pass);
  CHECK(check(model, 1.2).verdict == Verdict::fail);
}

TEST_CASE("no measurement is evidence needed, and an impossible one is not assessed") {
  HeatedPanel model;
  const auto none = check(model, std::nullopt);
  CHECK(none.verdict == Verdict::evidence_needed);
  CHECK(none.reason.find("Panel_Air.PermeabilityQ50") != std::string::npos);
  CHECK(check(model, 0.0).verdict == Verdict::not_assessed);
  CHECK(check(model, std::numeric_limits<double>::quiet_NaN()).verdict == Verdict::not_assessed);
  model.settings.set("project.jurisdiction", std::string("Atlantis"));
  CHECK(check(model, 0.6).reason.find("air_permeability_limits.csv holds no limit") == 0);
}

TEST_CASE("joints run round the panel and round each opening") {
  HeatedPanel model;
  add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.2);
  const auto finding = thermal::check_joints(model.panel());
  CHECK(number_of(finding) == Approx(2.0 * (2.4 + 2.7) + 2.0 * (0.555 + 1.0)));
  REQUIRE(finding.tables.size() == 1);
  double rows = 0.0;
  for (const auto& row : finding.tables.front().rows) rows += std::get<double>(row[1]);
  CHECK(rows == Approx(number_of(finding)));
}

TEST_CASE("joints of the project add up by kind") {
  HeatedPanel model;
  model.project.panels.push_back(model.panel());
  const auto finding = thermal::total_joints(model.project);
  CHECK(number_of(finding) == Approx(4.0 * (2.4 + 2.7)));
  CHECK(step_of(finding, "l_side") == Approx(4.0 * 2.7));
  CHECK(thermal::total_joints(Project{}).verdict == Verdict::not_assessed);
}

TEST_CASE("a panel without a height has no joint lengths") {
  HeatedPanel model;
  model.panel().height_m.value = 0.0;
  CHECK(thermal::check_joints(model.panel()).reason.find("height of the panel must be greater than zero") == 0);
}
