// Sections from solids: values by hand beside each check.
#include "plugins/structural/basis/member_section.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using structural::MemberAxis;
using structural::MemberSection;
using structural::read_section;

namespace {

constexpr double kLength_m = 3.0;

/// 45 mm along the wall, 220 mm through it; its box and the volume of that alone.
Part stud() {
  return box_part("S", PartKind::stud, kTimber, {{0.0, 0.0, 0.0}, {0.045, 0.220, kLength_m}});
}

const Polygon kRectangle{{0, 0}, {45, 0}, {45, 220}, {0, 220}};

/// Drawn along its axis, with this outline along and through the wall in mm.
Part drawn_along(const Polygon& outline_mm) {
  Part part = stud();
  Extrusion solid;
  for (const Vec2& point : outline_mm) solid.outline.push_back({point.x / 1e3, point.y / 1e3});
  solid.depth_m = kLength_m;
  part.bounds = solid.bounds();
  part.volume_m3 = Sourced<double>{solid.volume_m3(), part.origin};
  part.solid = solid;
  return part;
}

/// Drawn along the wall, with this side: distance along the member and through the wall in mm.
Part drawn_from_side(const Polygon& side_mm) {
  Part part = stud();
  Extrusion solid;
  for (const Vec2& point : side_mm) solid.outline.push_back({point.x / 1e3, point.y / 1e3});
  // x of the profile up, y through the wall, so its normal is against the wall's x.
  solid.frame = {{0.045, 0.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, 1.0, 0.0}, {-1.0, 0.0, 0.0}};
  solid.depth_m = 0.045;
  part.volume_m3 = Sourced<double>{solid.volume_m3(), part.origin};
  part.solid = solid;
  return part;
}

MemberSection with_holes(const std::string& holes) {
  Part part = drawn_along(kRectangle);
  part.properties.add("Panel_Member", "Holes", property_of(holes));
  return read_section(part, MemberAxis::upright);
}

/// Flanges 45 x 39, web 8 thick, 220 deep.
const Polygon kIShape{{0, 0},    {45, 0},  {45, 39}, {26.5, 39},  {26.5, 181}, {45, 181},
                      {45, 220}, {0, 220}, {0, 181}, {18.5, 181}, {18.5, 39},  {0, 39}};

}  // namespace

TEST_CASE("A solid that fills its box is a full rectangle, upright or along the wall") {
  const MemberSection upright = read_section(drawn_along(kRectangle), MemberAxis::upright);
  CHECK(upright.problem.empty());
  CHECK(upright.section.whole());
  CHECK(upright.section.width_m == Approx(0.045));
  CHECK(upright.section.depth_m == Approx(0.220));
  const Part side = drawn_from_side({{0, 0}, {3000, 0}, {3000, 220}, {0, 220}});
  CHECK(read_section(side, MemberAxis::upright).section.whole());
  Part rail = box_part("R", PartKind::rail, kTimber, {{0.0, 0.0, 0.0}, {2.4, 0.220, 0.045}});
  rail.solid = Extrusion{rectangle(0.0, 0.0, 2.4, 0.220), {}, {0.0, 0.0, 1.0}, 0.045};
  const MemberSection along = read_section(rail, MemberAxis::along_wall);
  CHECK(along.section.width_m == Approx(0.045));
  CHECK(along.section.depth_m == Approx(0.220));
}

TEST_CASE("An I-shape has the values of its outline") {
  const MemberSection read = read_section(drawn_along(kIShape), MemberAxis::upright);
  REQUIRE(read.problem.empty());
  REQUIRE(read.section.outline.has_value());
  // A = 45·220 − 37·142; I_y = (45·220³ − 37·142³)/12; I_z = (2·39·45³ + 142·8³)/12.
  const double second_mm4 = (45.0 * std::pow(220.0, 3) - 37.0 * std::pow(142.0, 3)) / 12.0;
  CHECK(read.section.area_m2() * 1e6 == Approx(45.0 * 220.0 - 37.0 * 142.0));
  CHECK(read.section.second_moment_m4() * 1e12 == Approx(second_mm4));
  CHECK(read.section.section_modulus_m3() * 1e9 == Approx(second_mm4 / 110.0));
  CHECK(read.section.weak_second_moment_m4() * 1e12 ==
        Approx((78.0 * std::pow(45.0, 3) + 142.0 * std::pow(8.0, 3)) / 12.0));
  // S at the centre: flange 45·39·90.5 and half of the web 8·71²/2; τ = V·S/(I·8) = 1.5·V/A_v.
  const double first_mm3 = 45.0 * 39.0 * 90.5 + 8.0 * 71.0 * 71.0 / 2.0;
  CHECK(read.section.shear_area_m2() * 1e6 == Approx(1.5 * second_mm4 * 8.0 / first_mm3).epsilon(1e-4));
  CHECK(read.section.radius_m() * 1e3 == Approx(std::sqrt(second_mm4 / (45.0 * 220.0 - 37.0 * 142.0))));
}

