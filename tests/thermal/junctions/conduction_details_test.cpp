// Junction details: drawing up, Ψ and f_Rsi, what is missing, isotherms, and reading a panel.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <optional>
#include <string>

#include "core/api/testing/cassette_panel.h"
#include "plugins/thermal/conduction/field.h"
#include "plugins/thermal/junctions/conduction_detail_reader.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "tests/thermal/junctions/detail_wall.h"

using namespace panel_dossier;
using testing::changed;
using testing::detail_settings;
using testing::wall;
using namespace panel_dossier::thermal::conduction;

namespace {

const CountedLayers kAllLayers{3, 0.13, 0.04};

}  // namespace

TEST_CASE("Every kind of detail is solved to the standard's accuracy and keeps the bounds of physics") {
  DetailSolver solver;
  for (const DetailKind kind : kDetailKinds) {
    INFO(to_string(kind));
    const Detail detail = make_detail(kind, wall(), detail_settings());
    REQUIRE(detail.missing.empty());
    const DetailResult result = solver.solve(detail);
    CHECK(result.heat_flow->heat_flow_change <= 0.01);
    CHECK(result.l_2d_w_per_mk > 0.0);
    // The coldest place inside lies between the outside air and the plain area's surface.
    CHECK(result.temperature_factor > 0.0);
    const double plain = 1.0 - 0.25 / (1.0 / wall().u_value_w_per_m2k() - 0.13 + 0.25);
    CHECK(result.temperature_factor < plain + 0.001);
    double difference = result.psi_internal_w_per_mk - result.psi_external_w_per_mk;
    for (const Flank& flank : detail.flanks) {
      difference -= flank.u_value_w_per_m2k * (flank.external_length_m - flank.internal_length_m);
    }
    CHECK(difference == Approx(0.0).margin(1e-12));
  }
}

TEST_CASE("A joint without timber and gap is a plain wall: no linear transmittance") {
  DetailSolver solver;
  // The cut planes stand at 1 m, and beyond it for a wall of more than a third of that.
  for (const double wool_m : {0.240, 0.480}) {
    DetailBuildUp build_up = wall();
    build_up.layers[1].thickness_m = wool_m;
    build_up.edge_stud_m = 0.0;
    const Detail detail = make_detail(DetailKind::panel_joint, build_up, changed("joint_width_m", 0.0));
    REQUIRE(detail.missing.empty());
    const DetailResult result = solver.solve(detail);
    CHECK(result.psi_internal_w_per_mk == Approx(0.0).margin(1e-6));
    CHECK(result.psi_own_w_per_mk == Approx(0.0).margin(1e-6));
    CHECK(result.temperature_factor ==
          Approx(1.0 - 0.25 / (1.0 / build_up.u_value_w_per_m2k() - 0.13 + 0.25)).margin(1e-6));
  }
}

TEST_CASE("The panel's own length leaves out what is no panel: the joint, and of a corner one thickness") {
  const auto own_m = [](const DetailBuildUp& build_up, const char* key, double joint_m, DetailKind kind) {
    double sum = 0.0;
    for (const Flank& flank : make_detail(kind, build_up, changed(key, joint_m)).flanks) sum += flank.own_length_m;
    return sum;
  };
  DetailBuildUp thick = wall();
  thick.layers[1].thickness_m = 0.480;
  // 0.5075 m thick: cut planes at three times that (EN ISO 10211:2017, 7.2.2).
  for (const double joint_m : {0.0, 0.010, 0.025}) {
    CHECK(own_m(wall(), "joint_width_m", joint_m, DetailKind::panel_joint) == Approx(2.0));
    CHECK(own_m(thick, "joint_width_m", joint_m, DetailKind::panel_joint) == Approx(2.0 * 3.0 * 0.5075));
    CHECK(own_m(thick, "joint_width_m", joint_m, DetailKind::external_corner) == Approx(2.0 * 3.0 * 0.5075 + 0.5075));
  }
}

