#include <catch2/catch.hpp>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/calculation/separating_function.h"
#include "tests/fire/fire_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr double kFront_m = 0.157;  ///< outer face of the framing
constexpr double kBack_m = 0.169;

void add_sheet(Panel& panel, double x_min, double x_max, double z_min, double z_max) {
  panel.parts.push_back(box_part("sheet", PartKind::sheet, kOsb, {{x_min, kFront_m, z_min}, {x_max, kBack_m, z_max}}));
}

/// The cassette with the outer board in two sheets that meet at `x_m`, `gap_m` apart.
Project jointed_at(double x_m, double gap_m = 0.0) {
  Project project = cassette_project();
  Panel& panel = project.panels.front();
  std::erase_if(panel.parts, [](const Part& part) { return part.name == "outer sheet"; });
  add_sheet(panel, 0.0, x_m, 0.0, 3.0);
  add_sheet(panel, x_m + gap_m, 2.4, 0.0, 3.0);
  return project;
}

fire::BoardJoints outer_joints(const Project& project) {
  const Panel& panel = project.panels.front();
  return fire::joints_of(panel, panel.layers.back());
}

/// The ways of heat with fire on the outer face.
std::vector<fire::HeatPath> paths_of(const Project& project) {
  const Panel& panel = project.panels.front();
  const auto cassette = fire::read_cassette(panel, project, fire_tables());
  const auto function = fire::separating_function(cassette, panel, fire_tables(), false);
  const auto studs = fire::studs_in_fire(panel, project, cassette, fire_tables(), 60.0, false, false);
  return fire::heat_paths(function, cassette, panel, fire_tables(), studs);
}

}  // namespace

TEST_CASE("One sheet over the whole face has no joints") {
  CHECK(outer_joints(cassette_project()).text() == "none");
}

TEST_CASE("A joint on a stud is backed, one between studs is not") {
  const auto backed = outer_joints(jointed_at(1.2));
  CHECK(backed.joints == 1);
  CHECK(backed.text() == "1, all on framing");
  CHECK(outer_joints(jointed_at(1.0)).unbacked == "upright joint 1000 mm from the left");
}

TEST_CASE("Insulation behind a joint does not back it") {
  Project project = jointed_at(1.0);
  project.panels.front().parts.push_back(
      box_part("stone wool", PartKind::insulation, kWool, {{0.6, 0.012, 0.0}, {1.2, kFront_m, 3.0}}));
  CHECK(outer_joints(project).unbacked == "upright joint 1000 mm from the left");
}

TEST_CASE("A gap wider than the stud behind leaves the joint unbacked") {
  const auto joints = outer_joints(jointed_at(1.19, 0.004));
  CHECK(joints.widest_gap_mm == Approx(4.0));
  CHECK(joints.unbacked.empty());
  CHECK_FALSE(outer_joints(jointed_at(1.22, 0.004)).unbacked.empty());
}

TEST_CASE("A level joint needs framing along its whole length") {
  Project project = cassette_project();
  Panel& panel = project.panels.front();
  std::erase_if(panel.parts, [](const Part& part) { return part.name == "outer sheet"; });
  add_sheet(panel, 0.0, 2.4, 0.0, 2.4);
  add_sheet(panel, 0.0, 2.4, 2.4, 3.0);
  CHECK(outer_joints(project).unbacked == "level joint 2400 mm above the foot");
  panel.parts.push_back(
      box_part("noggings", PartKind::blocking, kTimber, {{0.0, 0.012, 2.3775}, {2.4, kFront_m, 2.4225}}));
  CHECK(outer_joints(project).unbacked.empty());
}

TEST_CASE("A strip that fills the gap between two sheets exactly makes two joints without a gap") {
  Project project = jointed_at(1.0, 0.004);
  add_sheet(project.panels.front(), 1.0, 1.004, 0.0, 3.0);
  const auto joints = outer_joints(project);
  CHECK(joints.joints == 2);
  CHECK(joints.widest_gap_mm == Approx(0.0).margin(1e-9));
}

