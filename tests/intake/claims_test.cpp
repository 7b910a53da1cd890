// What the intake does with values that cannot be, hardly can, or contradict each other.
#include <catch2/catch.hpp>

#include "core/api/testing/panels.h"
#include "core/intake/claims/building_claims.h"
#include "core/intake/claims/plausible_values.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const std::filesystem::path kSchemas = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";

std::vector<PropertyRow> rows_of(const std::string& lines) {
  Reporter report("list");
  auto rows = read_property_lists({{"list.csv", "set,property,on,measure,unit,range,usual,meaning\n" + lines}}, report);
  const Diagnostics faults = report.take();
  INFO((faults.empty() ? "" : to_string(faults[0])));
  REQUIRE(faults.empty());
  return rows;
}

const std::string kDensity =
    "Pset_MaterialCommon,MassDensity,material,IfcMassDensityMeasure,kg/m³,0.5..25000,10..8500,\n";
const std::string kResult = "Panel_Inspection,Result,panel,IfcLabel,,ACCEPTED|REJECTED|OPEN,,\n";
const std::string kDate = "Panel_Inspection,Date,panel,IfcDate,,,,\n";

struct Weighed {
  Project project;
  Diagnostics diagnostics;
  Diagnostics unused;
  std::vector<std::string> used;
};

Weighed weigh(Project project, const std::string& lines, const Settings& settings = {}) {
  Reporter report("export.xml");
  Confirmations confirmations(settings);
  withhold_implausible(project, rows_of(lines), MaterialKinds(kSchemas), confirmations, report);
  return {std::move(project), report.take(), confirmations.unused("settings.json"), confirmations.used()};
}

Project wood_of(double density) {
  Project project;
  add_material(project, "Pine", "wood", density, 0.13);
  return project;
}

Settings confirmed(double value) {
  Settings settings;
  settings.set("confirmed_values.0.name", std::string("Pset_MaterialCommon.MassDensity"));
  settings.set("confirmed_values.0.of", std::string("Pine"));
  settings.set("confirmed_values.0.value", value);
  settings.set("confirmed_values.0.reason", std::string("balsa, weighed"));
  return settings;
}

}  // namespace

TEST_CASE("What is usual of a kind of material is used") {
  for (const double density : {280.0, 420.0, 1100.0}) {
    const Weighed weighed = weigh(wood_of(density), kDensity);
    CHECK(weighed.diagnostics.empty());
    CHECK(weighed.project.materials[0].density_kg_per_m3());
  }
}

TEST_CASE("What is unusual of a kind of material is withheld, with the reason") {
  for (const double density : {279.9, 1100.1}) {
    const Weighed weighed = weigh(wood_of(density), kDensity);
    REQUIRE(weighed.diagnostics.size() == 1);
    CHECK(weighed.diagnostics[0].severity == Severity::warning);
    CHECK_FALSE(weighed.project.materials[0].density_kg_per_m3());
    const auto& withheld = weighed.project.materials[0].properties.withheld();
    REQUIRE(withheld.contains("Pset_MaterialCommon.MassDensity"));
    CHECK(withheld.at("Pset_MaterialCommon.MassDensity").why.find("outside of the usual 280 to 1100 kg/m³ of wood") !=
          std::string::npos);
  }
}

TEST_CASE("A confirmed value is used until it changes") {
  CHECK(weigh(wood_of(120.0), kDensity, confirmed(120.0)).project.materials[0].density_kg_per_m3());
  CHECK(weigh(wood_of(120.0), kDensity, confirmed(120.0)).unused.empty());
  CHECK(weigh(wood_of(120.0), kDensity, confirmed(120.0)).used ==
        std::vector<std::string>{
            "Pset_MaterialCommon.MassDensity of Pine: 120, confirmed by nobody named: balsa, weighed"});
  // A plugin may ask for the confirmation of a value that is usual by itself.
  CHECK(weigh(wood_of(420.0), kDensity, confirmed(420.0)).unused.empty());
  const Weighed changed = weigh(wood_of(121.0), kDensity, confirmed(120.0));
  CHECK_FALSE(changed.project.materials[0].density_kg_per_m3());
  REQUIRE(changed.unused.size() == 1);
  CHECK(changed.unused[0].entity == "confirmed_values.0");
}

