// Arrivals and storage on site.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "plugins/quantities/programme/programme_report.h"
#include "tests/quantities/delivery_site.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

using Row = std::vector<Value>;

/// Eight panels of 5.76 m² and 0.288 h in loads of three, four a day.
struct SmallSite {
  Project project = numbered_project(8);
  Settings settings = site_settings();

  SmallSite() {
    // Each weighs 90 kg: three and the racks, but not a fourth.
    settings.set("structural.transport.payload_kg", 1800.0);
    settings.set("quantities.crane_hours_per_day", 1.2);
  }

  std::vector<Finding> findings() const { return site_findings_of(project, settings); }
};

std::vector<Row> by_day(const std::vector<Finding>& findings) {
  return table_of(findings.back(), "By working day").rows;
}

std::string arrival(const std::vector<Finding>& findings, std::size_t load) {
  return std::get<std::string>(table_of(findings.front(), "Loads").rows.at(load)[6]);
}

}  // namespace

TEST_CASE("loads arrive on the day of their first panel when the settings do not say") {
  const std::vector<Finding> findings = SmallSite().findings();
  REQUIRE(table_of(findings.front(), "Loads").rows.size() == 3);
  // By hand: P01 to P04 on the first day, of loads 1 and 2; P05 and P06 wait, for load 2 is there; load 3 comes with
  // P07. The 7 April is a holiday.
  const std::vector<Row> rows = by_day(findings);
  REQUIRE(rows.size() == 2);
  CHECK(rows[0] == Row{"2026-04-06", "1, 2", 4.0, 23.04, 1.152, 5.76, 2.0, 11.52});
  CHECK(rows[1] == Row{"2026-04-08", "3", 4.0, 23.04, 1.152, 5.76, 0.0, 0.0});
  CHECK(arrival(findings, 1) == "2026-04-06");
  CHECK(arrival(findings, 2) == "2026-04-08");
}

TEST_CASE("loads arrive ahead by the working days of the settings") {
  SmallSite site;
  site.settings.set("quantities.transport.lead_working_days", 2.0);
  const std::vector<Finding> findings = site.findings();
  // Two working days before Monday 6 April are Thursday and Friday.
  const std::vector<Row> rows = by_day(findings);
  REQUIRE(rows.size() == 4);
  CHECK(rows[0] == Row{"2026-04-02", "1, 2", 0.0, 0.0, 0.0, 0.0, 6.0, 34.56});
  CHECK(rows[1] == Row{"2026-04-03", "3", 0.0, 0.0, 0.0, 0.0, 8.0, 46.08});
  CHECK(rows[2] == Row{"2026-04-06", "", 4.0, 23.04, 1.152, 5.76, 4.0, 23.04});
  CHECK(rows[3] == Row{"2026-04-08", "", 4.0, 23.04, 1.152, 5.76, 0.0, 0.0});
  CHECK(arrival(findings, 2) == "2026-04-03");
}

TEST_CASE("no panel is erected before it arrives and none is left on site") {
  for (const double lead : {0.0, 1.0, 5.0}) {
    SmallSite site;
    site.project = numbered_project(60);
    site.settings.set("quantities.cranes", 2.0);
    site.settings.set("quantities.transport.lead_working_days", lead);
    const std::vector<Finding> findings = site.findings();
    for (const Row& row : table_of(findings.front(), "Loads").rows) {
      CHECK(std::get<std::string>(row[6]) <= std::get<std::string>(row[7]));
    }
    double erected = 0.0;
    for (const Row& row : by_day(findings)) {
      erected += std::get<double>(row[2]);
      CHECK(std::get<double>(row[6]) >= 0.0);
      CHECK(std::get<double>(row[7]) >= 0.0);
    }
    CHECK(erected == 60.0);
    CHECK(std::get<double>(by_day(findings).back()[6]) == 0.0);
    CHECK(std::get<double>(by_day(findings).back()[7]) == 0.0);
  }
}

TEST_CASE("without loads the programme stands and storage is not given") {
  SmallSite site;
  site.settings.set("quantities.transport.spacer_m", -1.0);
  const std::vector<Finding> findings = site.findings();
  CHECK(findings.front().verdict == Verdict::not_assessed);
  REQUIRE(findings.back().verdict == Verdict::information);
  CHECK(by_day(findings)[0][1] == Value{});
  CHECK(by_day(findings)[0][6] == Value{});
  CHECK(findings.back().bar_charts[1].parts == std::vector<std::string>{"panels"});
}

// Four panels a day: those of the east are up on Monday the 6th, those of the west on Wednesday the 8th after a
// holiday.
TEST_CASE("faces are listed by storey with the day of their last panel and of their sealed joints") {
  SmallSite site;
  for (std::size_t i = 0; i < site.project.panels.size(); ++i) {
    Panel& panel = site.project.panels[i];
    panel.storey = 0;
    panel.properties.add("Panel_Identity", "Elevation", {std::string(i < 4 ? "East" : "West"), "", {}});
  }
  CHECK(table_of(site.findings().back(), "Faces by storey").rows ==
        std::vector<Row>{{"ground floor", "East", 4.0, 23.04, "2026-04-06"},
                         {"ground floor", "West", 4.0, 23.04, "2026-04-08"}});
  site.settings.set("quantities.sealing_working_days", 2.0);
  CHECK(table_of(site.findings().back(), "Faces by storey").rows ==
        std::vector<Row>{{"ground floor", "East", 4.0, 23.04, "2026-04-06", "2026-04-09"},
                         {"ground floor", "West", 4.0, 23.04, "2026-04-08", "2026-04-10"}});
  site.settings.set("quantities.sealing_working_days", 61.0);
  CHECK(site.findings().back().reason ==
        "setting 'quantities.sealing_working_days' must be a whole number from 0 to 60");
}

TEST_CASE("each lift has its day, crane, hours and load") {
  const std::vector<Row> rows =
      table_of(SmallSite().findings().back(), "Lifts, hours from the beginning of the day's lifting").rows;
  REQUIRE(rows.size() == 8);
  CHECK(rows[0] == Row{"2026-04-06", 1.0, 0.0, 0.288, "P01", 1.0});
  CHECK(rows[3] == Row{"2026-04-06", 1.0, 0.864, 1.152, "P04", 2.0});
  CHECK(rows[4] == Row{"2026-04-08", 1.0, 0.0, 0.288, "P05", 2.0});
}

// The first two loads come on the 6th with six panels, of which four are erected: 2 · 5.76 m² wait overnight.
TEST_CASE("what waits on site is held against what it can store") {
  SmallSite site;
  const auto storage = [&](double limit_m2) {
    site.settings.set("quantities.site_storage_m2", limit_m2);
    return site.findings().front();
  };
  const Finding enough = storage(11.52);
  REQUIRE(enough.check == "quantities.site_storage");
  CHECK(enough.verdict == Verdict::pass);
  CHECK(std::get<double>(enough.value) == Approx(11.52));
  CHECK(storage(11.51).verdict == Verdict::fail);
  CHECK(storage(0.0).verdict == Verdict::not_assessed);
  site.settings.set("quantities.cranes", 0.5);
  CHECK(storage(100.0).reason == "what waits on site is not known: see quantities.programme and quantities.deliveries");
}
