#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "core/dossier/layout/chart.h"
#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/parts/key_plan.h"
#include "core/dossier/parts/panel/build_up_section.h"
#include "core/dossier/parts/panel/elevation.h"
#include "tests/dossier/synthetic_project.h"
#include "tests/support/text_boxes.h"
#include "tests/support/text_sizes.h"

using namespace panel_dossier;

namespace {

double total_length(const std::vector<Segment>& segments) {
  double sum = 0.0;
  for (const auto& [from, to] : segments) sum += std::hypot(to.x - from.x, to.y - from.y);
  return sum;
}

constexpr double kA4Width_m = 0.170;  // of the clear page
const Rect kClearPage{0.0, 0.0, kA4Width_m* kPointsPerMetre, 0.240 * kPointsPerMetre};

}  // namespace

TEST_CASE("hatch lines cover an outline with length = area / spacing") {
  // Parallel lines at distance s cut an area A into strips, so their total length tends to A / s. At 400 lines the
  // rest at both edges is at most one line of 400, hence the tolerance of 0.5 %.
  const Polygon square{{0, 0}, {100, 0}, {100, 100}, {0, 100}};
  for (const double angle : {0.0, 0.4, std::numbers::pi / 4.0, 1.9})
    CHECK(total_length(hatch_lines(square, angle, 0.25)) == Approx(100.0 * 100.0 / 0.25).epsilon(0.005));
}

TEST_CASE("hatch lines stay out of the notch of an L") {
  const Polygon ell{{0, 0}, {20, 0}, {20, 10}, {10, 10}, {10, 20}, {0, 20}};
  const auto lines = hatch_lines(ell, std::numbers::pi / 4.0, 0.7);
  REQUIRE(lines.size() > 10);
  for (const auto& [from, to] : lines) {
    const Vec2 middle{(from.x + to.x) / 2.0, (from.y + to.y) / 2.0};
    CHECK_FALSE((middle.x > 10.001 && middle.y > 10.001));
  }
}

TEST_CASE("an outline without area or a hatch without spacing draws nothing") {
  CHECK(hatch_lines({{0, 0}, {10, 10}}, 0.3, 1.0).empty());
  CHECK(hatch_lines({{0, 0}, {10, 0}, {10, 10}}, 0.3, 0.0).empty());
}

TEST_CASE("a layer too thin to hatch is filled") {
  CHECK(hatch_marks({{0, 0}, {100, 0}, {100, 1}, {0, 1}}, Hatch::board).solid);
  CHECK_FALSE(hatch_marks({{0, 0}, {100, 0}, {100, 9}, {0, 9}}, Hatch::board).solid);
}

TEST_CASE("shares of a stacked bar join up on their side of zero") {
  const Bar bar = stacked_bar("panel", {2.0, -1.0, 3.0, -0.5});
  REQUIRE(bar.pieces.size() == 4);
  CHECK(bar.pieces[2].from == 2.0);
  CHECK(bar.pieces[2].to == 5.0);
  CHECK(bar.pieces[3].from == -1.0);
  CHECK(bar.pieces[3].to == -1.5);
}

TEST_CASE("the scale is the largest customary one that fits") {
  CHECK(choose_scale(3.0, 3.2, kClearPage) == 20.0);    // 150 mm by 160 mm
  CHECK(choose_scale(4.0, 3.2, kClearPage) == 25.0);    // 160 mm by 128 mm
  CHECK(choose_scale(4.5, 24.0, kClearPage) == 100.0);  // 45 mm by 240 mm
  CHECK(choose_scale(0.1, 0.1, kClearPage) == 1.0);
  CHECK(choose_scale(60.0, 24.0, kClearPage) == 400.0);  // 150 mm by 60 mm
  CHECK(choose_scale(2.7, 5.8, kClearPage) == 25.0);     // 108 mm by 232 mm
  CHECK(choose_scale(2.7, 6.9, kClearPage) == 30.0);     // 90 mm by 230 mm
}

TEST_CASE("axis ticks are round and enclose the values") {
  CHECK(axis_ticks(-2.8, 19.2, 5) == std::vector<double>{-5, 0, 5, 10, 15, 20});
  const auto small = axis_ticks(0.0, 0.0031, 5);
  CHECK(small.front() == 0.0);
  CHECK(small.back() == Approx(0.004));
}

TEST_CASE("axis ticks of a constant or of no value still span an axis") {
  CHECK(axis_ticks(4.0, 4.0, 5).size() >= 2);
  CHECK(axis_ticks(0.0, 0.0, 5).size() >= 2);
  CHECK(axis_ticks(std::nan(""), 1.0, 5) == std::vector<double>{0.0, 1.0});
}