TEST_CASE("An opening between two sheets is no joint") {
  Project project = jointed_at(1.0);
  Opening slot;
  slot.x_min_m = 0.99;
  slot.x_max_m = 1.01;
  slot.z_max_m = 3.0;
  project.panels.front().openings.push_back(slot);
  CHECK(outer_joints(project).unbacked.empty());
}

TEST_CASE("Sheets without a shape leave the joints unknown") {
  Project project = cassette_project();
  std::erase_if(project.panels.front().parts, [](const Part& part) { return part.kind == PartKind::sheet; });
  CHECK_FALSE(outer_joints(project).known);
  const auto paths = paths_of(project);
  CHECK_FALSE(paths[1].minutes.has_value());
  CHECK(fire::governing_path(paths)->name == "cavity filling");
}

TEST_CASE("A path by test governs no calculation, however short") {
  std::vector<fire::HeatPath> paths = paths_of(cassette_project());
  const std::string before = fire::governing_path(paths)->name;
  paths.push_back({true, "penetration", {}, 1.0, "by test of its seal", false});
  CHECK(fire::governing_path(paths)->name == before);
}

TEST_CASE("An unbacked joint governs with the least factor of the board, an open one counts for nothing") {
  // Gypsum H 12 mm exposed: 1.4·12·0.78 = 13.10 min; unbacked 0.15 of it, open 0.
  const double whole_min = *paths_of(jointed_at(1.2))[1].minutes;
  const auto unbacked = paths_of(jointed_at(1.0));
  CHECK(*unbacked[1].minutes == Approx(whole_min - 0.85 * 13.104));
  CHECK(fire::governing_path(unbacked)->name == "joint, fire side");
  CHECK(*paths_of(jointed_at(1.19, 0.003))[1].minutes == Approx(whole_min - 13.104));
}

TEST_CASE("Studs beside a void cavity char on three faces, and annex E is not calculated") {
  Project project = cassette_project();
  Panel& panel = project.panels.front();
  panel.layers[1].material.reset();
  std::erase_if(panel.parts, [](const Part& part) { return part.kind == PartKind::insulation; });
  const auto cassette = fire::read_cassette(panel, project, fire_tables());
  CHECK(cassette.void_cavity);
  CHECK(fire::separating_function(cassette, panel, fire_tables(), false).missing.size() == 1);
  // Gypsum H 12 mm: tch = tf = 19.6 min; at 40 min 25 mm are passed at 35.225 min: 25 + 0.8·4.775 = 28.82 mm; k0 = 1:
  // def = 35.82 mm; of 45 mm nothing is left between both sides, of the depth 109.18 mm.
  const auto studs = fire::studs_in_fire(panel, project, cassette, fire_tables(), 40.0, false, false);
  REQUIRE(studs.missing.empty());
  CHECK(studs.charring.rule == fire::CharringRule::three_faces);
  CHECK(studs.studs.front().remaining_width_mm == 0.0);
  CHECK(studs.studs.front().remaining_depth_mm == Approx(109.18));
}

TEST_CASE("The path through a stud says why it ends") {
  // Beside stone wool 145 mm are not charred through; glass wool protects no longer once the board has fallen off.
  const auto remark = [](const std::vector<fire::HeatPath>& paths) {
    const auto stud = std::find_if(paths.begin(), paths.end(), [](const auto& path) { return path.name == "stud"; });
    return stud == paths.end() ? std::string() : stud->remark;
  };
  Project project = cassette_project();
  CHECK(remark(paths_of(project)) == "not charred through at 60 min; not annex E");
  project.materials[kWool].name = "glass wool";
  replace(project.materials[kWool].properties, "Panel_Fire", "InsulationType", property_of("GLASS_WOOL"));
  CHECK(remark(paths_of(project)) == "fails at t_f (annex C); not annex E");
}