TEST_CASE("A roof beside the panel counts with its own U over the length that is modelled") {
  for (const DetailKind kind : {DetailKind::head_under_roof, DetailKind::parapet}) {
    const Detail detail = make_detail(kind, wall(), detail_settings());
    const auto roof = std::find_if(detail.flanks.begin(), detail.flanks.end(),
                                   [](const Flank& flank) { return flank.name == "roof"; });
    REQUIRE(roof != detail.flanks.end());
    CHECK(roof->u_value_w_per_m2k == Approx(1.0 / (0.13 + 0.250 / 2.3 + 0.200 / 0.030 + 0.04)).epsilon(1e-12));
    // Three times its 0.45 m (EN ISO 10211:2017, 7.2.2), and outside as far as the wall of 0.2675 m goes.
    CHECK(roof->internal_length_m == Approx(1.35).epsilon(1e-12));
    CHECK(roof->own_length_m == Approx(1.35).epsilon(1e-12));
    CHECK(roof->external_length_m == Approx(1.35 + 0.2675).epsilon(1e-12));
  }
}

TEST_CASE("Head and sole of equal rails are mirror images with equal results") {
  DetailSolver solver;
  const auto head = solver.solve(make_detail(DetailKind::head_under_slab, wall(), detail_settings()));
  const auto sole = solver.solve(make_detail(DetailKind::sole_on_slab, wall(), detail_settings()));
  CHECK(head.l_2d_w_per_mk == Approx(sole.l_2d_w_per_mk).epsilon(1e-6));
  CHECK(head.temperature_factor == Approx(sole.temperature_factor).margin(1e-6));
}

TEST_CASE("Insulating the slab edge lowers the heat flow and warms the ceiling") {
  DetailSolver solver;
  const auto insulated = solver.solve(make_detail(DetailKind::head_under_slab, wall(), detail_settings()));
  const auto bare =
      solver.solve(make_detail(DetailKind::head_under_slab, wall(), changed("slab_edge_insulation_thickness_m", 0.0)));
  CHECK(insulated.l_2d_w_per_mk < bare.l_2d_w_per_mk);
  CHECK(insulated.temperature_factor > bare.temperature_factor);
}

TEST_CASE("The external corner is colder inside than the internal corner") {
  DetailSolver solver;
  const auto external = solver.solve(make_detail(DetailKind::external_corner, wall(), detail_settings()));
  const auto internal = solver.solve(make_detail(DetailKind::internal_corner, wall(), detail_settings()));
  CHECK(external.temperature_factor < internal.temperature_factor);
}

TEST_CASE("Identical details are solved once whatever their materials are called") {
  DetailSolver solver;
  DetailBuildUp renamed = wall();
  renamed.layers[0].name = "another lining";
  const auto first = solver.solve(make_detail(DetailKind::panel_joint, wall(), detail_settings()));
  const auto second = solver.solve(make_detail(DetailKind::panel_joint, renamed, detail_settings()));
  CHECK(solver.models_solved() == 2);  // once for the heat flow, once for the surface temperature
  CHECK(first.heat_flow == second.heat_flow);
  renamed.layers[0].thickness_m = 0.015;
  solver.solve(make_detail(DetailKind::panel_joint, renamed, detail_settings()));
  CHECK(solver.models_solved() == 4);
}

TEST_CASE("What a detail lacks is named") {
  struct Case {
    DetailKind kind;
    Settings settings;
    const char* missing;
  };
  const Settings all = detail_settings();
  const Case cases[] = {
      {DetailKind::panel_joint, testing::without(all, "thermal.details.joint_width_m"),
       "setting 'thermal.details.joint_width_m' is missing"},
      {DetailKind::panel_joint, changed("joint_conductivity_w_per_mk", 0.0),
       "setting 'thermal.details.joint_conductivity_w_per_mk' must be above 0"},
      {DetailKind::head_under_slab, changed("joint_width_m", -0.01),
       "setting 'thermal.details.joint_width_m' must not be below 0"},
      {DetailKind::sole_on_slab, changed("slab_edge_setback_m", 0.4),
       "setting 'thermal.details.slab_edge_setback_m' leaves the panel no bearing"},
      {DetailKind::floor_edge, testing::without(all, "thermal.details.slab_thickness_m"),
       "setting 'thermal.details.slab_thickness_m' is missing"},
      {DetailKind::window_sill, changed("window_frame_u_w_per_m2k", 6.0),
       "the frame's U (Panel_Window.FrameTransmittance, else thermal.details.window_frame_u_w_per_m2k) is more than "
       "the surfaces alone let through"},
      {DetailKind::window_jamb, changed("window_frame_offset_m", 0.25),
       "settings 'thermal.details.window_frame_offset_m' and 'window_frame_depth_m' place the frame outside the panel"},
      {DetailKind::parapet, changed("parapet_height_m", std::nan("")),
       "setting 'thermal.details.parapet_height_m' is not a number"},
  };
  for (const Case& c : cases) {
    INFO(c.missing);
    const Detail detail = make_detail(c.kind, wall(), c.settings);
    CHECK(detail.missing == std::vector<std::string>{c.missing});
  }
}

