// Whether a panel's layers and parts bear each other out.
#include <catch2/catch.hpp>

#include "core/api/support/layer_coverage.h"
#include "core/api/support/parts_in_place.h"
#include "core/api/testing/panels.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr std::size_t kWood = 0;
constexpr std::size_t kWool = 1;
constexpr double kHeight_m = 3.0;

/// Two 1.2 m boards before 140 mm of wool between five studs with rails: all of the face is filled.
Panel framed_panel() {
  Panel panel = plain_panel(2.4, kHeight_m);
  add_layer(panel, "Board", "sheathing", kWood, 0.012);
  add_layer(panel, "Wool", "insulation", kWool, 0.140);
  add_part(panel, PartKind::sheet, "Sheet 1", kWood, {{0.0, 0.0, 0.0}, {1.2, 0.012, kHeight_m}});
  add_part(panel, PartKind::sheet, "Sheet 2", kWood, {{1.2, 0.0, 0.0}, {2.4, 0.012, kHeight_m}});
  add_part(panel, PartKind::rail, "Sole", kWood, {{0.0, 0.012, 0.0}, {2.4, 0.152, 0.045}});
  add_part(panel, PartKind::rail, "Head", kWood, {{0.0, 0.012, 2.955}, {2.4, 0.152, kHeight_m}});
  for (int i = 0; i < 5; ++i) {
    const double x = i == 4 ? 2.355 : 0.6 * i;
    add_part(panel, PartKind::stud, "Stud", kWood, {{x, 0.012, 0.045}, {x + 0.045, 0.152, 2.955}});
    if (i == 4) break;
    const double to = i == 3 ? 2.355 : 0.6 * (i + 1);
    add_part(panel, PartKind::insulation, "Slab", kWool, {{x + 0.045, 0.012, 0.045}, {to, 0.152, 2.955}});
  }
  return panel;
}

/// Sheet 1 as an L: the upper right quarter is cut away. Extruded from the inner face outwards, along y.
Extrusion l_shape() {
  const Frame face{{0.0, 0.0, 0.0}, {1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, -1.0, 0.0}};
  return {{{0.0, 0.0}, {1.2, 0.0}, {1.2, 1.5}, {0.6, 1.5}, {0.6, 3.0}, {0.0, 3.0}}, face, {0.0, 0.0, -1.0}, 0.012};
}

Part& part_named(Panel& panel, const std::string& name) {
  for (Part& part : panel.parts) {
    if (part.name == name) return part;
  }
  throw std::logic_error("no part " + name);
}

/// A board of wool alone, 1 m wide and 1 m high, in a layer of another depth.
std::vector<std::string> said_of_board(double layer_m, double board_m, const char* category = "insulation") {
  Panel panel = plain_panel(1.0, 1.0);
  add_layer(panel, "Wool", category, kWool, layer_m);
  add_part(panel, PartKind::insulation, "Slab", kWool, {{0.0, 0.0, 0.0}, {1.0, board_m, 1.0}});
  return layers_against_parts(panel);
}

/// A hole in the sheathing of that size, and as large as the sheet's part around it leaves.
std::size_t holes_of(double width_m, double height_m) {
  Panel panel = plain_panel(1.0, 1.0);
  add_layer(panel, "Board", "sheathing", kWood, 0.012);
  const double x = 0.4;
  const double z = 0.3;
  add_part(panel, PartKind::sheet, "Left", kWood, {{0.0, 0.0, 0.0}, {x, 0.012, 1.0}});
  add_part(panel, PartKind::sheet, "Right", kWood, {{x + width_m, 0.0, 0.0}, {1.0, 0.012, 1.0}});
  add_part(panel, PartKind::sheet, "Below", kWood, {{x, 0.0, 0.0}, {x + width_m, 0.012, z}});
  add_part(panel, PartKind::sheet, "Above", kWood, {{x, 0.0, z + height_m}, {x + width_m, 0.012, 1.0}});
  return layers_against_parts(panel).size();
}

}  // namespace

TEST_CASE("Layers that parts fill are borne out") {
  CHECK(layers_against_parts(framed_panel()).empty());
  CHECK(parts_out_of_place(framed_panel()).empty());
}

