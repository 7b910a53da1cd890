#include "plugins/fire/facade/external_wall_check.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/api/testing/properties.h"
#include "core/api/testing/temporary_folder.h"
#include "plugins/fire/facade/reaction_check.h"
#include "tests/fire/fire_tables.h"
#include "tests/fire/tested_panel.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Finding external_wall(const Project& project, const Settings& settings) {
  return fire::external_wall_material(project.panels.front(), project, settings, fire_tables());
}

Settings with(const char* key, Settings::Value value) {
  Settings settings = cassette_settings();
  settings.set(key, std::move(value));
  return settings;
}

}  // namespace

TEST_CASE("When the outside is not known no surface is judged") {
  Project project = classified_panel();
  project.panels.front().outside_known = false;
  project.panels.front().layers.clear();
  const char* reason =
      "which face is outside is not known (Panel_Construction.FirstLayerFace or setting intake.layer_order)";
  CHECK(fire::reaction_to_fire(project.panels.front(), project, cassette_settings()).reason == reason);
  CHECK(external_wall(project, cassette_settings()).reason == reason);
}

TEST_CASE("A surface good enough next to the boundary passes without a distance") {
  const Finding finding = external_wall(classified_panel(), cassette_settings());
  CHECK(finding.verdict == Verdict::pass);
  CHECK(std::get<std::string>(finding.value) == "A2-s1,d0 of 'outer board'");
  CHECK(std::get<std::string>(finding.limit) == "B-s3,d2");
}

TEST_CASE("A combustible surface depends on the distance to the boundary") {
  Project project = classified_panel();
  project.panels.front().layers.back().material = kOsb;
  const Finding unknown = external_wall(project, cassette_settings());
  CHECK(unknown.verdict == Verdict::not_assessed);
  CHECK(unknown.reason ==
        "setting building.boundary_distance_m: the class B-s3,d2 asked for within 1 m of the boundary is not met");
  const Finding near = external_wall(project, with("building.boundary_distance_m", 0.5));
  CHECK(near.verdict == Verdict::fail);
  CHECK(near.reason == "not of the class required: 'outer board' (D-s2,d0)");
  CHECK(external_wall(project, with("building.boundary_distance_m", 3.0)).verdict == Verdict::pass);
}

TEST_CASE("Timber framing fails in a tall building that people sleep in") {
  Settings settings = with("project.use", std::string("hospital"));
  settings.set("building.top_storey_height_m", 18.0);
  const Finding finding = external_wall(classified_panel(), settings);
  CHECK(finding.verdict == Verdict::fail);
  CHECK(finding.reason == "not of the class required: 'inner board' (D-s2,d0) 'S1' (D-s2,d0)");
}

TEST_CASE("Where no rule is held the class that the fire engineer gives is asked for") {
  const Finding absent = external_wall(classified_panel(), with("project.jurisdiction", std::string("Elsewhere")));
  CHECK(absent.verdict == Verdict::not_assessed);
  CHECK(absent.reason ==
        "the tables hold no rule for 'office' at this height in Elsewhere; the fire engineer gives the class of the "
        "external surface by setting fire.external_wall_class (EN 13501-1)");
  Settings given = with("project.jurisdiction", std::string("Scotland"));
  given.set("fire.external_wall_class", std::string("A2-s1,d0"));
  CHECK(external_wall(classified_panel(), given).verdict == Verdict::pass);
  given.set("fire.external_wall_class", std::string("A1"));
  CHECK(external_wall(classified_panel(), given).verdict == Verdict::fail);
  given.set("fire.external_wall_class", std::string("non-combustible"));
  CHECK(external_wall(classified_panel(), given).verdict == Verdict::not_assessed);
}

TEST_CASE("Insulation is judged where the rule asks a class of it") {
  Project project = classified_panel();
  Settings settings = with("building.top_storey_height_m", 18.0);
  CHECK(external_wall(project, settings).verdict == Verdict::pass);
  replace(project.materials[kWool].properties, "Panel_Fire", "ReactionToFire", property_of("E"));
  const Finding finding = external_wall(project, settings);
  CHECK(finding.verdict == Verdict::fail);
  CHECK(finding.reason == "not of the class required: 'studs' (E)");
}