TEST_CASE("Timber that no part shows is named for each detail that needs it") {
  DetailBuildUp unknown = wall();
  unknown.edge_stud_m = unknown.head_rail_m = unknown.opening_jamb_m = std::nullopt;
  CHECK(make_detail(DetailKind::external_corner, unknown, detail_settings()).missing ==
        std::vector<std::string>{"no stud or post touches a vertical edge of the panel"});
  CHECK(make_detail(DetailKind::parapet, unknown, detail_settings()).missing ==
        std::vector<std::string>{"no rail touches the head of the panel"});
  CHECK(make_detail(DetailKind::window_jamb, unknown, detail_settings()).missing ==
        std::vector<std::string>{"no stud or post touches the side of an opening"});
}

TEST_CASE("The isotherm of a plain wall is one straight line where the resistances put it") {
  DetailBuildUp build_up = wall();
  build_up.edge_stud_m = 0.0;
  const Detail detail = make_detail(DetailKind::panel_joint, build_up, changed("joint_width_m", 0.0));
  DetailSolver solver;
  const DetailResult result = solver.solve(detail);
  const auto lines = IsothermTracer(result.heat_flow->field).trace(0.5);
  REQUIRE(lines.size() == 1);
  REQUIRE(lines[0].size() == 2);
  const double resistance = 0.5 / build_up.u_value_w_per_m2k();
  const double x = 0.0125 + (resistance - 0.13 - 0.0125 / 0.25) * 0.035;
  CHECK(lines[0][0].x == Approx(x).margin(1e-6));
  CHECK(lines[0][1].x == Approx(x).margin(1e-6));
  CHECK(std::abs(lines[0][0].y - lines[0][1].y) == Approx(2.0));
}

TEST_CASE("An isotherm round a warm core closes") {
  Model model;
  model.solids = {{box_2d(0.0, 0.0, 1.0, 1.0), 1.0, "block", Hatch::none}};
  model.environments = {{"core", 1.0}, {"outside", 0.0}};
  model.environment_boxes = {{0, box_2d(0.4, 0.4, 0.6, 0.6), 0.0},
                             {1, box_2d(-1.0, -1.0, 0.0, 2.0), 0.0},
                             {1, box_2d(1.0, -1.0, 2.0, 2.0), 0.0},
                             {1, box_2d(0.0, -1.0, 1.0, 0.0), 0.0},
                             {1, box_2d(0.0, 1.0, 1.0, 2.0), 0.0}};
  const Solution solution = solve_on(model, make_grid(model, {0.02, 1.0, 0.02}), 1e-8);
  const auto lines = IsothermTracer(solution.field).trace(0.4);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].front().x == lines[0].back().x);
  CHECK(lines[0].front().y == lines[0].back().y);
  for (const Vec2& point : lines[0]) {
    // Straight chords within half a millimetre, in a field of at most some 10 K/m here.
    CHECK(solution.field.temperature_c({point.x, point.y, 0.5}).value() == Approx(0.4).margin(0.01));
  }
}

TEST_CASE("The drawing shows every material once lettered and isotherms round the junction") {
  const Detail detail = make_detail(DetailKind::external_corner, wall(), detail_settings());
  DetailSolver solver;
  const DetailResult result = solver.solve(detail);
  const Drawing drawing = detail_drawing(detail, result, 20.0, -3.0, 5.0);
  const auto labels = std::count_if(drawing.polygons.begin(), drawing.polygons.end(),
                                    [](const DrawnPolygon& polygon) { return polygon.label == "wool"; });
  CHECK(labels == 1);
  // Of 0, 5, 10 and 15 °C every third is lettered, and the air on both sides is named.
  REQUIRE(drawing.texts.size() == 4);
  CHECK(drawing.texts[0].text == "0");
  CHECK(drawing.texts[1].text == "15");
  CHECK(drawing.texts[2].text == "inside");
  CHECK(drawing.texts[3].text == "outside");
  double area_m2 = 0.0;
  for (const DrawnPolygon& polygon : drawing.polygons) area_m2 += area(polygon.outline);
  const double d = wall().thickness_m();
  CHECK(area_m2 == Approx(2.0 * d * kShownAfter_m + d * d));
  for (const DrawnLine& line : drawing.lines) {
    CHECK(std::max(line.from.x, line.to.x) <= kShownAfter_m + 1e-9);
    CHECK(std::min(line.from.y, line.to.y) >= -kShownBefore_m - 1e-9);
  }
  CHECK_THROWS_WITH(detail_drawing(detail, result, -3.0, 20.0),
                    "isotherms need a warm and a cold side and a step above 0");
}

