// Sizes as built, squareness, and joints in the opening of the frame.
#include <catch2/catch.hpp>
#include <string>

#include "plugins/quantities/checks.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

void measure(Panel& panel, const std::string& name, double size_m) {
  panel.properties.add("Panel_AsBuilt", name, {size_m, "m", {}});
}

/// 3 mm too wide, 2 mm too low.
Panel measured() {
  Panel panel = cassette("P1");
  measure(panel, "Width", 2.403);
  measure(panel, "Height", 2.398);
  measure(panel, "Thickness", kDepth_m + kBoard_m);
  return panel;
}

Panel surveyed(double opening_width_m, double opening_height_m) {
  Panel panel = measured();
  measure(panel, "FrameOpeningWidth", opening_width_m);
  measure(panel, "FrameOpeningHeight", opening_height_m);
  return panel;
}

Settings limits() {
  Settings result = settings();
  result.set("quantities.size_tolerance_m", 0.003);
  result.set("quantities.least_joint_m", 0.006);
  return result;
}

}  // namespace

TEST_CASE("sizes as built are judged against the permitted deviation") {
  CHECK(as_built_size(cassette("P1"), settings()).reason ==
        "setting 'quantities.size_tolerance_m' and Pset_Tolerance.OverallTolerance are missing: the deviation that the "
        "project permits; Panel_AsBuilt.Width "
        "is missing: measure the panel and state it; Panel_AsBuilt.Height is missing: measure the panel and state it; "
        "Panel_AsBuilt.Thickness is missing: measure the panel and state it");
  const Finding held = as_built_size(measured(), limits());
  CHECK(held.verdict == Verdict::pass);
  CHECK(std::get<double>(held.value) == 0.003);
  Settings tighter = limits();
  tighter.set("quantities.size_tolerance_m", 0.0029);
  CHECK(as_built_size(measured(), tighter).verdict == Verdict::fail);
}

TEST_CASE("half of the width that is left is a joint, all of the height is") {
  const Finding found = as_built_size(surveyed(2.423, 2.418), limits());
  CHECK(found.verdict == Verdict::pass);
  CHECK(std::get<double>(found.value) == 0.003);
  REQUIRE(found.steps.size() == 5);
  CHECK(std::get<double>(found.steps[3].value) == Approx(0.010).epsilon(1e-12));
  CHECK(std::get<double>(found.steps[4].value) == Approx(0.020).epsilon(1e-12));
}

TEST_CASE("a panel in tolerance fails by the worse of its joints") {
  const Finding narrow = as_built_size(surveyed(2.414, 2.400), limits());
  CHECK(narrow.verdict == Verdict::fail);
  CHECK(narrow.relation == Relation::at_least);
  CHECK(std::get<double>(narrow.value) == Approx(0.002).epsilon(1e-12));
  CHECK_THAT(narrow.reason, Catch::Matchers::Contains("the joint at the head is 2.0 mm, too narrow"));

  Settings widest = limits();
  widest.set("quantities.largest_joint_m", 0.03);
  const Finding wide = as_built_size(surveyed(2.475, 2.418), widest);
  CHECK(wide.verdict == Verdict::fail);
  CHECK(wide.relation == Relation::at_most);
  CHECK_THAT(wide.reason, Catch::Matchers::Contains("the joint at each side is 36.0 mm, too wide"));
  CHECK(as_built_size(surveyed(2.475, 2.418), limits()).verdict == Verdict::pass);
}

TEST_CASE("a joint that is just wide enough passes, and a panel larger than its opening fails") {
  CHECK(as_built_size(surveyed(2.415, 2.404), limits()).verdict == Verdict::pass);
  const Finding larger = as_built_size(surveyed(2.401, 2.418), limits());
  CHECK(larger.verdict == Verdict::fail);
  CHECK(std::get<double>(larger.value) == Approx(-0.001).epsilon(1e-12));
}

TEST_CASE("a panel out of tolerance is judged by its deviation, whatever its joints") {
  Settings tighter = limits();
  tighter.set("quantities.size_tolerance_m", 0.001);
  const Finding found = as_built_size(surveyed(2.404, 2.418), tighter);
  CHECK(found.verdict == Verdict::fail);
  CHECK(std::get<double>(found.value) == 0.003);
  CHECK(found.relation == Relation::at_most);
}

TEST_CASE("an infill panel without survey passes on its size and says so") {
  Panel infill = measured();
  infill.properties.add("Panel_Identity", "Arrangement", {std::string("INFILL"), "", {}});
  CHECK(as_built_size(infill, limits()).verdict == Verdict::evidence_needed);
  Settings no_joints = settings();
  no_joints.set("quantities.size_tolerance_m", 0.003);
  const Finding found = as_built_size(infill, no_joints);
  CHECK(found.verdict == Verdict::pass);
  REQUIRE(found.notes.size() == 1);
  CHECK_THAT(found.notes[0], Catch::Matchers::Contains("not surveyed"));
  CHECK(as_built_size(measured(), limits()).notes.empty());
}

TEST_CASE("a survey that cannot be judged is not assessed") {
  Panel half = measured();
  measure(half, "FrameOpeningWidth", 2.42);
  CHECK(as_built_size(half, limits()).reason == "Panel_AsBuilt.FrameOpeningHeight is missing beside the width");
  Settings no_limit = settings();
  no_limit.set("quantities.size_tolerance_m", 0.003);
  CHECK(as_built_size(surveyed(2.42, 2.42), no_limit).reason ==
        "setting 'quantities.least_joint_m' is missing: the narrowest joint that the project's seal can fill");
  Settings crossed = limits();
  crossed.set("quantities.largest_joint_m", 0.005);
  CHECK(as_built_size(surveyed(2.42, 2.42), crossed).reason ==
        "setting 'quantities.largest_joint_m' must not be below 'quantities.least_joint_m'");
  CHECK(as_built_size(surveyed(-2.42, 2.42), limits()).verdict == Verdict::not_assessed);
}

TEST_CASE("squareness is the difference of the diagonals") {
  Panel panel = measured();
  measure(panel, "Diagonal1", 3.396);
  Settings given = limits();
  given.set("quantities.squareness_tolerance_m", 0.005);
  CHECK(as_built_size(panel, given).reason == "Panel_AsBuilt.Diagonal2 is missing beside the other diagonal");
  measure(panel, "Diagonal2", 3.391);
  CHECK(as_built_size(panel, given).verdict == Verdict::pass);
  Settings tighter = limits();
  tighter.set("quantities.squareness_tolerance_m", 0.0049);
  const Finding found = as_built_size(panel, tighter);
  CHECK(found.verdict == Verdict::fail);
  CHECK(std::get<double>(found.value) == 0.005);
  CHECK_THAT(found.reason, Catch::Matchers::Contains("out of square"));
  Settings none = settings();
  none.set("quantities.size_tolerance_m", 0.003);
  CHECK(as_built_size(panel, none).verdict == Verdict::not_assessed);
}
