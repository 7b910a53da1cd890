// Cladding and battens against suction, by hand.
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/fixings/cladding_lines.h"
#include "tests/structural/clad_panel.h"
#include "tests/structural/drawn_members.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using structural::cladding_lines;

namespace {

/// Under 1.0 kPa of wind.
Project clad_project() {
  Project project = hoisted_project();
  clad(project.panels.front());
  return project;
}

Part& part_named(Project& project, const std::string& name) {
  auto& parts = project.panels.front().parts;
  return *std::find_if(parts.begin(), parts.end(), [&](const Part& part) { return part.name == name; });
}

Finding suction_of(const Project& project) {
  return finding_of(findings_as_drawn(project, hoisting_settings()), "structural.cladding_fixings");
}

void put_fastener(Part& part, const std::string& name, double value) {
  remove(part.properties, "Panel_Fastener." + name);
  part.properties.add("Panel_Fastener", name, property_of(value));
}

}  // namespace

// The batten at 0.6 m carries half of the 0.5775 m to the first one's middle and half of the 0.6 m to the next:
// 0.58875. Lines behind both boards: three each of 3 m; battens: five of 3 m.
TEST_CASE("Battens share the cladding half way to their neighbours, within each board") {
  const Project project = clad_project();
  const structural::CladdingLines lines = cladding_lines(project.panels.front());
  REQUIRE(lines.missing.empty());
  CHECK(lines.width_m == Approx(0.58875));
  CHECK(lines.cladding_length_m == Approx(18.0));
  CHECK(lines.batten_length_m == Approx(15.0));
}

// q_d = 1.5·1000·1.25·0.58875 = 1103.9 N/m. A screw of the boards: 0.4 m of it, 441.6 N, against 0.7·1300/1.3 = 700 N
// of service class 3 and short duration; its head 15·12² = 2160 N. A screw of the battens: 1.25·1103.9·0.4 = 551.9 N
// against its head of 13·12² = 1872 N, 1008 N; its thread 0.52·6^−0.5·60^−0.1·350^0.8·6·60·0.75 = 4128 N.
TEST_CASE("The pull on a fixing of cladding and battens can be redone by hand") {
  const Finding found = suction_of(clad_project());
  REQUIRE(found.verdict == Verdict::pass);
  CHECK(step_of(found, "q_d") == Approx(1.1039).epsilon(1e-4));
  CHECK(step_of(found, "F_d,c") == Approx(441.6).epsilon(1e-4));
  CHECK(step_of(found, "F_Rd,c") == Approx(700.0));
  CHECK(step_of(found, "F_d,b") == Approx(551.95).epsilon(1e-4));
  CHECK(step_of(found, "F_ax,Rk,b") == Approx(4128.0).epsilon(1e-3));
  CHECK(step_of(found, "F_Rd,b") == Approx(1008.0));
  CHECK(std::get<double>(found.value) == Approx(441.6 / 700.0).epsilon(1e-4));
}

TEST_CASE("The weaker of thread and head governs, and the weaker of the two links") {
  Project project = clad_project();
  put_fastener(part_named(project, "Cladding screws"), "HeadPullThrough", 7e6);
  // 7·144 = 1008 N: 0.7·1008/1.3 = 542.8 N.
  CHECK(std::get<double>(suction_of(project).value) == Approx(441.56 / 542.77).epsilon(1e-4));
  put_fastener(part_named(project, "Batten screws"), "HeadPullThrough", 6e6);
  // 6·144 = 864 N: 465.2 N, less than the 551.9 N that pull.
  const Finding weak = suction_of(project);
  CHECK(weak.verdict == Verdict::fail);
  CHECK(weak.reason == "heads of 'Batten screws' is beyond what is allowed: closer or stronger fixings are needed");
}

TEST_CASE("Battens farther apart carry more, and a board on one of them is not assessed") {
  Project project = clad_project();
  std::erase_if(project.panels.front().parts, [](const Part& part) { return part.name == "Batten at 577"; });
  part_named(project, "Batten screws").count = 36;
  part_named(project, "Cladding screws").count = 40;
  // Board from 0 to 1.2 m: 0.0225 + 1.1775/2 = 0.61125 m on the first batten.
  CHECK(step_of(suction_of(project), "b_w") == Approx(0.61125));
  std::erase_if(project.panels.front().parts, [](const Part& part) { return part.name == "Batten at 0"; });
  CHECK(suction_of(project).reason ==
        "cladding 'Board at 0', 0.000 m to 1.200 m across its battens, lies on fewer than two of them");
}