TEST_CASE("What cannot be is an error, confirmed or not") {
  const Weighed weighed = weigh(wood_of(0.42), kDensity, confirmed(0.42));
  REQUIRE(weighed.diagnostics.size() == 1);
  CHECK(weighed.diagnostics[0].severity == Severity::error);
  CHECK(weighed.diagnostics[0].message ==
        "'Pset_MaterialCommon.MassDensity' of 'Pine' is 0.42 kg/m³, which cannot be: it goes from 0.5 to 25000 kg/m³");
}

TEST_CASE("A word that is none of the list and a day that does not exist are withheld") {
  Project project;
  project.panels.push_back(plain_panel(1.0, 1.0));
  put(project.panels[0].properties, "Panel_Inspection", "Result", std::string("DONE"));
  put(project.panels[0].properties, "Panel_Inspection", "Date", std::string("2026-02-30"));
  const Weighed weighed = weigh(project, kResult + kDate);
  CHECK(weighed.diagnostics.size() == 2);
  const auto& withheld = weighed.project.panels[0].properties.withheld();
  REQUIRE(withheld.size() == 2);
  CHECK(withheld.at("Panel_Inspection.Result").why.find("none of ACCEPTED, REJECTED, OPEN") != std::string::npos);
  CHECK(withheld.at("Panel_Inspection.Date").why.find("is no day") != std::string::npos);
}

TEST_CASE("Accepted terms become our words and others are reported") {
  Project project;
  add_material(project, "Wool", "thermal insulation", 40.0, 0.035);
  add_material(project, "Fluff", "fluff", 40.0, 0.035);
  Panel panel = plain_panel(1.0, 1.0);
  add_layer(panel, "Wool", "thermal insulation", 0, 0.1);
  add_layer(panel, "Fluff", "fluffy", 1, 0.1);
  project.panels.push_back(std::move(panel));
  Reporter report("export.xml");
  MaterialKinds(kSchemas).name_kinds(project, report);
  CHECK(project.materials[0].category == "insulation");
  CHECK(project.panels[0].layers[0].category == "insulation");
  const Diagnostics diagnostics = report.take();
  REQUIRE(diagnostics.size() == 2);
  CHECK(to_string(diagnostics[0]).find("'fluff") != std::string::npos);
}

TEST_CASE("A list of properties says of each number how far it goes") {
  const auto fault = [](const std::string& line) {
    Reporter report("list");
    read_property_lists({{"list.csv", "set,property,on,measure,unit,range,usual,meaning\n" + line}}, report);
    const Diagnostics faults = report.take();
    return faults.empty() ? std::string() : faults[0].message;
  };
  CHECK(fault("A,B,panel,IfcReal,m,0..10,1..2,\n").empty());
  CHECK(fault("A,B,panel,IfcReal,m,,1..2,\n") == "'list.csv:2' has the range '', which is none as 0.1..2");
  CHECK(fault("A,B,panel,IfcReal,m,0..10,2..1,\n") ==
        "'list.csv:2' has the usual range '2..1', which is none as 0.1..2");
  CHECK(fault("A,B,panel,IfcReal,m,0..10,1..20,\n") == "'list.csv:2' has a usual range that goes beyond its range");
  CHECK(fault("A,B,panel,IfcLabel,,X|Y,1..2,\n") == "'list.csv:2' has a 'usual' but is no number");
}

namespace {

/// A panel 3 m wide and 3 m high on a storey 7.2 m above the ground.
Project upper_panel() {
  Project project;
  Storey ground{"g", "Ground", "B", Sourced<double>{0.0, {}}, {}};
  Storey second{"s", "Second", "B", Sourced<double>{7.2, {}}, {}};
  project.storeys = {ground, second};
  Panel panel = plain_panel(3.0, 3.0);
  panel.storey = 1;
  panel.frame.origin = {0.0, 0.0, 7.2};
  panel.thickness_m.value = 0.3;
  project.panels.push_back(std::move(panel));
  return project;
}

/// Keys withheld of settings with this one value.
std::string withheld_of(const std::string& key, double value) {
  Settings settings;
  settings.set(key, value);
  Confirmations none{Settings()};
  const Diagnostics diagnostics = withhold_contradicted(settings, upper_panel(), "settings.json", none);
  REQUIRE(diagnostics.size() == settings.withheld().size());
  return settings.withheld().empty() ? std::string() : settings.withheld().begin()->second;
}

}  // namespace