TEST_CASE("The path through a stud has the time of its loss up to 60 minutes, and none beyond") {
  const Project project = cassette_project();
  const Panel& panel = project.panels.front();
  const auto cassette = fire::read_cassette(panel, project, fire_tables());
  const auto function = fire::separating_function(cassette, panel, fire_tables(), false);
  auto studs = fire::studs_in_fire(panel, project, cassette, fire_tables(), 60.0, false, false);
  const auto minutes_at = [&](double back_min) {
    studs.charring.back_min = back_min;
    const auto paths = fire::heat_paths(function, cassette, panel, fire_tables(), studs);
    return std::find_if(paths.begin(), paths.end(), [](const auto& path) { return path.name == "stud"; })->minutes;
  };
  CHECK(minutes_at(45.0) == 45.0);
  CHECK(minutes_at(60.0) == 60.0);
  CHECK_FALSE(minutes_at(60.001).has_value());
}

TEST_CASE("A type F board stays for its tested time where its fasteners are long enough") {
  Project project = cassette_project();
  Panel& panel = project.panels.front();
  replace(project.materials[kGypsum].properties, "Panel_Fire", "ProtectionRole", property_of("GYPSUM_F"));
  project.materials[kGypsum].properties.add("Panel_Fire", "FailureTime", property_of(40.0 * 60.0));
  const auto fall_off_min = [&] {
    const auto cassette = fire::read_cassette(panel, project, fire_tables());
    return fire::studs_in_fire(panel, project, cassette, fire_tables(), 60.0, false, false)
        .charring.phases.fall_off_min;
  };
  CHECK(fall_off_min() == Approx(19.6));
  Part screws = box_part("screws", PartKind::fastener, kTimber, {{0.0, 0.157, 0.0}, {2.4, 0.169, 3.0}});
  screws.properties.add("Panel_Fastener", "Length", property_of(0.060));
  panel.parts.push_back(screws);
  CHECK(fall_off_min() == Approx(40.0));
  // 32 mm: 10 mm beyond 12 + 10; k2 = 1.05 − 0.0073·12 = 0.9624; 1.3·1.5·0.9624·1.15·0.65 = 1.4028 mm/min: 7.129 min.
  replace(panel.parts.back().properties, "Panel_Fastener", "Length", property_of(0.032));
  CHECK(fall_off_min() == Approx(19.6 + 7.129).epsilon(1e-4));
}

TEST_CASE("Of a board's fasteners the shortest and the widest spaced count, and none that leave their size open") {
  const auto fixed = [](const std::vector<std::pair<double, double>>& length_and_spacing_m) {
    Project project = cassette_project();
    Panel& panel = project.panels.front();
    for (const auto& [length_m, spacing_m] : length_and_spacing_m) {
      Part screws = box_part("screws", PartKind::fastener, kTimber, {{0.0, 0.157, 0.0}, {2.4, 0.169, 3.0}});
      if (length_m > 0.0) screws.properties.add("Panel_Fastener", "Length", property_of(length_m));
      if (spacing_m > 0.0) screws.properties.add("Panel_Fastener", "Spacing", property_of(spacing_m));
      panel.parts.push_back(screws);
    }
    return fire::fixings_of(panel, panel.layers.back());
  };
  const auto all = fixed({{0.060, 0.10}, {0.045, 0.20}, {0.070, 0.15}});
  CHECK(all.shortest_m.value().value == 0.045);
  CHECK(all.spacing_m.value().value == 0.20);
  CHECK_FALSE(fixed({{0.060, 0.10}, {0.0, 0.20}}).shortest_m);
  CHECK(fixed({{0.060, 0.10}, {0.0, 0.20}}).spacing_m.value().value == 0.20);
  CHECK_FALSE(fixed({{0.060, 0.0}, {0.045, 0.20}}).spacing_m);
  CHECK(fixed({{0.060, 0.0}, {0.045, 0.20}}).shortest_m.value().value == 0.045);
  CHECK_FALSE(fixed({}).shortest_m);
}

TEST_CASE("A bare opening is a penetration that annex E gives no time for") {
  Project project = cassette_project();
  Opening duct;
  duct.name = "duct";
  duct.x_max_m = 0.2;
  duct.z_max_m = 0.2;
  project.panels.front().openings.push_back(duct);
  const auto paths = paths_of(project);
  CHECK(paths.back().name == "penetration 'duct'");
  CHECK_FALSE(paths.back().minutes.has_value());
}
