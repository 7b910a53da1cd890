#include "plugins/structural/basis/framing.h"

#include <catch2/catch.hpp>

#include "core/api/testing/cassette_panel.h"
#include "tests/structural/drawn_members.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using structural::Framing;
using structural::read_framing;

namespace {

Framing framing_of(const Project& boxes) {
  const Project project = with_drawn_members(boxes);
  return read_framing(project.panels.front(), project);
}

}  // namespace

TEST_CASE("A stud between equal spacings carries one spacing of wall") {
  const Framing framing = framing_of(cassette_project());
  REQUIRE(framing.members.size() == 5);
  CHECK(framing.members[2].tributary_width_m == Approx(0.6));
  CHECK(framing.members[2].length_m() == Approx(2.91));
}

TEST_CASE("A stud at the edge carries half a spacing and the wall to the edge") {
  const Framing framing = framing_of(cassette_project());
  CHECK_FALSE(framing.members.front().left_spacing_m.has_value());
  CHECK(framing.members.front().tributary_width_m == Approx((0.6 - 0.0225) / 2.0 + 0.0225));
}

TEST_CASE("The shares of all studs add up to the width of the panel") {
  double sum_m = 0.0;
  for (const auto& member : framing_of(cassette_project()).members) sum_m += member.tributary_width_m;
  CHECK(sum_m == Approx(2.4));
}

TEST_CASE("A post beside an opening carries half of the opening, not the cripple studs in it") {
  Project project = cassette_project({.width_m = 3.6});
  Panel& panel = project.panels.front();
  // The opening replaces the studs at 1.2, 1.8 and 2.4 m by cripple studs below a sill at 0.9 m.
  for (Part& part : panel.parts) {
    if (part.kind != PartKind::stud) continue;
    const double x_m = part.bounds->centre().x;
    if (x_m > 1.0 && x_m < 2.6) part.bounds->max.z = 0.9;
  }
  const Framing framing = framing_of(project);
  REQUIRE(framing.members.size() == 7);
  CHECK(framing.members[1].x_m == Approx(0.6));
  CHECK(framing.members[1].right_spacing_m.value() == Approx(2.4));
  CHECK(framing.members[1].tributary_width_m == Approx((0.5775 + 2.4) / 2.0));
  CHECK(framing.members[2].tributary_width_m == Approx(0.6));
  CHECK_FALSE(framing.members[1].shares_load);
}

TEST_CASE("Pieces stacked end to end are one member of their common length") {
  Project project = cassette_project({.height_m = 6.0});
  Panel& panel = project.panels.front();
  Part upper = panel.parts[2];
  panel.parts[2].bounds->max.z = 3.0;
  upper.bounds->min.z = 3.0;
  panel.parts.push_back(upper);
  const Framing framing = framing_of(project);
  REQUIRE(framing.members.size() == 5);
  CHECK(framing.members[2].parts.size() == 2);
  CHECK(framing.members[2].length_m() == Approx(5.91));
  REQUIRE(framing.members[2].joints_m.size() == 1);
  CHECK(framing.members[2].joints_m.front() == Approx(3.0));
}

TEST_CASE("Only a sheet on the face over the whole length restrains a stud") {
  CHECK(framing_of(cassette_project()).members[2].restrained_on_both_faces());
  const auto one_face = framing_of(cassette_project({.sheathed_outside = false})).members[2];
  CHECK(one_face.restrained_along_wall());
  CHECK_FALSE(one_face.restrained_on_both_faces());
  Project bare = cassette_project({.sheathed_outside = false});
  for (Part& part : bare.panels.front().parts) {
    if (part.kind == PartKind::sheet) part.bounds->max.z = 1.5;
  }
  CHECK_FALSE(framing_of(bare).members[2].restrained_along_wall());
}