TEST_CASE("A size of the building that is confirmed against the export is told with both sources") {
  Settings settings;
  settings.set("building.top_storey_height_m", 3.6);
  settings.set("confirmed_values.0.name", std::string("building.top_storey_height_m"));
  settings.set("confirmed_values.0.value", 3.6);
  settings.set("confirmed_values.0.reason", std::string("the site was raised"));
  settings.set("confirmed_values.0.by", std::string("surveyor"));
  Confirmations confirmations{settings};
  CHECK(withhold_contradicted(settings, upper_panel(), "settings.json", confirmations).empty());
  CHECK(settings.number("building.top_storey_height_m"));
  REQUIRE(confirmations.used().size() == 1);
  CHECK(
      confirmations.used().front() ==
      "building.top_storey_height_m: 3.6, although storey 'Second' of the export, which has panels, lies 7.20 m above "
      "the lowest storey (set building.ground_level_m if that is no ground), confirmed by surveyor: the site was "
      "raised");
}

TEST_CASE("Sizes of the building that the export contradicts are withheld with both sources") {
  CHECK(withheld_of("building.top_storey_height_m", 7.2).empty());
  CHECK(withheld_of("building.top_storey_height_m", 6.7).empty());
  CHECK(
      withheld_of("building.top_storey_height_m", 3.6) ==
      "setting building.top_storey_height_m is 3.60 m, but storey 'Second' of the export, which has panels, lies 7.20 "
      "m above the lowest storey (set building.ground_level_m if that is no ground); correct one of them, or confirm "
      "it with a reason under `confirmed_values`");
  CHECK(withheld_of("building.height_m", 8.7).empty());  // a parapet of 1.5 m
  CHECK(withheld_of("building.height_m", 8.0).find("the highest panel of the export ends 10.20 m") !=
        std::string::npos);
  CHECK(withheld_of("building.ground_level_m", 7.7).empty());
  CHECK(withheld_of("building.ground_level_m", 7.8).find("the lowest panel of the export stands at 7.20 m") !=
        std::string::npos);
  CHECK(withheld_of("building.envelope_area_m2", 8.0).find("alone have 9.0 m²") != std::string::npos);
}