TEST_CASE("labels are moved apart and stay in order within their span") {
  const auto centres = spread_labels({10, 11, 12}, {8, 8, 8}, 0, 100);
  CHECK(centres[1] - centres[0] >= 8.0 - 1e-9);
  CHECK(centres[2] - centres[1] >= 8.0 - 1e-9);
  CHECK(centres[0] >= 4.0);
  const auto crowded = spread_labels({95, 96}, {10, 10}, 0, 100);
  CHECK(crowded[1] == Approx(95.0));
  CHECK(crowded[0] == Approx(85.0));
}

TEST_CASE("the elevation dimensions the panel's width and height whatever else it dimensions") {
  const Panel panel = test::synthetic_panel("P", 4.5, 24.0);
  const Drawing drawing = elevation_drawing(panel, 100.0);
  bool width = false;
  bool height = false;
  for (const DrawnDimension& dimension : drawing.dimensions) {
    width |= dimension.from.x == 0.0 && dimension.to.x == 4.5;
    height |= dimension.from.y == 0.0 && dimension.to.y == 24.0;
  }
  CHECK(width);
  CHECK(height);
}

TEST_CASE("the elevation draws every stud and rail and no sheet joint at the panel's edge") {
  const Panel panel = test::synthetic_panel("P", 2.4, 3.2);
  const Drawing drawing = elevation_drawing(panel, 25.0);
  CHECK(drawing.polygons.size() == 1 + 2 + 4);  // outline, rails, studs
  for (const DrawnLine& line : drawing.lines) {
    if (line.style != LineStyle::dashed) continue;
    const bool inside_x = line.from.x > 0.01 && line.from.x < 2.39;
    const bool inside_z = line.from.y > 0.01 && line.from.y < 3.19;
    CHECK((inside_x || inside_z));
  }
}

TEST_CASE("no sheet joint crosses an opening") {
  Panel panel = test::synthetic_panel("P", 3.0, 3.2);
  panel.openings.push_back(test::window(0.6, 0.9, 1.8, 2.1));
  double joint_at_opening = 0.0;
  for (const DrawnLine& line : elevation_drawing(panel, 25.0).lines) {
    const bool vertical = line.style == LineStyle::dashed && line.from.x == line.to.x && line.from.x == 1.2;
    if (!vertical) continue;
    joint_at_opening += std::max(0.0, std::min(line.to.y, 2.1) - std::max(line.from.y, 0.9));
  }
  CHECK(joint_at_opening == 0.0);
}

TEST_CASE("a panel without parts is an outline, and the drawing says what is missing") {
  Panel panel = test::synthetic_panel("P", 2.4, 3.2);
  panel.parts.clear();
  CHECK(elevation_drawing(panel, 25.0).polygons.size() == 1);
  CHECK(missing_in_elevation(panel).find("no parts") != std::string::npos);
}

TEST_CASE("the section shows every layer and only the framing it cuts") {
  const auto made = test::synthetic_dossier(1, 0);
  const Panel& panel = made.project.panels[0];
  const BuildUpSection section = build_up_section(panel, made.project, 0.7);
  CHECK(section.labels.size() == 6);
  CHECK(section.drawing.polygons.size() == 6 + 2);  // layers and the studs at 0 and 600 mm
  CHECK(section.labels[0].text == "15 mm gypsum board type F");
}

TEST_CASE("texts of a drawing that would stand over one another go up, and what stands over another is told") {
  Drawing drawing;
  drawing.title = "crowded";
  drawing.lines.push_back({{0.0, 0.0}, {1.0, 1.0}, LineStyle::thin});
  drawing.texts = {{{0.5, 0.5}, "first"}, {{0.5, 0.5}, "second"}, {{0.502, 0.501}, "third"}};
  const auto write = [&](const char* name, bool by_hand) {
    PdfDocument pdf(test::installed_fonts());
    const std::size_t page = pdf.add_page();
    if (by_hand) {
      for (const DrawnText& text : drawing.texts) pdf.text(page, {100.0, 100.0}, text.text, type::kBody);
      pdf.text(page, {580.0, 300.0}, "beyond", type::kBody);
    } else {
      fit_drawing(pdf, page, drawing, {100.0, 100.0, 400.0, 400.0});
    }
    const auto file = test::temporary_file(name);
    pdf.save(file);
    return testing::overprinted_words(file);
  };
  CHECK(write("placed.pdf", false).empty());
  const auto told = write("overprinted.pdf", true);
  CHECK(told.size() == 4);
  CHECK(std::count_if(told.begin(), told.end(), [](const std::string& one) {
          return one.find("at the edge of the page") != std::string::npos;
        }) == 1);
}