TEST_CASE("Of pieces stacked on one another the weakest section counts, wherever it stands") {
  const auto notched_m = [](double lower_cut_m, double upper_cut_m) {
    Project project = cassette_project({.height_m = 6.0});
    Panel& panel = project.panels.front();
    Part upper = panel.parts[2];
    panel.parts[2].bounds->max.z = 3.0;
    upper.bounds->min.z = 3.0;
    panel.parts.push_back(upper);
    const auto cut = [](Part& part, double deep_m) {
      if (deep_m == 0.0) return;
      const Box3& box = *part.bounds;
      const double middle = box.centre().z;
      const double y = box.min.y + deep_m;
      Extrusion solid;
      // x of the profile up, y through the wall, so its normal is against the wall's x.
      solid.frame = {{box.max.x, 0.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, 1.0, 0.0}, {-1.0, 0.0, 0.0}};
      solid.outline = {{box.min.z, box.min.y}, {middle, box.min.y},        {middle, y},
                       {middle + 0.06, y},     {middle + 0.06, box.min.y}, {box.max.z, box.min.y},
                       {box.max.z, box.max.y}, {box.min.z, box.max.y}};
      solid.depth_m = box.size().x;
      part.volume_m3->value = solid.volume_m3();
      part.solid = solid;
    };
    cut(panel.parts[2], lower_cut_m);
    cut(panel.parts.back(), upper_cut_m);
    const Framing framing = framing_of(project);
    REQUIRE(framing.members.size() == 5);
    return framing.members[2].section.notched_depth_m;
  };
  CHECK(notched_m(0.0, 0.0) == 0.0);
  CHECK(notched_m(0.025, 0.0) == Approx(0.120));
  CHECK(notched_m(0.0, 0.025) == Approx(0.120));
  CHECK(notched_m(0.045, 0.025) == Approx(0.100));
  CHECK(notched_m(0.025, 0.045) == Approx(0.100));
}

TEST_CASE("Two sheets that meet on a stud hold it once, not twice") {
  const auto held = [](double top_m) {
    Project project = cassette_project({.sheathed_outside = false});
    Panel& panel = project.panels.front();
    Part& left = panel.parts.at(7);
    REQUIRE(left.kind == PartKind::sheet);
    left.bounds->max.x = 1.2;
    left.bounds->max.z = top_m;
    Part right = left;
    right.bounds->min.x = 1.2;
    right.bounds->max.x = 2.4;
    panel.parts.push_back(right);
    return framing_of(project).members[2].restrained_along_wall();
  };
  CHECK(held(3.0));
  CHECK_FALSE(held(1.5));
}

TEST_CASE("Gypsum boards are not counted as restraint") {
  Project project = cassette_project();
  for (Part& part : project.panels.front().parts) {
    if (part.kind == PartKind::sheet) part.material = kGypsum;
  }
  CHECK_FALSE(framing_of(project).members[2].restrained_along_wall());
}

TEST_CASE("Load sharing needs equal spacing, equal neighbours and sheathing") {
  CHECK(framing_of(cassette_project()).members[2].shares_load);
  CHECK_FALSE(framing_of(cassette_project({.spacing_m = 0.8})).members[1].shares_load);
  CHECK_FALSE(framing_of(cassette_project()).members[0].shares_load);
  Project project = cassette_project({.sheathed_inside = false, .sheathed_outside = false});
  CHECK_FALSE(framing_of(project).members[2].shares_load);
}

TEST_CASE("Studs that cannot be used are named") {
  Project without_studs = cassette_project();
  std::erase_if(without_studs.panels.front().parts, [](const Part& part) { return part.kind == PartKind::stud; });
  CHECK(framing_of(without_studs).problems ==
        std::vector<std::string>{"the panel has no studs or posts (IfcMember STUD or POST)"});

  Project flat = cassette_project();
  flat.panels.front().parts[1].bounds->max.z = flat.panels.front().parts[1].bounds->min.z;
  CHECK(framing_of(flat).problems == std::vector<std::string>{"'S2' has a zero or negative size"});

  Project shapeless = cassette_project();
  shapeless.panels.front().parts[1].bounds.reset();
  CHECK(framing_of(shapeless).problems == std::vector<std::string>{"'S2' has no geometry"});
}