TEST_CASE("The outline of a rectangle has its known values") {
  const auto outline = structural::section_outline({{0.0, 0.0}, {0.045, 0.0}, {0.045, 0.145}, {0.0, 0.145}});
  REQUIRE(outline.has_value());
  CHECK(outline->section_modulus_m3 == Approx(0.045 * 0.145 * 0.145 / 6.0));
  CHECK(outline->weak_modulus_m3 == Approx(0.145 * 0.045 * 0.045 / 6.0));
  CHECK(outline->shear_area_m2 == Approx(0.045 * 0.145).epsilon(1e-4));
}

TEST_CASE("A section that bends obliquely, several solids and an oblique solid are not known") {
  const Part angle = drawn_along({{0, 0}, {45, 0}, {45, 220}, {35, 220}, {35, 10}, {0, 10}});
  CHECK(read_section(angle, MemberAxis::upright).problem.find("without an axis of symmetry") != std::string::npos);
  Part several = stud();
  several.volume_m3->value = 0.045 * 0.220 * kLength_m * 0.469;
  CHECK(read_section(several, MemberAxis::upright).problem ==
        "'S' is of several solids or known by its box alone, of which its volume fills 47 %, so its section is not "
        "known: export one solid");
  Part box = stud();
  box.volume_m3.reset();
  CHECK(read_section(box, MemberAxis::upright).problem.find("is known by its box alone") != std::string::npos);
  // Two halves side by side, or a gross volume beside a box: neither is a full section.
  for (const MemberAxis axis : {MemberAxis::upright, MemberAxis::along_wall}) {
    CHECK(read_section(stud(), axis).problem ==
          "'S' is of several solids or known by its box alone, of which its volume fills 100 %, so its section is not "
          "known: export one solid");
  }
  Part oblique = drawn_along({{0, 0}, {45, 0}, {45, 220}, {0, 220}});
  oblique.solid->direction = {0.0, 0.6, 0.8};
  CHECK(read_section(oblique, MemberAxis::upright).problem.find("neither along the member") != std::string::npos);
}

TEST_CASE("A notch between the ends leaves the weakest depth and stands in doubt") {
  const MemberSection read = read_section(
      drawn_from_side({{0, 0}, {1400, 0}, {1400, 110}, {1460, 110}, {1460, 0}, {3000, 0}, {3000, 220}, {0, 220}}),
      MemberAxis::upright);
  REQUIRE(read.problem.empty());
  CHECK(read.section.notched_depth_m == Approx(0.110));
  CHECK(read.section.section_modulus_m3() == Approx(0.045 * 0.110 * 0.110 / 6.0));
  CHECK(read.section.second_moment_m4() == Approx(0.045 * std::pow(0.220, 3) / 12.0));
  REQUIRE(read.doubts.size() == 1);
  CHECK(read.doubts.front() ==
        "'S': a notch between its ends leaves 110 mm of 220 mm, and its stress concentration (EN 1995-1-1 6.5.1(2)) is "
        "not verified");
}

TEST_CASE("A notched end lessens the shear it may carry") {
  const MemberSection read = read_section(
      drawn_from_side({{0, 55}, {100, 55}, {100, 0}, {3000, 0}, {3000, 220}, {0, 220}}), MemberAxis::upright);
  REQUIRE(read.problem.empty());
  CHECK(read.doubts.empty());
  CHECK(read.section.end_depth_m == Approx(0.165));
  CHECK(read.section.end_notch_m == Approx(0.100));
  CHECK(read.section.section_modulus_m3() == Approx(0.045 * 0.220 * 0.220 / 6.0));
  // (6.62) with i = 0: α = 0.75; √(0.75·0.25) + 0.8·(100/220)·√(1/0.75 − 0.75²) = 0.4330 + 0.3192; 5/(14.832·0.7522).
  CHECK(structural::notched_shear_factor(0.220, 0.165, 0.100, 5.0) == Approx(0.4481).epsilon(1e-3));
  structural::Resistance resistance;
  resistance.shear_pa = 4e6;
  const auto shear = structural::verify_shear(read.section, resistance, {0.0, 0.0, 1000.0});
  CHECK(shear.notched_end == Approx(0.4481).epsilon(1e-3));
  CHECK(shear.stress_pa == Approx(1.5 * 1000.0 / (0.045 * 0.165)));
  CHECK(shear.strength_pa == Approx(0.4481 * 4e6).epsilon(1e-3));
}