TEST_CASE("A board drawn as a solid fills its layer wherever in the depth of the panel that lies") {
  Panel panel = framed_panel();
  add_layer(panel, "Outer board", "sheathing", kWood, 0.012);
  add_part(panel, PartKind::sheet, "Outer sheet", kWood, {{0.0, 0.152, 0.0}, {2.4, 0.164, kHeight_m}});
  CHECK(layers_against_parts(panel).empty());
  // Extruded from its inner face outwards, along y.
  const Frame face{{0.0, 0.152, 0.0}, {1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, -1.0, 0.0}};
  panel.parts.back().solid = Extrusion{{{0.0, 0.0}, {2.4, 0.0}, {2.4, 3.0}, {0.0, 3.0}}, face, {0.0, 0.0, -1.0}, 0.012};
  CHECK(layers_against_parts(panel).empty());
}

TEST_CASE("A layer that parts leave empty is named with area and place") {
  Panel panel = framed_panel();
  SECTION("a sheet is missing") {
    std::erase_if(panel.parts, [](const Part& part) { return part.name == "Sheet 2"; });
    CHECK(layers_against_parts(panel) ==
          std::vector<std::string>{"layer 'Board' is 12.0 mm thick, but the parts leave 3.60 m² of it unfilled (x 1.20 "
                                   "to 2.40 m, z 0.00 to 3.00 m)"});
  }
  SECTION("the studs end a third of the way up") {
    for (Part& part : panel.parts) {
      if (part.kind == PartKind::stud) part.bounds->max.z = 1.0;
    }
    // Five studs of 45 mm over 1.955 m.
    CHECK(layers_against_parts(panel) ==
          std::vector<std::string>{"layer 'Wool' is 140.0 mm thick, but the parts leave 0.44 m² of it unfilled (x 0.00 "
                                   "to 2.40 m, z 1.00 to 2.96 m)"});
  }
  SECTION("one slab is thinner than its layer says") {
    part_named(panel, "Slab").bounds->max.y = 0.112;
    REQUIRE(layers_against_parts(panel).size() == 1);
    CHECK(layers_against_parts(panel)[0].find("1.62 m² of it unfilled") != std::string::npos);
  }
  SECTION("wool everywhere and no framing") {
    std::erase_if(panel.parts, [](const Part& part) { return is_framing(part.kind) || part.name == "Slab"; });
    add_part(panel, PartKind::insulation, "Slab", kWool, {{0.0, 0.012, 0.0}, {2.4, 0.152, kHeight_m}});
    CHECK(layers_against_parts(panel) ==
          std::vector<std::string>{"layer 'Wool' is insulation without a framing member among the parts"});
  }
}

TEST_CASE("What need not be filled is no contradiction") {
  Panel panel = framed_panel();
  SECTION("an opening") {
    std::erase_if(panel.parts, [](const Part& part) { return part.name == "Sheet 1"; });
    add_window(panel, 0.0, 1.2, 0.0, kHeight_m, std::nullopt);
    CHECK(layers_against_parts(panel).empty());
  }
  SECTION("a joint of 20 mm between two sheets, but not one of 30 mm") {
    part_named(panel, "Sheet 2").bounds->min.x = 1.22;
    CHECK(layers_against_parts(panel).empty());
    part_named(panel, "Sheet 2").bounds->min.x = 1.23;
    CHECK(layers_against_parts(panel).size() == 1);
  }
  SECTION("an air layer, with or without a material") {
    add_layer(panel, "Cavity", "air", std::nullopt, 0.030);
    add_layer(panel, "Cavity", "air", kWood, 0.030);
    CHECK(layers_against_parts(panel).empty());
  }
  SECTION("a panel whose parts are not known") {
    panel.parts.clear();
    CHECK(layers_against_parts(panel).empty());
  }
}

TEST_CASE("A board with a cut-out fills only its outline") {
  Panel panel = framed_panel();
  part_named(panel, "Sheet 1").solid = l_shape();
  REQUIRE(layers_against_parts(panel).size() == 1);
  CHECK(layers_against_parts(panel)[0].find("0.90 m² of it unfilled (x 0.60 to 1.20 m, z 1.50 to 3.00 m)") !=
        std::string::npos);
}

TEST_CASE("A layer is filled to the tolerance of what fills it") {
  Panel panel = framed_panel();
  Part& slab = part_named(panel, "Slab");
  Part& sheet = part_named(panel, "Sheet 1");
  SECTION("wool may be 5 % thinner") {
    // 140 mm less 7 mm.
    slab.bounds->max.y = 0.012 + 0.1332;
    CHECK(layers_against_parts(panel).empty());
    slab.bounds->max.y = 0.012 + 0.1328;
    CHECK(layers_against_parts(panel).size() == 1);
  }
  SECTION("boards are as thick as their layer, to a millimetre") {
    sheet.bounds->min.y = 0.0009;
    CHECK(layers_against_parts(panel).empty());
    sheet.bounds->min.y = 0.0011;
    CHECK(layers_against_parts(panel).size() == 1);
  }
}