TEST_CASE("a section avoids the height of an opening") {
  auto made = test::synthetic_dossier(1, 0);
  Panel& panel = made.project.panels[0];
  panel.openings.push_back(test::window(0.6, 0.9, 1.8, 2.1));
  const double cut = build_up_section(panel, made.project, 0.7).cut_height_m;
  CHECK((cut < 0.9 || cut > 2.1));
}

TEST_CASE("a section is not cut along a rail, blocking or lintel") {
  auto made = test::synthetic_dossier(1, 0);
  Panel& panel = made.project.panels[0];
  for (const double z : {1.57, 1.4, 1.9}) {
    for (int piece = 0; piece < 9; ++piece)  // more pieces than the panel has studs
      panel.parts.push_back(test::box_part(PartKind::blocking, "blocking", 0, {0, 0.02, z}, {2.4, 0.2, z + 0.06}));
  }
  const double cut = build_up_section(panel, made.project, 0.7).cut_height_m;
  for (const double z : {1.57, 1.4, 1.9}) CHECK((cut < z || cut > z + 0.06));
}

TEST_CASE("materials are hatched by what they are") {
  CHECK(hatch_for_material("", "mineral wool") == Hatch::insulation);
  CHECK(hatch_for_material("gypsum", "type F") == Hatch::board);
  CHECK(hatch_for_material("wood", "C24") == Hatch::timber);
  CHECK(hatch_for_material("", "unheard of") == Hatch::none);
}

TEST_CASE("directions are named by the nearest point of the compass") {
  const double degree = std::numbers::pi / 180.0;
  CHECK(compass_point(0.0) == "north");
  CHECK(compass_point(95.0 * degree) == "east");
  CHECK(compass_point(225.0 * degree) == "south-west");
  CHECK(compass_point(-1.0 * degree) == "north");
  CHECK(compass_point(359.0 * degree) == "north");
}

TEST_CASE("faces are named after true north, not after the project's axes") {
  auto made = test::synthetic_dossier(1, 0);
  made.project.panels[0].frame = Frame{};  // outer face towards +y
  CHECK(facade_views(made.project).at(0).title == "Face to the north, seen from outside");
  // True north a quarter turn anticlockwise of +y is -x: +y then looks east.
  made.project.true_north_rad = std::numbers::pi / 2.0;
  CHECK(facade_views(made.project).at(0).title == "Face to the east, seen from outside");
}

TEST_CASE("a panel that leans a little stands in a face of the building, one that leans far does not") {
  auto made = test::synthetic_dossier(2, 0);
  const auto lean = [&made](std::size_t panel, double upwards) {
    Frame& frame = made.project.panels[panel].frame;
    frame = Frame{};
    frame.z_axis = {0, -std::sqrt(1.0 - upwards * upwards), upwards};
    frame.y_axis = {0, upwards, std::sqrt(1.0 - upwards * upwards)};
  };
  lean(0, 0.93);
  lean(1, 0.85);
  REQUIRE(facade_views(made.project).size() == 1);
  CHECK(facade_views(made.project).front().panels == std::vector<std::size_t>{0});
}

TEST_CASE("a storey's plan shows its panels alone") {
  const auto made = test::synthetic_dossier(30, 0);
  CHECK(storey_plan(made.project, 0).panels.size() == 28);
  CHECK(storey_plan(made.project, 1).panels.size() == 2);
  CHECK(storey_plan(made.project, std::nullopt).panels.empty());
}

TEST_CASE("a tall panel stands on the plan of each storey that it passes, with the openings of that storey") {
  auto made = test::synthetic_dossier(2, 0);
  for (std::size_t i = 0; i < 3; ++i)
    made.project.storeys[i].elevation_m = Sourced<double>{3.6 * static_cast<double>(i), {}};
  Panel& tall = made.project.panels[1];
  tall.height_m.value = 8.2;  // 1.0 m above the floor of the third storey
  Opening upper = test::window(0.6, 4.5, 1.8, 5.7);
  Opening door = test::window(0.6, 7.3, 1.8, 8.2);
  door.filling_entity = "IfcDoor";
  tall.openings = {test::window(0.6, 0.9, 1.8, 2.1), upper, door};
  made.project.panels[0].height_m.value = 4.5;  // 0.9 m above the floor of the second storey: no more than a parapet
  CHECK(storey_plan(made.project, 0).panels == std::vector<std::size_t>{0, 1});
  CHECK(storey_plan(made.project, 0).from_below == 0);
  const KeyView first = storey_plan(made.project, 1);
  REQUIRE(first.panels == std::vector<std::size_t>{1});
  CHECK(first.from_below == 1);
  REQUIRE(first.openings.at(0).size() == 1);
  CHECK(first.openings[0][0].panes.size() == 2);
  // The gap is as wide as the opening and as deep as the wall.
  const Polygon& gap = first.openings[0][0].gap;
  CHECK(area(gap) == Approx(1.2 * tall.thickness_m.value));
  CHECK(storey_plan(made.project, 2).openings.at(0).at(0).panes.empty());  // the door
  // Without elevations nobody knows which storeys it passes: it stands on its own, with all of its openings.
  made.project.storeys[1].elevation_m.reset();
  CHECK(storey_plan(made.project, 1).panels.empty());
  made.project.storeys[0].elevation_m.reset();
  CHECK(storey_plan(made.project, 2).panels.empty());
  CHECK(storey_plan(made.project, 0).openings.at(1).size() == 3);
}