TEST_CASE("What the way of suction needs is named where it is absent or contradicts") {
  const auto reason_after = [](void (*change)(Project&)) {
    Project project = clad_project();
    change(project);
    const Finding found = suction_of(project);
    CHECK(found.verdict == Verdict::not_assessed);
    return found.reason;
  };
  CHECK(reason_after([](Project& project) { part_named(project, "Cladding screws").count = 33; })
            .find("'Cladding screws' count 33 (Panel_FastenerQuantities.Count), where 18.0 m of battens at "
                  "Panel_Fastener.Spacing 0.400 m ask for some 45") == 0);
  CHECK(reason_after([](Project& project) { part_named(project, "Batten screws").object_type = "SCREW"; }) ==
        "the panel has no fixings of its battens (IfcMechanicalFastener with BATTEN in its ObjectType)");
  CHECK(reason_after([](Project& project) {
          project.panels.front().parts.push_back(part_named(project, "Batten screws"));
        }) == "fixings of the battens of several kinds; their shares of the load are not known");
  CHECK(reason_after([](Project& project) {
          remove(part_named(project, "Cladding screws").properties, "Panel_Fastener.HeadPullThrough");
        }) == "'Cladding screws' has no Panel_Fastener.HeadPullThrough");
  CHECK(reason_after([](Project& project) {
          put_fastener(part_named(project, "Batten screws"), "Diameter", 0.0048);
        }).find("lie outside EN 1995-1-1 8.7.2") != std::string::npos);
  CHECK(reason_after([](Project& project) {
          for (Part& part : project.panels.front().parts) {
            if (part.name == "Batten at 577") part.bounds->min.y += 0.02;
          }
        }).find("battens in several layers, 'Batten at 0' and 'Batten at 577'") == 0);
  CHECK(reason_after([](Project& project) {
          std::erase_if(project.panels.front().parts, [](const Part& part) { return part.kind == PartKind::batten; });
        }) == "there are no battens behind the cladding (IfcMember with BATTEN in its ObjectType)");
}

// Half way between studs at 0.6 m and 1.2 m; and one batten on its side.
TEST_CASE("Battens that no stud stands behind hold nothing, and what lies is not told") {
  Project beside = clad_project();
  Box3& box = *part_named(beside, "Batten at 577").bounds;
  box.min.x += 0.3;
  box.max.x += 0.3;
  CHECK(suction_of(beside).reason ==
        "batten 'Batten at 577' at 0.900 m has no stud behind at least half of it, so its fixings hold in nothing");
  Project lying = clad_project();
  std::erase_if(lying.panels.front().parts,
                [](const Part& part) { return part.kind == PartKind::batten && part.name != "Batten at 0"; });
  *part_named(lying, "Batten at 0").bounds = {{0.0, 0.157, 0.3}, {2.4, 0.195, 0.345}};
  CHECK(suction_of(lying).reason ==
        "batten 'Batten at 0' at 1.200 m lies: how many of its fixings meet a stud is not told");
}

TEST_CASE("What holds cladding on battens does not hold the battens") {
  Project project = clad_project();
  part_named(project, "Cladding screws").object_type = "CLADDING TO BATTEN SCREW";
  CHECK(suction_of(project).verdict == Verdict::pass);
  part_named(project, "Batten screws").object_type = "SCREW";
  CHECK(suction_of(project).reason ==
        "the panel has no fixings of its battens (IfcMechanicalFastener with BATTEN in its ObjectType)");
}

TEST_CASE("A panel without cladding has no way of suction through it") {
  const Project project = with_drawn_members(hoisted_project());
  const auto outcome =
      structural::check_panel(project.panels.front(), project, hoisting_settings(), structural_tables());
  CHECK(std::any_of(outcome.not_applicable.begin(), outcome.not_applicable.end(), [](const NotApplicable& none) {
    return none.check == "structural.cladding_fixings" && none.reason == "the panel bears no cladding";
  }));
}
