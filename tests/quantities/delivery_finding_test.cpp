#include "plugins/quantities/delivery_finding.h"

#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>

#include "core/api/exact_sum.h"
#include "tests/quantities/delivery_site.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

Finding deliveries_of(const Project& project, const Settings& given = site_settings()) {
  return site_findings_of(project, given).front();
}

std::string reason_without(const std::string& key) {
  const Settings all = site_settings();
  Settings given;
  for (const auto& [name, value] : all.all()) {
    if (name != key) given.set(name, value);
  }
  const Finding finding = deliveries_of(numbered_project(2), given);
  CHECK(finding.verdict == Verdict::not_assessed);
  return finding.reason;
}

}  // namespace

TEST_CASE("each panel is in one row of the list and the loads weigh what the project weighs") {
  const Project project = numbered_project(67);
  const Finding finding = deliveries_of(project);
  REQUIRE(finding.verdict == Verdict::information);
  std::set<std::string> marks;
  ExactSum of_panels;
  for (const auto& row : table_of(finding, "Panels by load").rows) {
    CHECK(marks.insert(std::get<std::string>(row[2])).second);
    of_panels.add(std::get<double>(row[6]));
  }
  CHECK(marks.size() == project.panels.size());
  ExactSum of_loads;
  for (const auto& row : table_of(finding, "Loads").rows) of_loads.add(std::get<double>(row[3]));
  ExactSum of_project;
  for (const Panel& panel : project.panels) of_project.add(std::get<double>(mass(panel, project).value));
  CHECK(of_panels.total() == of_project.total());
  CHECK(of_loads.total() == of_project.total());
  CHECK(step(finding, "ΣM") == of_project.total());
  CHECK(step(finding, "N_min") <= std::get<double>(finding.value));
}

TEST_CASE("each load has two pictures up to the eighth and each storey a plan") {
  Project project = numbered_project(40);
  project.storeys.resize(2);
  for (std::size_t i = 0; i < 40; ++i) project.panels[i].storey = i / 20;
  Settings given = site_settings();
  given.set("structural.transport.payload_kg", 1900.0);
  const Finding finding = deliveries_of(project, given);
  REQUIRE(std::get<double>(finding.value) > 8.0);
  CHECK(finding.drawings.size() == 2 * 8 + 2);
}

TEST_CASE("every missing setting of the vehicle is named") {
  for (const char* key :
       {"structural.transport.bed_length_m", "structural.transport.deck_height_m",
        "structural.transport.overall_height_m", "structural.transport.payload_kg", "quantities.transport.bed_width_m",
        "quantities.transport.spacer_m", "quantities.transport.rack_base_m", "quantities.transport.rack_kg",
        "quantities.transport.kingpin_m", "quantities.transport.axle_group_m", "quantities.transport.kingpin_limit_kg",
        "quantities.transport.axle_group_limit_kg"}) {
    INFO(key);
    CHECK(reason_without(key).find("setting '" + std::string(key) + "' is missing") != std::string::npos);
  }
}

TEST_CASE("settings that contradict each other are named") {
  const std::map<std::string, std::pair<double, std::string>> cases{
      {"structural.transport.overall_height_m", {1.0, "leaves no height above the deck and the rack"}},
      {"quantities.transport.rack_kg", {24000.0, "leaves nothing of 'structural.transport.payload_kg'"}},
      {"quantities.transport.kingpin_m", {9.35, "must be greater than 'quantities.transport.kingpin_m'"}},
      {"quantities.transport.spacer_m", {-0.1, "must not be negative"}}};
  for (const auto& [key, expected] : cases) {
    Settings given = site_settings();
    given.set(key, expected.first);
    const Finding finding = deliveries_of(numbered_project(2), given);
    INFO(key);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find(expected.second) != std::string::npos);
  }
}

TEST_CASE("a panel higher than the route allows is named") {
  Project project = numbered_project(3);
  project.panels[1].width_m.value = 4.2;
  project.panels[1].height_m.value = 4.0;
  const Finding finding = deliveries_of(project);
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason ==
        "panel 'P02' stands 4.150 m high on its rack and the route leaves 4.050 m above the deck: choose a lower "
        "deck, another route or a smaller panel");
}

TEST_CASE("a panel of unknown mass and one of unknown order are named") {
  Project project = numbered_project(2);
  project.panels[0].parts[0].material.reset();
  project.panels.push_back(cassette("P03"));
  const Finding finding = deliveries_of(project);
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("1 panel has no quantities.mass: P01") != std::string::npos);
  CHECK(finding.reason.find("'P03' without place in the order of erection") != std::string::npos);
}

TEST_CASE("loads are listed without days when there is no programme") {
  Settings given = site_settings();
  given.set("quantities.start_date", std::string("soon"));
  const Finding finding = deliveries_of(numbered_project(2), given);
  REQUIRE(finding.verdict == Verdict::information);
  CHECK(std::get<std::string>(table_of(finding, "Loads").rows[0][7]) == "not planned");
}

TEST_CASE("a panel without thickness is named") {
  Project project = numbered_project(2);
  project.panels[1].thickness_m.value = 0.0;
  CHECK(deliveries_of(project).reason == "panel 'P02' has no width, height or thickness: state all three");
}