TEST_CASE("A membrane outermost is no external surface") {
  Project project = classified_panel();
  add_layer(project.panels.front(), "breather", "membrane", kOsb, 0.169, 0.1695);
  const Finding open = external_wall(project, cassette_settings());
  CHECK(open.verdict == Verdict::not_assessed);
  CHECK(open.reason ==
        "the outermost layer is the membrane 'breather': class of the outer leaf over it "
        "(Panel_Construction.OuterLeafReactionToFire)");
  project.panels.front().properties.add("Panel_Construction", "OuterLeafReactionToFire", property_of("A1"));
  CHECK(external_wall(project, cassette_settings()).verdict == Verdict::pass);
}

TEST_CASE("Membranes have a class of their own where every material is judged") {
  Project project = classified_panel();
  for (std::size_t i = 0; i < project.materials.size(); ++i) {
    project.materials[i].category.clear();  // of wood and plastics nobody believes it
    replace(project.materials[i].properties, "Panel_Fire", "ReactionToFire", property_of("A1"));
  }
  project.materials.push_back(material_of("film", "plastic", 900.0));
  project.materials.back().properties.add("Panel_Fire", "ReactionToFire", property_of("E"));
  add_layer(project.panels.front(), "breather", "membrane", project.materials.size() - 1, 0.169, 0.1695);
  project.panels.front().properties.add("Panel_Construction", "OuterLeafReactionToFire", property_of("A1"));
  Settings settings = with("project.use", std::string("hospital"));
  settings.set("building.top_storey_height_m", 18.0);
  CHECK(external_wall(project, settings).reason == "not of the class required: 'breather' (E)");
  replace(project.materials.back().properties, "Panel_Fire", "ReactionToFire", property_of("B-s1,d0"));
  CHECK(external_wall(project, settings).verdict == Verdict::pass);
}

TEST_CASE("A building of one storey has its top storey on the ground, none below it") {
  CHECK(external_wall(classified_panel(), with("building.top_storey_height_m", 0.0)).verdict == Verdict::pass);
  const Finding below = external_wall(classified_panel(), with("building.top_storey_height_m", -0.1));
  CHECK(below.verdict == Verdict::not_assessed);
  CHECK(below.reason == "the height of the top storey must not be negative");
}

TEST_CASE("A panel inside the building has no external wall rule") {
  Project project = classified_panel();
  replace(project.panels.front().properties, "Pset_WallCommon", "IsExternal", property_of(false));
  CHECK(std::get<std::string>(external_wall(project, cassette_settings()).value) == "not external");
}

TEST_CASE("A panel inside the building may have a window that is inside too") {
  Project project = classified_panel();
  replace(properties_of(project), "Pset_WallCommon", "IsExternal", property_of(false));
  add_window(project);
  CHECK(external_wall(project, cassette_settings()).verdict == Verdict::not_assessed);
  Properties& window = project.panels.front().openings.back().filling_properties;
  window.add("Pset_WindowCommon", "IsExternal", property_of(false));
  CHECK(external_wall(project, cassette_settings()).verdict == Verdict::information);
  replace(window, "Pset_WindowCommon", "IsExternal", property_of(true));
  CHECK(external_wall(project, cassette_settings()).reason ==
        "Pset_WallCommon.IsExternal is no, and Pset_WindowCommon.IsExternal of 'window' is yes: one of them is wrong");
}

TEST_CASE(
    "A rule goes by the height of panel and top storey, and by the stricter class where the panel's is not known") {
  using Heights = std::optional<std::pair<double, double>>;
  const auto far = [](const char* group, double top_storey_m, const Heights& foot_and_top_m) {
    const auto rule = fire::find_external_wall_rule(fire_tables(), "England", group, top_storey_m, foot_and_top_m);
    return rule ? rule->far : std::string("no rule");
  };
  // Approved Document B vol. 2 table 12.1: assembly up to 18 m C-s3,d2 up to 10 m, nothing above; from 18 m on C and B.
  CHECK(far("assembly", 17.9, Heights({7.0, 10.0})) == "C-s3,d2");
  CHECK(far("assembly", 17.9, Heights({10.0, 13.0})) == "none");
  // One that stands in both zones needs the class of the stricter one over all of its height.
  CHECK(far("assembly", 17.9, Heights({9.9, 13.0})) == "C-s3,d2");
  CHECK(far("assembly", 17.9, Heights({0.0, 12.0})) == "C-s3,d2");
  CHECK(far("assembly", 17.9, std::nullopt) == "C-s3,d2");
  CHECK(far("assembly", 18.0, Heights({15.0, 18.0})) == "C-s3,d2");
  CHECK(far("assembly", 18.0, Heights({15.0, 18.1})) == "B-s3,d2");
  CHECK(far("assembly", 18.0, std::nullopt) == "B-s3,d2");
  CHECK(far("sleeping", 0.0, std::nullopt) == "none");
  CHECK(far("sleeping", -0.1, std::nullopt) == "no rule");
  CHECK(far("storage", 5.0, std::nullopt) == "no rule");
}