TEST_CASE("A thin slab may be 5 mm thinner than its layer, and half of it at least is there") {
  CHECK(said_of_board(0.040, 0.0352).empty());
  CHECK(said_of_board(0.040, 0.0348).size() == 1);
  CHECK(said_of_board(0.008, 0.0041).empty());
  CHECK(said_of_board(0.008, 0.0039).size() == 1);
  // Where the layer has no category its parts say what it is.
  CHECK(said_of_board(0.040, 0.0352, "").empty());
  CHECK(said_of_board(0.040, 0.0352, "sheathing").size() == 1);
}

TEST_CASE("Insulation from 60 mm on is framed") {
  CHECK(said_of_board(0.059, 0.059).empty());
  CHECK(said_of_board(0.060, 0.060) ==
        std::vector<std::string>{"layer 'Wool' is insulation without a framing member among the parts"});
}

TEST_CASE("A hole of more than a hundred square centimetres is named, and a joint of up to 25 mm is none") {
  CHECK(holes_of(0.1, 0.099) == 0);
  CHECK(holes_of(0.1, 0.101) == 1);
  CHECK(holes_of(0.5, 0.0245) == 0);
  CHECK(holes_of(0.5, 0.0255) == 1);
  CHECK(holes_of(0.0245, 0.5) == 0);
  CHECK(holes_of(0.0255, 0.5) == 1);
}

TEST_CASE("A part of several solids fills its layer by its volume") {
  Panel panel = plain_panel(1.0, 1.0);
  add_layer(panel, "Board", "sheathing", kWood, 0.020);
  Part& part = add_part(panel, PartKind::sheet, "Ribbed", kWood, {{0.0, 0.0, 0.0}, {1.0, 0.020, 1.0}});
  part.solid.reset();
  part.volume_m3 = Sourced<double>{0.0192, {}};  // 19.2 of 20 mm
  CHECK(layers_against_parts(panel).empty());
  part.volume_m3->value = 0.0188;
  CHECK(layers_against_parts(panel).size() == 1);
  part.volume_m3->value = 0.040;  // more than its box is no deeper than its box
  part.bounds->max.y = 0.015;
  CHECK(layers_against_parts(panel).size() == 1);
}

TEST_CASE("Boards and slabs that meet, interlock or lie on one another are in their place") {
  Panel panel = framed_panel();
  SECTION("a tongue of 19 mm, but not 21 mm") {
    part_named(panel, "Sheet 2").bounds->min.x = 1.181;
    CHECK(parts_out_of_place(panel).empty());
    part_named(panel, "Sheet 2").bounds->min.x = 1.179;
    CHECK(parts_out_of_place(panel).size() == 1);
  }
  SECTION("a second layer of boards") {
    add_part(panel, PartKind::sheet, "Sheet 3", kWood, {{0.3, -0.012, 0.0}, {1.5, 0.0, kHeight_m}});
    CHECK(parts_out_of_place(panel).empty());
  }
  SECTION("a board that fills the cut-out of another") {
    part_named(panel, "Sheet 1").solid = l_shape();
    add_part(panel, PartKind::sheet, "Infill", kWood, {{0.6, 0.0, 1.5}, {1.2, 0.012, kHeight_m}});
    CHECK(parts_out_of_place(panel).empty());
  }
  SECTION("two triangles that share their slope") {
    const Extrusion whole = l_shape();
    const auto triangle = [&](const Polygon& outline) {
      Extrusion solid = whole;
      solid.outline = outline;
      return solid;
    };
    part_named(panel, "Sheet 1").solid = triangle({{0.0, 0.0}, {1.2, 0.0}, {0.0, 3.0}});
    add_part(panel, PartKind::sheet, "Other half", kWood, {{0.0, 0.0, 0.0}, {1.2, 0.012, kHeight_m}});
    panel.parts.back().solid = triangle({{1.2, 0.0}, {1.2, 3.0}, {0.0, 3.0}});
    panel.parts.back().bounds->min.x = 0.002;  // else the boxes are one
    CHECK(parts_out_of_place(panel).empty());
  }
}