TEST_CASE("A square notch at an end counts however short it is, at either end") {
  for (const double notch_mm : {2.0, 15.0, 30.0}) {
    INFO("notch of " << notch_mm << " mm");
    for (const bool upper : {false, true}) {
      const auto at = [&](double along_mm) { return upper ? 3000.0 - along_mm : along_mm; };
      const MemberSection read = read_section(
          drawn_from_side(
              {{at(0), 110}, {at(notch_mm), 110}, {at(notch_mm), 0}, {at(3000), 0}, {at(3000), 220}, {at(0), 220}}),
          MemberAxis::upright);
      REQUIRE(read.problem.empty());
      CHECK(read.doubts.empty());
      CHECK(read.section.end_depth_m == Approx(0.110));
      CHECK(read.section.end_notch_m == Approx(notch_mm / 1e3));
      structural::Resistance resistance;
      resistance.shear_pa = 4e6;
      // (6.62) with α = 0.5: √0.25 + 0.8·(x/220)·√(2 − 0.25); 5/(√220·that).
      const double factor = 5.0 / (std::sqrt(220.0) * (0.5 + 0.8 * notch_mm / 220.0 * std::sqrt(1.75)));
      CHECK(structural::verify_shear(read.section, resistance, {0.0, 0.0, 1000.0}).notched_end == Approx(factor));
    }
  }
}

TEST_CASE("A notch beside an end counts from the end, and a short cut of another shape stands in doubt") {
  const MemberSection beside =
      read_section(drawn_from_side({{0, 0}, {10, 0}, {10, 55}, {25, 55}, {25, 0}, {3000, 0}, {3000, 220}, {0, 220}}),
                   MemberAxis::upright);
  CHECK(beside.section.end_notch_m == Approx(0.025));
  CHECK(beside.section.end_depth_m == Approx(0.165));
  const MemberSection bird =
      read_section(drawn_from_side({{0, 110}, {25, 0}, {3000, 0}, {3000, 220}, {0, 220}}), MemberAxis::upright);
  REQUIRE(bird.doubts.size() == 1);
  CHECK(bird.doubts.front() ==
        "'S': an end cut at a slant over 25 mm, which leaves 110 mm of 220 mm there, is not verified");
}

TEST_CASE("An end cut to a slope is no notch, a long one stands in doubt, and a slot parts the member") {
  const auto cut = [](double rise_mm) {
    return read_section(drawn_from_side({{0, 0}, {3000 - rise_mm, 0}, {3000, 220}, {0, 220}}), MemberAxis::upright);
  };
  CHECK(cut(25.0).section.whole());
  CHECK(cut(25.0).doubts.empty());
  REQUIRE(cut(220.0).doubts.size() == 1);
  CHECK(cut(220.0).doubts.front() ==
        "'S': an end cut at a slant over 220 mm, which leaves 0 mm of 220 mm there, is "
        "not verified");
  const MemberSection slot = read_section(
      drawn_from_side({{0, 0}, {3000, 0}, {3000, 100}, {1500, 100}, {1500, 120}, {3000, 120}, {3000, 220}, {0, 220}}),
      MemberAxis::upright);
  CHECK(slot.problem.find("is parted lengthwise") != std::string::npos);
}

TEST_CASE("A hole takes the middle of the larger side") {
  const MemberSection read = with_holes("20@1000; 40@2000");
  REQUIRE(read.problem.empty());
  CHECK(read.doubts.empty());
  CHECK(read.section.depth_hole_m == Approx(0.040));
  CHECK(read.section.area_m2() == Approx(0.045 * 0.180));
  // I = 45·(220³ − 40³)/12 over 110.
  CHECK(read.section.section_modulus_m3() * 1e9 ==
        Approx(45.0 * (std::pow(220.0, 3) - std::pow(40.0, 3)) / 12.0 / 110.0));
  CHECK(read.section.weak_modulus_m3() * 1e9 == Approx(180.0 * 45.0 * 45.0 / 6.0));
}