namespace {

void add_neighbour(Project& project, NeighbourKind kind, const std::string& name, const Box3& box,
                   std::optional<std::size_t> storey = std::nullopt) {
  Neighbour neighbour;
  neighbour.kind = kind;
  neighbour.name = name;
  neighbour.bounds = box;
  neighbour.storey = storey;
  project.neighbours.push_back(std::move(neighbour));
}

/// Why the value is withheld beside these neighbours; empty when it is not.
std::string withheld_beside(const Project& project, const std::string& key, double value, double block_gap_m = 0.0) {
  Settings settings;
  settings.set(key, value);
  if (block_gap_m > 0.0) settings.set("building.block_gap_m", block_gap_m);
  Confirmations none{Settings()};
  const Diagnostics diagnostics = withhold_contradicted(settings, project, "settings.json", none);
  CHECK(diagnostics.size() == settings.withheld().size());
  const auto found = settings.withheld().find(key);
  return found == settings.withheld().end() ? std::string() : found->second;
}

bool holds(const std::string& text, const std::string& words) {
  INFO(text);
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("The height of a building is held against walls, slabs and roofs beside the panels") {
  Project project = upper_panel();  // ends at 10.2 m
  add_neighbour(project, NeighbourKind::slab, "Top", {{0, 0, 11.8}, {3, 3, 12.0}});
  CHECK(withheld_beside(project, "building.height_m", 11.5).empty());
  CHECK(holds(withheld_beside(project, "building.height_m", 11.4), "slab 'Top' of the export ends 12.00 m above"));
  CHECK(withheld_beside(project, "building.height_m", 40.0).empty());  // no roof: panels and slabs may go on above
  add_neighbour(project, NeighbourKind::roof, "Roof", {{0, 0, 12.0}, {3, 3, 12.3}});
  CHECK(withheld_beside(project, "building.height_m", 12.8).empty());
  CHECK(holds(withheld_beside(project, "building.height_m", 12.9),
              "nothing of the export, which has a roof, ends more than 12.30 m above"));
  // Heights count from the ground, wherever the export has its zero.
  Settings on_a_hill;
  on_a_hill.set("building.height_m", 12.9);
  on_a_hill.set("building.ground_level_m", 0.5);
  Confirmations none{Settings()};
  withhold_contradicted(on_a_hill, project, "settings.json", none);
  CHECK(holds(on_a_hill.withheld().at("building.height_m"),
              "nothing of the export, which has a roof, ends more than 11.80 m above"));
  // A column or a chimney on the roof is a reason to state more.
  add_neighbour(project, NeighbourKind::other, "Plant", {{1, 1, 12.3}, {2, 2, 14.0}});
  CHECK(withheld_beside(project, "building.height_m", 14.4).empty());
  // A wall may stand over the roof as a parapet.
  Project walled = upper_panel();
  add_neighbour(walled, NeighbourKind::wall, "Core", {{0, 0, 0}, {3, 0.2, 13.0}});
  CHECK(withheld_beside(walled, "building.height_m", 11.5).empty());
  CHECK(holds(withheld_beside(walled, "building.height_m", 11.4), "wall 'Core' of the export ends 13.00 m"));
}

TEST_CASE("Width and depth of a building are held against walls and slabs beside the panels") {
  Project project = upper_panel();  // 3 m along x, 0.3 m along y
  CHECK(withheld_beside(project, "building.width_m", 40.0).empty());
  add_neighbour(project, NeighbourKind::wall, "Far", {{0, 9.7, 7.2}, {12, 10, 10.2}});
  CHECK(withheld_beside(project, "building.width_m", 11.5).empty());
  CHECK(holds(withheld_beside(project, "building.width_m", 11.4),
              "panels and walls of the export reach over 12.00 m along x"));
  CHECK(holds(withheld_beside(project, "building.depth_m", 9.4), "reach over 10.00 m along y"));
  CHECK(withheld_beside(project, "building.width_m", 40.0).empty());  // walls alone show no whole building
  add_neighbour(project, NeighbourKind::slab, "Floor", {{0, 0, 7.0}, {14, 10, 7.2}});
  CHECK(withheld_beside(project, "building.width_m", 12.0).empty());  // a balcony of 2 m
  CHECK(withheld_beside(project, "building.width_m", 14.5).empty());
  CHECK(holds(withheld_beside(project, "building.width_m", 14.6),
              "all panels, walls and slabs of the export reach over 14.00 m"));
  add_neighbour(project, NeighbourKind::slab, "Terrace", {{0, 0, 7.0}, {16, 10, 7.2}});
  CHECK(holds(withheld_beside(project, "building.width_m", 13.9),
              "panels, walls and slabs of the export reach over 16.00 m"));
  // Blocks are compared one by one, by the wind.
  add_neighbour(project, NeighbourKind::slab, "Other block", {{40, 0, 7.0}, {60, 10, 7.2}});
  CHECK(withheld_beside(project, "building.width_m", 16.0, 10.0).empty());
  CHECK_FALSE(withheld_beside(project, "building.width_m", 16.0).empty());
}

TEST_CASE("The top storey is one that has walls too, and terrain bounds the ground") {
  Project project = upper_panel();
  Storey third{"t", "Third", "B", Sourced<double>{10.8, {}}, {}};
  project.storeys.push_back(third);
  add_neighbour(project, NeighbourKind::wall, "Parapet", {{0, 0, 10.8}, {3, 0.2, 12.0}}, 2);
  CHECK(withheld_beside(project, "building.top_storey_height_m", 7.2).empty());
  add_neighbour(project, NeighbourKind::wall, "Plant room", {{0, 0, 10.8}, {3, 0.2, 13.4}}, 2);
  CHECK(holds(withheld_beside(project, "building.top_storey_height_m", 7.2),
              "storey 'Third' of the export, which has walls, lies 10.80 m above the lowest storey"));
  add_neighbour(project, NeighbourKind::ground, "Meadow", {{-9, -9, 2.0}, {9, 9, 4.0}});
  CHECK(withheld_beside(project, "building.ground_level_m", 1.5).empty());
  CHECK(withheld_beside(project, "building.ground_level_m", 4.5).empty());
  CHECK(holds(withheld_beside(project, "building.ground_level_m", 1.4),
              "the terrain of the export lies between 2.00 m and 4.00 m"));
}

TEST_CASE("No envelope holds more than a sphere does") {
  Settings settings;
  settings.set("building.envelope_area_m2", 600.0);
  settings.set("building.volume_m3", 1381.0);  // 600^1.5 / (6 √π) = 1381.98
  Confirmations none{Settings()};
  CHECK(withhold_contradicted(settings, upper_panel(), "settings.json", none).empty());
  settings.set("building.volume_m3", 1383.0);
  CHECK(withhold_contradicted(settings, upper_panel(), "settings.json", none).size() == 1);
  CHECK(settings.withheld().contains("building.volume_m3"));
}