TEST_CASE("A member stands or lies by its sizes, whatever it is called") {
  const auto sized = [](PartKind kind, double x_m, double z_m) {
    return box_part("M", kind, kTimber, {{0.0, 0.0, 0.0}, {x_m, 0.145, z_m}});
  };
  using structural::lies_along_wall;
  using structural::stands_upright;
  for (const PartKind kind : {PartKind::stud, PartKind::post, PartKind::rail, PartKind::lintel, PartKind::blocking}) {
    CHECK(stands_upright(sized(kind, 0.045, 2.9)));
    CHECK(lies_along_wall(sized(kind, 2.4, 0.045)));
  }
  // Where one size is no more than twice the other the word decides.
  CHECK(stands_upright(sized(PartKind::stud, 0.090, 0.045)));
  CHECK(lies_along_wall(sized(PartKind::blocking, 0.045, 0.090)));
  for (const PartKind kind : {PartKind::batten, PartKind::sheet, PartKind::fastener, PartKind::other}) {
    CHECK_FALSE(stands_upright(sized(kind, 0.045, 2.9)));
    CHECK_FALSE(lies_along_wall(sized(kind, 2.4, 0.045)));
  }
}

TEST_CASE("A post called a rail is one of the vertical members") {
  Project project = cassette_project();
  project.panels.front().parts[2].kind = PartKind::rail;
  CHECK(framing_of(project).members.size() == 5);
}

TEST_CASE("A stud of angular section is refused, not taken as a full rectangle") {
  Project project = cassette_project();
  Part& stud = project.panels.front().parts[1];
  Extrusion solid;
  solid.outline = {{0, 0}, {0.045, 0}, {0.045, 0.145}, {0.02, 0.145}, {0.02, 0.01}, {0, 0.01}};
  solid.depth_m = stud.bounds->size().z;
  stud.solid = solid;
  CHECK(framing_of(project).problems ==
        std::vector<std::string>{"'S2' is of a section without an axis of symmetry along or through the wall, whose "
                                 "oblique bending is not assessed"});
}

TEST_CASE("An I-shaped stud without sheets on both faces stands in doubt, for it may twist") {
  const auto framing = [](bool sheathed_outside) {
    Project project = cassette_project({.sheathed_outside = sheathed_outside});
    Part& stud = project.panels.front().parts[1];
    Extrusion solid;
    solid.outline = {{0, 0},         {0.045, 0}, {0.045, 0.03}, {0.03, 0.03},   {0.03, 0.115}, {0.045, 0.115},
                     {0.045, 0.145}, {0, 0.145}, {0, 0.115},    {0.015, 0.115}, {0.015, 0.03}, {0, 0.03}};
    solid.depth_m = stud.bounds->size().z;
    stud.solid = solid;
    stud.volume_m3->value = solid.volume_m3();
    return framing_of(project);
  };
  CHECK(framing(true).problems.empty());
  CHECK(framing(true).members[1].doubts.empty());
  CHECK(framing(true).members[1].section.outline.has_value());
  CHECK(framing(false).members[1].doubts.size() == 1);
}

TEST_CASE("A stud that reaches from no rail to the other is refused") {
  Project project = cassette_project();
  project.panels.front().parts[2].bounds->max.z = 1.0;
  CHECK(framing_of(project).problems ==
        std::vector<std::string>{"'S3' meets no rail or other framing member at its upper end, 1.000 m above the foot "
                                 "of the panel, so what holds it there is not known"});
  project.panels.front().parts.push_back(
      box_part("blocking", PartKind::blocking, kTimber, {{0.6, 0.012, 1.0}, {1.8, 0.157, 1.045}}));
  CHECK(framing_of(project).problems.empty());
}