TEST_CASE("Holes beyond the usual rules stand in doubt, and those that cannot be are refused") {
  CHECK(with_holes("200@1500").doubts.front().find("is larger than a quarter of 220 mm") != std::string::npos);
  CHECK(with_holes("20@100").doubts.front().find("is nearer to an end than 220 mm") != std::string::npos);
  CHECK(with_holes("20@2900").doubts.size() == 1);
  CHECK(with_holes("20@1000; 20@1050").doubts.front().find("nearer to each other than three diameters") !=
        std::string::npos);
  CHECK(with_holes("20@3100").problem.find("cannot hold the hole of 20 mm at 3100 mm") != std::string::npos);
  CHECK(with_holes("220@1500").problem.find("cannot hold") != std::string::npos);
  CHECK(with_holes("20 at 1000").problem.find("is not diameter@distance in mm") != std::string::npos);
  CHECK(with_holes("20@-5").problem.find("is not diameter@distance in mm") != std::string::npos);
}

TEST_CASE("A notch that shows from the front leaves the weakest width, and the narrowest of several counts") {
  // Along the member and along the wall in mm: 45 wide, notched to 30 and to 25.
  Part part = stud();
  Extrusion solid;
  for (const auto& [up_mm, across_mm] : {std::pair{0, 0},
                                         {1000, 0},
                                         {1000, 15},
                                         {1060, 15},
                                         {1060, 0},
                                         {2000, 0},
                                         {2000, 20},
                                         {2060, 20},
                                         {2060, 0},
                                         {3000, 0},
                                         {3000, 45},
                                         {0, 45}}) {
    solid.outline.push_back({up_mm / 1e3, across_mm / 1e3});
  }
  // x of the profile up, y along the wall: its normal is that of the wall.
  solid.frame = {{0.0, 0.0, 0.0}, {0.0, 0.0, 1.0}, {1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}};
  solid.depth_m = 0.220;
  part.volume_m3 = Sourced<double>{solid.volume_m3(), part.origin};
  part.solid = solid;
  const MemberSection read = read_section(part, MemberAxis::upright);
  REQUIRE(read.problem.empty());
  CHECK(read.section.notched_width_m == Approx(0.025));
  CHECK(read.section.section_modulus_m3() == Approx(0.025 * 0.220 * 0.220 / 6.0));
  CHECK(read.section.area_m2() == Approx(0.025 * 0.220));
  CHECK(read.doubts.size() == 2);
}

TEST_CASE("An end notch longer than the member is deep reaches to where it is bent, a shorter one does not") {
  const auto notched = [](double length_mm) {
    return read_section(drawn_from_side({{0, 55}, {length_mm, 55}, {length_mm, 0}, {3000, 0}, {3000, 220}, {0, 220}}),
                        MemberAxis::upright)
        .section;
  };
  CHECK(notched(220.0).notched_depth_m == 0.0);
  CHECK(notched(230.0).notched_depth_m == Approx(0.165));
  CHECK(notched(230.0).section_modulus_m3() == Approx(0.045 * 0.165 * 0.165 / 6.0));
}

TEST_CASE("A hole in a member that is wider than deep takes the middle of its width") {
  Part part = box_part("S", PartKind::stud, kTimber, {{0.0, 0.0, 0.0}, {0.145, 0.045, kLength_m}});
  Extrusion solid;
  solid.outline = {{0, 0}, {0.145, 0}, {0.145, 0.045}, {0, 0.045}};
  solid.depth_m = kLength_m;
  part.solid = solid;
  part.properties.add("Panel_Member", "Holes", property_of("30@1500"));
  const MemberSection read = read_section(part, MemberAxis::upright);
  REQUIRE(read.problem.empty());
  CHECK(read.section.width_hole_m == Approx(0.030));
  CHECK(read.section.depth_hole_m == 0.0);
  CHECK(read.section.section_modulus_m3() == Approx(0.115 * 0.045 * 0.045 / 6.0));
  CHECK(read.section.weak_modulus_m3() == Approx(0.045 * (std::pow(0.145, 3) - std::pow(0.030, 3)) / (6.0 * 0.145)));
  CHECK(read.section.area_m2() == Approx(0.115 * 0.045));
}

TEST_CASE("Openings of a part that no listed hole explains are refused") {
  Part part = drawn_along({{0, 0}, {45, 0}, {45, 220}, {0, 220}});
  part.volume_m3->value -= 0.200 * 0.200 * 0.045;
  CHECK(read_section(part, MemberAxis::upright).problem.find("has openings that take 6.1 % of its volume") !=
        std::string::npos);
  Part listed = drawn_along({{0, 0}, {45, 0}, {45, 220}, {0, 220}});
  listed.volume_m3->value -= 0.050 * 0.050 * 0.045;
  listed.properties.add("Panel_Member", "Holes", property_of("50@1500"));
  CHECK(read_section(listed, MemberAxis::upright).problem.empty());
}