TEST_CASE("A coldest surface beyond the picture is told in words, not crossed outside of it") {
  const Detail detail = make_detail(DetailKind::external_corner, wall(), detail_settings());
  DetailSolver solver;
  DetailResult result = solver.solve(detail);
  const std::size_t shown = detail_drawing(detail, result, 20.0, -3.0).lines.size();
  result.coldest_at.y = kShownAfter_m + 0.1;
  const Drawing drawing = detail_drawing(detail, result, 20.0, -3.0);
  CHECK(drawing.lines.size() + 2 == shown);
  CHECK(drawing.title.find("beyond the picture") != std::string::npos);
}

TEST_CASE("A panel's layers, framing and edge timber are read from its parts") {
  Project project = testing::cassette_project();
  for (Material& material : project.materials) {
    material.properties.add("Pset_MaterialThermal", "ThermalConductivity",
                            testing::property_of(material.category == "insulation" ? 0.035 : 0.13));
  }
  const auto no_air = [](std::size_t) { return std::optional<double>(); };
  const auto reading = read_detail_build_up(project.panels[0], project, kAllLayers, no_air);
  CHECK(reading.missing.empty());
  REQUIRE(reading.build_up.layers.size() == 3);
  CHECK(reading.build_up.layers[1].framed);
  CHECK_FALSE(reading.build_up.layers[0].framed);
  CHECK(reading.build_up.layers[1].conductivity_w_per_mk == 0.035);
  CHECK(reading.build_up.framing_conductivity_w_per_mk == 0.13);
  CHECK(reading.build_up.edge_stud_m.value() == Approx(0.045));
  CHECK(reading.build_up.head_rail_m.value() == Approx(0.045));
  CHECK_FALSE(reading.build_up.opening_head_m.has_value());
  CHECK_FALSE(reading.build_up.parapet_height_m.has_value());

  // A second stud behind the first counts with it.
  project.panels[0].parts.push_back(
      testing::box_part("double", PartKind::stud, testing::kTimber, {{0.045, 0.012, 0.045}, {0.090, 0.157, 2.955}}));
  CHECK(read_detail_build_up(project.panels[0], project, kAllLayers, no_air).build_up.edge_stud_m.value() ==
        Approx(0.090));
}

TEST_CASE("Equal timber at other places of a panel gives the same detail") {
  Project project = testing::cassette_project();
  for (Material& material : project.materials) {
    material.properties.add("Pset_MaterialThermal", "ThermalConductivity", testing::property_of(0.13));
  }
  Opening opening;
  opening.x_min_m = 0.6;
  opening.x_max_m = 1.2;
  const auto with_lintel = [&](double z) {
    Panel panel = project.panels[0];
    panel.parts.push_back(
        testing::box_part("lintel", PartKind::lintel, testing::kTimber, {{0.6, 0.012, z}, {1.2, 0.157, z + 0.195}}));
    opening.z_max_m = z;
    opening.z_min_m = z - 1.0;
    DetailBuildUp build_up = wall();
    read_opening(panel, opening, build_up);
    return identity(make_detail(DetailKind::window_head, build_up, detail_settings()).model);
  };
  CHECK(with_lintel(2.26) == with_lintel(1.1 + 1.0 / 3.0));
}