TEST_CASE("Parts that cannot stand together are named") {
  Panel panel = framed_panel();
  SECTION("a stud twice") {
    panel.parts.push_back(part_named(panel, "Stud"));
    CHECK(parts_out_of_place(panel) == std::vector<std::string>{"'Stud' at x 0.02, z 1.50 m is there twice"});
  }
  SECTION("a post in a stud") {
    add_part(panel, PartKind::post, "Post", kWood, {{0.02, 0.012, 0.045}, {0.11, 0.152, 2.955}});
    CHECK(parts_out_of_place(panel) == std::vector<std::string>{"'Stud' at x 0.02, z 1.50 m and 'Post' at x 0.07, z "
                                                                "1.50 m take up the same room"});
  }
  SECTION("a post without a volume in a stud") {
    add_part(panel, PartKind::post, "Post", kWood, {{0.02, 0.012, 0.045}, {0.11, 0.152, 2.955}});
    panel.parts.back().volume_m3.reset();
    panel.parts.back().solid.reset();
    CHECK(parts_out_of_place(panel).size() == 1);
    // One that fills less than 0.9 of its box may stand beside the other within it.
    panel.parts.back().volume_m3 = Sourced<double>{0.89 * 0.09 * 0.14 * 2.91, {}};
    CHECK(parts_out_of_place(panel).empty());
    panel.parts.back().volume_m3->value = 0.91 * 0.09 * 0.14 * 2.91;
    CHECK(parts_out_of_place(panel).size() == 1);
  }
  SECTION("two boards of one layer, not quite in the same place") {
    part_named(panel, "Sheet 2").bounds->min.x = 1.0;
    part_named(panel, "Sheet 2").bounds->max.x = 2.2;
    CHECK(parts_out_of_place(panel) == std::vector<std::string>{"'Sheet 1' at x 0.60, z 1.50 m and 'Sheet 2' at x "
                                                                "1.60, z 1.50 m take up the same room over 0.60 m²"});
  }
  SECTION("a slab that reaches into the next one") {
    add_part(panel, PartKind::insulation, "Offcut", kWool, {{0.1, 0.012, 1.0}, {0.4, 0.152, 1.5}});
    CHECK(parts_out_of_place(panel) == std::vector<std::string>{"'Slab' at x 0.32, z 1.50 m and 'Offcut' at x 0.25, z "
                                                                "1.25 m take up the same room over 0.15 m²"});
  }
  SECTION("a board whose cut-out another one does not fit") {
    part_named(panel, "Sheet 1").solid = l_shape();
    add_part(panel, PartKind::sheet, "Infill", kWood, {{0.5, 0.0, 1.5}, {1.2, 0.012, kHeight_m}});
    CHECK(parts_out_of_place(panel) == std::vector<std::string>{"'Sheet 1' at x 0.60, z 1.50 m and 'Infill' at x 0.85, "
                                                                "z 2.25 m take up the same room over 0.15 m²"});
  }
  SECTION("a stud beside the panel") {
    add_part(panel, PartKind::stud, "Stray", kWood, {{3.0, 0.012, 0.0}, {3.045, 0.152, 3.0}});
    CHECK(parts_out_of_place(panel) == std::vector<std::string>{"'Stray' at x 3.02, z 1.50 m stands outside of the "
                                                                "panel"});
  }
  SECTION("a stud through a window") {
    add_window(panel, 0.9, 1.5, 1.0, 2.0, std::nullopt);
    CHECK(parts_out_of_place(panel) ==
          std::vector<std::string>{"'Stud' at x 1.22, z 1.50 m runs through opening 'O-01'"});
  }
}

TEST_CASE("A fastener that hangs in an opening is named, one at its edge or of a group is not") {
  Panel panel = plain_panel(2.4, kHeight_m);
  add_window(panel, 0.6, 1.6, 0.9, 2.1, std::nullopt);
  const auto said = [&panel](const Box3& box, int count) {
    add_part(panel, PartKind::fastener, "Bracket", kWood, box);
    panel.parts.back().count = count;
    const auto found = parts_out_of_place(panel);
    panel.parts.pop_back();
    return found;
  };
  CHECK(said({{1.0, 0.0, 1.2}, {1.12, 0.01, 1.32}}, 1) ==
        std::vector<std::string>{"'Bracket' at x 1.06, z 1.26 m hangs in opening 'O-01', where there is nothing to fix "
                                 "it to"});
  CHECK(said({{1.0, 0.0, 1.2}, {1.12, 0.01, 1.32}}, 2).empty());
  // At the left and the right jamb, the head and the sill, each by 9 and by 11 mm.
  CHECK(said({{0.609, 0.0, 1.2}, {0.729, 0.01, 1.32}}, 1).empty());
  CHECK(said({{0.611, 0.0, 1.2}, {0.731, 0.01, 1.32}}, 1).size() == 1);
  CHECK(said({{1.471, 0.0, 1.2}, {1.591, 0.01, 1.32}}, 1).empty());
  CHECK(said({{1.469, 0.0, 1.2}, {1.589, 0.01, 1.32}}, 1).size() == 1);
  CHECK(said({{1.0, 0.0, 1.971}, {1.12, 0.01, 2.091}}, 1).empty());
  CHECK(said({{1.0, 0.0, 1.969}, {1.12, 0.01, 2.089}}, 1).size() == 1);
  CHECK(said({{1.0, 0.0, 0.909}, {1.12, 0.01, 1.029}}, 1).empty());
  CHECK(said({{1.0, 0.0, 0.911}, {1.12, 0.01, 1.031}}, 1).size() == 1);
}

