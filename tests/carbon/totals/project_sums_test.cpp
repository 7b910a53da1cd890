
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/api/support/exact_sum.h"
#include "core/api/testing/findings.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// Two panels: the declared one, and one with a stud less.
struct TwoPanels : DeclaredPanel {
  TwoPanels() {
    Panel second = panel();
    second.mark = "P-02";
    second.parts.erase(second.parts.begin());
    project.panels.push_back(second);
  }
};

}  // namespace

TEST_CASE("each module of the project is the sum of its panels to the last digit") {
  const TwoPanels model;
  const auto panels = check_panels(model);
  const auto totals = totals_of(model, panels);
  for (const char* id :
       {"carbon.a1_a3", "carbon.a4", "carbon.a5", "carbon.b4", "carbon.c1_c4", "carbon.d", "carbon.biogenic_storage"}) {
    INFO(id);
    ExactSum sum;
    for (const PanelFindings& panel : panels) sum.add(number_of(finding_of(panel.findings, id)));
    CHECK(number_of(finding_of(totals, id)) == sum.total());
  }
}

TEST_CASE("the project's total for each m² weighs panels by gross area and meets the same target") {
  const TwoPanels model;
  const auto panels = check_panels(model);
  const auto totals = totals_of(model, panels);
  const Finding& total = finding_of(totals, "carbon.total_per_area");
  const double mean = (number_of(finding_of(panels[0].findings, "carbon.total_per_area")) +
                       number_of(finding_of(panels[1].findings, "carbon.total_per_area"))) /
                      2.0;
  CHECK(number_of(total) == Approx(mean).epsilon(1e-9));
  CHECK(total.verdict == Verdict::pass);
}

TEST_CASE("any net wall area gives a figure for each m², and none where openings take it all") {
  const auto reason_of_square = [](double side_m, double opening_m) {
    DeclaredPanel model;
    model.panel().width_m.value = side_m;
    model.panel().height_m.value = side_m;
    if (opening_m > 0.0) add_window(model.panel(), 0.0, opening_m, 0.0, opening_m, std::nullopt);
    return checked(model, "carbon.total_per_area").reason;
  };
  const auto no_area = Catch::Contains("openings leave no net wall area");
  CHECK_THAT(reason_of_square(0.25, 0.0), !no_area);
  CHECK_THAT(reason_of_square(0.25, 0.25), no_area);
}

TEST_CASE("the table by module shows biogenic carbon out and in") {
  const TwoPanels model;
  const auto totals = totals_of(model);
  const Table* table = table_titled(finding_of(totals, "carbon.whole_life"), "By module, all panels");
  REQUIRE(table != nullptr);
  double biogenic = 0.0;
  for (const auto& row : table->rows) biogenic += std::get<double>(row[2]);
  CHECK(std::get<double>(table->rows.front()[2]) < 0.0);
  CHECK(biogenic == Approx(0.0).margin(1e-6));
}

TEST_CASE("one panel that needs evidence makes the project need it") {
  TwoPanels model;
  model.replace(model.timber, kDeclaredSet, "ValidUntil", std::string("2020-01-01"));
  const auto totals = totals_of(model);
  CHECK(finding_of(totals, "carbon.a1_a3").verdict == Verdict::evidence_needed);
  CHECK(finding_of(totals, "carbon.a1_a3").reason == "2 panels have no carbon.a1_a3: P-01, P-02");
  CHECK(finding_of(totals, "carbon.a4").verdict == Verdict::information);
}

TEST_CASE("a panel whose data is unusable makes the project not assessed") {
  TwoPanels model;
  model.project.panels[1].parts.front().material.reset();
  const auto totals = totals_of(model);
  CHECK(finding_of(totals, "carbon.a1_a3").verdict == Verdict::not_assessed);
  CHECK(finding_of(totals, "carbon.a1_a3").reason == "1 panel has no carbon.a1_a3: P-02");
}

TEST_CASE("an empty project has no totals") {
  const Project project;
  const Settings settings;
  const carbon::RunInputs inputs(project, settings, carbon_tables(), {});
  for (const Finding& total : carbon::check_project(inputs, {}).findings) {
    INFO(total.check);
    CHECK(total.verdict == Verdict::not_assessed);
    CHECK_FALSE(total.reason.empty());
  }
}