TEST_CASE("Two lintels with wool between are drawn as they stand, and pass less heat than solid timber") {
  Project project = testing::cassette_project();
  for (Material& material : project.materials) {
    material.properties.add("Pset_MaterialThermal", "ThermalConductivity",
                            testing::property_of(material.category == "insulation" ? 0.035 : 0.13));
  }
  Opening opening;
  opening.x_min_m = 0.6;
  opening.x_max_m = 1.2;
  opening.z_min_m = 1.0;
  opening.z_max_m = 2.0;
  const auto head_of = [&](const std::vector<std::pair<double, double>>& lintels) {
    Panel panel = project.panels[0];
    for (const auto& [y_min, y_max] : lintels) {
      panel.parts.push_back(
          testing::box_part("lintel", PartKind::lintel, testing::kTimber, {{0.6, y_min, 2.0}, {1.2, y_max, 2.195}}));
    }
    DetailBuildUpReading reading =
        read_detail_build_up(panel, project, kAllLayers, [](std::size_t) { return std::optional<double>(); });
    read_opening(panel, opening, reading.build_up);
    return make_detail(DetailKind::window_head, reading.build_up, changed("window_frame_offset_m", 0.04));
  };
  const auto timber_m2 = [](const Detail& detail) {
    double area_m2 = 0.0;
    for (const SolidBox& solid : detail.model.solids) {
      if (solid.name == "framing") area_m2 += solid.box.size().x * solid.box.size().y;
    }
    return area_m2;
  };
  // The framed layer of this panel lies from 12 to 157 mm.
  const Detail pair = head_of({{0.012, 0.057}, {0.112, 0.157}});
  const Detail whole = head_of({{0.012, 0.157}});
  REQUIRE(pair.missing.empty());
  CHECK(timber_m2(pair) == Approx(2.0 * 0.045 * 0.195));
  CHECK(timber_m2(whole) == Approx(0.145 * 0.195));
  DetailSolver solver;
  const double psi_pair = solver.solve(pair).psi_internal_w_per_mk;
  const double psi_whole = solver.solve(whole).psi_internal_w_per_mk;
  CHECK(psi_pair < psi_whole - 0.02);
  CHECK(solver.solve(pair).temperature_factor > solver.solve(whole).temperature_factor);
}

TEST_CASE("A panel without λ or without the resistance of its air layer says so") {
  Project project = testing::cassette_project();
  const auto no_air = [](std::size_t) { return std::optional<double>(); };
  const auto& missing = read_detail_build_up(project.panels[0], project, kAllLayers, no_air).missing;
  CHECK(std::count(missing.begin(), missing.end(),
                   "material 'OSB' has no Pset_MaterialThermal.ThermalConductivity above 0") == 1);
  project.panels[0].layers[0].material = std::nullopt;
  const auto& without_air = read_detail_build_up(project.panels[0], project, kAllLayers, no_air).missing;
  CHECK(without_air.front() == "air layer 'inner board' has no known thermal resistance");
}

TEST_CASE("Layers outside a well-ventilated cavity do not count") {
  Project project = testing::cassette_project();
  for (Material& material : project.materials) {
    material.properties.add("Pset_MaterialThermal", "ThermalConductivity", testing::property_of(0.13));
  }
  const CountedLayers inside_cavity{2, 0.13, 0.13};
  const auto reading = read_detail_build_up(project.panels[0], project, inside_cavity,
                                            [](std::size_t) { return std::optional<double>(); });
  CHECK(reading.build_up.layers.size() == 2);
  CHECK(reading.build_up.r_se_m2k_per_w == 0.13);
}

TEST_CASE("A later run takes the solution of an equal detail from an earlier one") {
  const auto solved = std::make_shared<SolvedModels>();
  const Detail detail = make_detail(DetailKind::panel_joint, wall(), detail_settings());
  DetailSolver first(solved);
  DetailSolver second(solved);
  CHECK(first.solve(detail).heat_flow == second.solve(detail).heat_flow);
  DetailSolver apart;
  CHECK(apart.solve(detail).heat_flow != first.solve(detail).heat_flow);
}

TEST_CASE("Beyond its limit the store of solved models lets go of the oldest, and no run loses what it holds") {
  SolvedModels solved;
  const std::shared_ptr<SolvedModel> oldest = solved.model("oldest");
  for (std::size_t i = 1; i < SolvedModels::kMostModels; ++i) solved.model(std::to_string(i));
  CHECK(solved.model("oldest") == oldest);
  solved.model("one more");
  CHECK(solved.model("oldest") != oldest);
  CHECK(solved.model("2") == solved.model("2"));
}