TEST_CASE("A bracket at the foot of a doorway has nothing to hold to") {
  Panel panel = plain_panel(2.4, kHeight_m);
  add_window(panel, 0.6, 1.6, 0.0, 2.1, std::nullopt);
  add_part(panel, PartKind::fastener, "Bracket", kWood, {{1.0, 0.0, 0.0}, {1.12, 0.01, 0.12}});
  panel.parts.back().count = 1;
  CHECK(parts_out_of_place(panel).size() == 1);
}

TEST_CASE("Boards whose sloping edges cross share what lies under both") {
  Panel panel = plain_panel(1.2, kHeight_m);
  const auto add_triangle = [&](const char* name, const Polygon& outline) {
    add_part(panel, PartKind::sheet, name, kWood, {{0.0, 0.0, 0.0}, {1.2, 0.012, kHeight_m}});
    panel.parts.back().solid = l_shape();
    panel.parts.back().solid->outline = outline;
  };
  // Right-angled at either end of one base: the slopes cross half-way, at half of the height.
  add_triangle("One", {{0.0, 0.0}, {1.2, 0.0}, {0.0, 3.0}});
  add_triangle("Other", {{0.0, 0.0}, {1.2, 0.0}, {1.2, 3.0}});
  panel.parts.back().bounds->min.x = 0.002;  // else the boxes are one
  CHECK(parts_out_of_place(panel) == std::vector<std::string>{"'One' at x 0.60, z 1.50 m and 'Other' at x 0.60, z 1.50 "
                                                              "m take up the same room over 0.90 m²"});
}

TEST_CASE("Members are joined over up to 5 % of the smaller one") {
  // A post of 90 mm beside the middle stud, and a little way into its 45 mm.
  const auto joined_by = [](double depth_m) {
    Panel panel = framed_panel();
    add_part(panel, PartKind::post, "Post", kWood, {{1.245 - depth_m, 0.012, 0.045}, {1.335, 0.152, 2.955}});
    return parts_out_of_place(panel).size();
  };
  CHECK(joined_by(0.0022) == 0);
  CHECK(joined_by(0.0023) == 1);
}

TEST_CASE("A member may stand out of the panel by 100 mm on each side") {
  const auto stray = [](const Box3& box) {
    Panel panel = plain_panel(2.4, kHeight_m);
    add_part(panel, PartKind::rail, "Ledger", kWood, box);
    return parts_out_of_place(panel).size();
  };
  for (const auto& [out_m, said] : {std::pair{0.099, 0U}, std::pair{0.101, 1U}}) {
    CHECK(stray({{-out_m, 0.0, 1.0}, {1.0, 0.1, 1.1}}) == said);
    CHECK(stray({{1.0, 0.0, 1.0}, {2.4 + out_m, 0.1, 1.1}}) == said);
    CHECK(stray({{1.0, 0.0, -out_m}, {1.1, 0.1, 1.0}}) == said);
    CHECK(stray({{1.0, 0.0, 1.0}, {1.1, 0.1, kHeight_m + out_m}}) == said);
  }
}

TEST_CASE("A member reaches 5 mm into an opening before it runs through it, and its linings always") {
  const auto in_the_way = [](PartKind kind, double into_x_m, double into_z_m) {
    Panel panel = plain_panel(2.4, kHeight_m);
    add_window(panel, 0.9, 1.5, 1.0, 2.0, std::nullopt);
    add_part(panel, kind, "Member", kWood, {{0.5, 0.0, 0.5}, {0.9 + into_x_m, 0.1, 1.0 + into_z_m}});
    return parts_out_of_place(panel).size();
  };
  CHECK(in_the_way(PartKind::rail, 0.0049, 0.2) == 0);
  CHECK(in_the_way(PartKind::rail, 0.2, 0.0049) == 0);
  CHECK(in_the_way(PartKind::rail, 0.0052, 0.0052) == 1);
  CHECK(in_the_way(PartKind::blocking, 0.2, 0.2) == 0);
  CHECK(in_the_way(PartKind::batten, 0.2, 0.2) == 0);
}