TEST_CASE("A rule that lacks a height or its scope is none") {
  const std::filesystem::path data = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/fire/data";
  const std::string head =
      "key,jurisdiction,group,from_height_m,below_height_m,scope,near,far_lower,far_upper,zone_height_m,insulation,"
      "membranes,source\n";
  const auto has_rule = [&](const char* row) {
    const TemporaryFolder folder;
    std::filesystem::copy(data, folder.path());
    folder.write("external_walls.csv", head + row + "\n");
    return fire::find_external_wall_rule(fire::Tables(folder.path()), "England", "other", 5.0, std::pair(0.0, 3.0))
        .has_value();
  };
  CHECK(has_rule("k,England,other,0,18,external surface,none,none,none,18,none,none,x"));
  CHECK_FALSE(has_rule("k,England,other,,18,external surface,none,none,none,18,none,none,x"));
  CHECK_FALSE(has_rule("k,England,other,0,,external surface,none,none,none,18,none,none,x"));
  CHECK_FALSE(has_rule("k,England,other,0,18,,none,none,none,18,none,none,x"));
  CHECK_FALSE(has_rule("k,England,other,0,18,external surface,none,none,none,,none,none,x"));
}

TEST_CASE("A panel stated to be inside that shows any sign of the outside is not let off") {
  struct Sign {
    const char* label;
    std::function<void(Panel&)> set;
    bool is_one;
  };
  const auto property = [](const char* set, const char* name, std::variant<double, bool, std::string> value) {
    return [=](Panel& panel) { panel.properties.add(set, name, property_of(value)); };
  };
  const std::vector<Sign> signs{
      {"none", [](Panel&) {}, false},
      {"wind", property("Panel_Structure", "DesignWindPressure", 600.0), true},
      {"no wind", property("Panel_Structure", "DesignWindPressure", 0.0), false},
      {"before the floors", property("Panel_Identity", "Arrangement", std::string("OVERSAIL")), true},
      {"between the floors", property("Panel_Identity", "Arrangement", std::string("INFILL")), false},
      {"a distance to the boundary", property("Panel_FireRequirement", "BoundaryDistance", 4.0), true},
      {"an outer leaf", property("Panel_Construction", "OuterLeafReactionToFire", std::string("A1")), true},
      {"cladding", [](Panel& panel) { panel.layers.back().category = "cladding"; }, true},
      {"a ventilated layer", [](Panel& panel) { panel.layers.back().is_ventilated = true; }, true},
      {"a layer that is not ventilated", [](Panel& panel) { panel.layers.back().is_ventilated = false; }, false}};
  for (const Sign& sign : signs) {
    INFO(sign.label);
    Project project = classified_panel();
    replace(properties_of(project), "Pset_WallCommon", "IsExternal", property_of(false));
    sign.set(project.panels.front());
    const Finding finding = external_wall(project, cassette_settings());
    CHECK(finding.verdict == (sign.is_one ? Verdict::not_assessed : Verdict::information));
  }
}

TEST_CASE("Missing settings of the building are named") {
  for (const char* key : {"project.jurisdiction", "project.use", "building.top_storey_height_m"}) {
    const Finding finding = external_wall(classified_panel(), without(cassette_settings(), key));
    INFO(key);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.starts_with(std::string("setting ") + key));
  }
  CHECK(external_wall(classified_panel(), with("building.top_storey_height_m", -1.0)).reason ==
        "the height of the top storey must not be negative");
}