TEST_CASE("a face shows the openings where its panels have them") {
  auto made = test::synthetic_dossier(1, 0);
  made.project.panels[0].frame = Frame{};
  made.project.panels[0].openings = {test::window(0.6, 0.9, 1.0, 2.1)};
  const KeyView face = facade_views(made.project).at(0);
  const Polygon& gap = face.openings.at(0).at(0).gap;
  CHECK(area(gap) == Approx(0.4 * 1.2));
  // Seen from outside the panel's x axis runs to the left.
  CHECK(centroid(gap).x == Approx(-0.8));
  CHECK(centroid(gap).y == Approx(1.5));
}

TEST_CASE(
    "brackets and lifting points with a place are drawn, their distances from the left edge and the foot beside") {
  Panel panel = test::synthetic_panel("P", 2.4, 3.2);
  const std::size_t before = elevation_drawing(panel, 25.0).polygons.size();
  const double bands_without = bands_up(panel);
  for (const double z : {0.0, 3.08}) {
    for (const double x : {0.0, 1.14, 2.28}) {
      Part bracket = test::box_part(PartKind::fastener, "bracket", 0, {x, 0.0, z}, {x + 0.12, 0.005, z + 0.12});
      bracket.object_type = "bracket";
      panel.parts.push_back(bracket);
    }
  }
  const auto texts = [&panel] {
    std::vector<std::string> all;
    for (const DrawnText& text : elevation_drawing(panel, 25.0).texts) all.push_back(text.text);
    return all;
  };
  CHECK(elevation_drawing(panel, 25.0).polygons.size() == before + 6);
  CHECK(texts() == std::vector<std::string>{"60", "1200", "2340", "60", "3140"});
  const double bands_of_brackets = bands_up(panel);
  CHECK(bands_of_brackets > bands_without);

  for (const double x : {0.575, 1.775}) {
    Part loop = test::box_part(PartKind::fastener, "loop", 0, {x, 0.0, 3.0}, {x + 0.05, 0.05, 3.2});
    loop.object_type = "LIFTING_LOOP";
    panel.parts.push_back(loop);
  }
  const Drawing drawing = elevation_drawing(panel, 25.0);
  CHECK(drawing.polygons.size() == before + 8);
  CHECK(texts() == std::vector<std::string>{"60", "1200", "2340", "600", "1800", "60", "3140"});
  CHECK(bands_up(panel) > bands_of_brackets);
  const auto lifting = std::find_if(drawing.texts.begin(), drawing.texts.end(),
                                    [](const DrawnText& text) { return text.text == "600"; });
  REQUIRE(lifting != drawing.texts.end());
  CHECK(lifting->at.y > 3.2);
}

TEST_CASE("text that is too small is told by the size in which the page sets it") {
  PdfDocument pdf(test::installed_fonts());
  pdf.text(pdf.add_page(), {100.0, 100.0}, "large enough", {Face::regular, 8.0, 10.0, kInk});
  const std::size_t second = pdf.add_page();
  pdf.text(second, {100.0, 100.0}, "large", type::kBody);
  pdf.text(second, {100.0, 300.0}, "turned", {Face::regular, 7.0, 8.0, kInk}, 1.0);
  pdf.add_page();
  const auto file = test::temporary_file("sizes.pdf");
  pdf.save(file);
  CHECK(testing::least_text_sizes(file).at(0) == Approx(8.0));
  const auto told = testing::pages_with_small_text(file, 8.0);
  REQUIRE(told.size() == 1);
  CHECK(told[0].substr(0, 16) == "page 2: text of ");
}

TEST_CASE("a chart grows with its width up to 150 points of height") {
  const PdfDocument pdf(test::installed_fonts());
  const Series series{"t", "x", "m", "y", "m", {{"c", {{0.0, 0.0}, {1.0, 1.0}}}}};
  const double at_200 = chart_height(pdf, series, 200.0);
  CHECK(chart_height(pdf, series, 240.0) - at_200 == Approx(0.55 * 40.0));
  CHECK(chart_height(pdf, series, 500.0) - at_200 == Approx(150.0 - 0.55 * 200.0));
  CHECK(chart_height(pdf, series, 270.0) - at_200 == Approx(0.55 * 70.0));
}
