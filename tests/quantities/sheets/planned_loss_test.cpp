// What plans lose beside the waste that the carbon account counts.
#include "plugins/quantities/sheets/planned_loss.h"

#include <catch2/catch.hpp>
#include <string>

#include "plugins/quantities/checks.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

Project declaring(double waste_rate) {
  Project project = project_of({});
  project.materials[0].properties.add("Panel_EnvironmentalDeclaration", "WasteRateA5", {waste_rate, "", {}});
  return project;
}

std::string remark(const Table& table) {
  return std::get<std::string>(table.rows.at(0).at(3));
}

/// A plan that builds in so much of a cubic metre of softwood.
Finding plan_of(const Project& project, double built_in_m3) {
  Finding plan;
  plan.tables.push_back(loss_table(project, {{{"softwood", 0}, {built_in_m3, 1.0}}}));
  return plan;
}

/// What is said of a declared share when plans of bars and of sheets each lose `lost_share` of it.
Finding waste_of(double declared_share, double lost_share) {
  const Project project = declaring(declared_share);
  return waste_against_plans(project, plan_of(project, 1.0 - lost_share), plan_of(project, 1.0 - lost_share));
}

}  // namespace

TEST_CASE("the remark stands where the plan loses more than is declared") {
  const PlannedVolumes tenth{{{"softwood", 0}, {0.9, 1.0}}};
  const Table less = loss_table(declaring(0.08), tenth);
  CHECK(std::get<double>(less.rows[0][1]) == Approx(10.0).epsilon(1e-12));
  CHECK(std::get<double>(less.rows[0][2]) == Approx(8.0).epsilon(1e-12));
  CHECK(remark(less) == "carbon.a5 counts less than the plan loses: raise the declared rate or improve the plan");
  CHECK(remark(loss_table(declaring(0.1), tenth)).empty());
  CHECK(remark(loss_table(declaring(0.2), tenth)).empty());
}

TEST_CASE("a rate that is absent or no share is named") {
  const PlannedVolumes tenth{{{"softwood", 0}, {0.9, 1.0}}};
  for (const Project& project : {project_of({}), declaring(1.0), declaring(-0.1)}) {
    const Table table = loss_table(project, tenth);
    CHECK(std::holds_alternative<std::monostate>(table.rows[0][2]));
    CHECK(remark(table) == "no usable rate: state Panel_EnvironmentalDeclaration.WasteRateA5, at least 0 and below 1");
  }
  CHECK_FALSE(remark(loss_table(project_of({}), {{{"not stated", {}}, {0.9, 1.0}}})).empty());
}

TEST_CASE("a plan may lose a rounding more than is declared without a remark") {
  CHECK(remark(loss_table(declaring(0.1), {{{"softwood", 0}, {0.89951, 1.0}}})).empty());
  CHECK_FALSE(remark(loss_table(declaring(0.1), {{{"softwood", 0}, {0.89948, 1.0}}})).empty());
}

TEST_CASE("waste is declared too low from one percentage point below the loss of the plans together") {
  CHECK(waste_of(0.0905, 0.1).verdict == Verdict::pass);
  const Finding low = waste_of(0.0896, 0.1);
  CHECK(low.verdict == Verdict::fail);
  CHECK(std::get<double>(low.value) == Approx(1.04).epsilon(1e-9));
  CHECK_THAT(low.reason, Catch::StartsWith("of 'softwood' the plan loses 10.0 % and "
                                           "Panel_EnvironmentalDeclaration.WasteRateA5 declares 9.0 %; raise"));
  // The bars lose a tenth and the sheets a fifth of the same volume: 15 % of both.
  const Project project = declaring(0.135);
  const Finding both = waste_against_plans(project, plan_of(project, 0.9), plan_of(project, 0.8));
  CHECK(both.verdict == Verdict::fail);
  CHECK(std::get<double>(both.value) == Approx(1.5).epsilon(1e-9));
}

TEST_CASE("a declared share outside of 0 to 1 is no rate") {
  for (const double share : {-0.01, 1.0, 1.05, 8.0}) {
    const Finding found = waste_of(share, 0.1);
    CHECK(found.verdict == Verdict::evidence_needed);
    CHECK(found.reason ==
          "no usable Panel_EnvironmentalDeclaration.WasteRateA5, at least 0 and below 1, of 'softwood'");
  }
}

TEST_CASE("nothing declared is questioned from the first loss that would be printed") {
  CHECK(waste_of(0.0, 0.00049).verdict == Verdict::pass);
  CHECK(waste_of(0.0, 0.00052).verdict == Verdict::evidence_needed);
  CHECK(waste_of(0.001, 0.0016).verdict == Verdict::pass);
}

TEST_CASE("the loss of a material is by volume over all its sections") {
  // 45 × 145: 4.7 m from 4.8 m; 60 × 145: 3 m from 4.8 m.
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::stud, "a", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 4.7}),
                 box(PartKind::stud, "b", 0, {0.0, 0.0, 0.0}, {0.060, 0.145, 3.0})};
  const Finding found = stock_yield(project_of({panel}), settings());
  const double built_in = 0.045 * 4.7 + 0.060 * 3.0;
  const double bought = 0.105 * 4.8;
  CHECK(std::get<double>(found.tables.at(1).rows.at(0).at(1)) == Approx(100.0 * (1.0 - built_in / bought)));
}

TEST_CASE("sheets give their loss too, and no verdict") {
  Settings sheets = settings();
  sheets.set("quantities.sheet_sizes_m.0.material", std::string("particle board"));
  sheets.set("quantities.sheet_sizes_m.0.width", 1.25);
  sheets.set("quantities.sheet_sizes_m.0.length", 2.5);
  const Finding found = sheet_yield(project_of({cassette("P1")}), sheets);
  CHECK(found.verdict == Verdict::information);
  CHECK(std::get<double>(found.tables.at(1).rows.at(0).at(1)) ==
        Approx(100.0 * (1.0 - 1.2 * 2.4 / (1.25 * 2.5))).epsilon(1e-9));
}
