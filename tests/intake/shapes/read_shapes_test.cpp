// Shapes as exports give them: volume, box and solid of a part, worked out by hand.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "tests/intake/shapes/small_export.h"

namespace panel_dossier {

using namespace intake_test;

namespace {

Vec3 size_of(const Part& part) {
  REQUIRE(part.bounds);
  return part.bounds->size();
}

void check_size(const Part& part, double x, double y, double z) {
  const Vec3 size = size_of(part);
  CHECK(size.x == Approx(x).margin(1e-6));
  CHECK(size.y == Approx(y).margin(1e-6));
  CHECK(size.z == Approx(z).margin(1e-6));
}

double volume_of(const Part& part) {
  REQUIRE(part.volume_m3);
  return part.volume_m3->value;
}

/// The warning that begins so; empty when there is none.
std::string warning_of(const std::string& text, const std::string& start) {
  for (const Diagnostic& diagnostic : read_export(text, "small.ifcxml", options()).diagnostics) {
    if (diagnostic.message.compare(0, start.size(), start) == 0) return diagnostic.message;
  }
  return {};
}

/// The part has neither volume nor box, and one shape of this kind is counted.
void check_unread(const std::string& items, const std::string& kind) {
  const std::string text = export_of_member(body_of(items));
  INFO(all_of(read_export(text, "small.ifcxml", options()).diagnostics));
  CHECK_FALSE(warning_of(text, "1 shapes of type '" + kind + "' are not read").empty());
  const Part part = part_of_items(items);
  CHECK_FALSE(part.volume_m3);
  CHECK_FALSE(part.bounds);
  CHECK_FALSE(part.solid);
}

/// The first error.
std::string error_of(const std::string& items) {
  const IntakeResult result = read_export(export_of_member(body_of(items)), "small.ifcxml", options());
  CHECK_FALSE(result.project);
  for (const Diagnostic& diagnostic : result.diagnostics) {
    if (diagnostic.severity == Severity::error) return diagnostic.message;
  }
  return {};
}

const Vec3 kStick{0.1, 0.1, 1.0};

}  // namespace

TEST_CASE("a stick is the same solid however it is written", "[shapes]") {
  const auto points = box_points(kStick);
  const std::string longer = first_extrusion(rectangle_profile(0.1, 0.1), 1.7);
  const std::string thicker = first_extrusion(rectangle_profile(0.3, 0.1), 1.0);
  const std::string shell_model = "<IfcShellBasedSurfaceModel><SbsmBoundary>" +
                                  shell("IfcClosedShell", "", points, box_faces()) +
                                  "</SbsmBoundary></IfcShellBasedSurfaceModel>";
  const std::string face_model = "<IfcFaceBasedSurfaceModel><FbsmFaces>" +
                                 shell("IfcConnectedFaceSet", "", points, box_faces()) +
                                 "</FbsmFaces></IfcFaceBasedSurfaceModel>";
  for (const std::string& items : {extrusion(rectangle_profile(0.1, 0.1), 1.0), brep(points, box_faces()),
                                   triangulated(points, box_faces()), polygonal(points, box_faces()), shell_model,
                                   face_model, difference(longer, half_space({0.0, 0.0, 1.0}, {0.0, 0.0, -1.0})),
                                   difference(longer, half_space({0.0, 0.0, 1.0}, {0.0, 0.0, 1.0}, true)),
                                   difference(thicker, half_space({0.1, 0.0, 0.0}, {-1.0, 0.0, 0.0}))}) {
    // A true agreement flag turns the half space to the other side of the normal.
    const bool keeps_upper = items.find("AgreementFlag=\"true\"") != std::string::npos;
    const Part part = part_of_items(items);
    INFO(items.substr(0, 60));
    CHECK(volume_of(part) == Approx(keeps_upper ? 0.007 : 0.01).epsilon(1e-9));
    check_size(part, 0.1, 0.1, keeps_upper ? 0.7 : 1.0);
    REQUIRE(part.solid);
    CHECK(part.solid->volume_m3() == Approx(keeps_upper ? 0.007 : 0.01).epsilon(1e-9));
    CHECK(part.length_m->value == Approx(keeps_upper ? 0.7 : 1.0));
  }
}

TEST_CASE("a brep whose faces all look inwards has the same volume", "[shapes]") {
  Faces inwards = box_faces();
  for (auto& face : inwards) std::reverse(face.begin(), face.end());
  const Part part = part_of_items(brep(box_points(kStick), inwards));
  CHECK(volume_of(part) == Approx(0.01));
  CHECK(part.solid);
}

TEST_CASE("a hexagonal prism is recognised in a mesh", "[shapes]") {
  std::vector<Vec3> points;
  Faces faces{{}, {}};
  for (std::size_t i = 0; i < 12; ++i) {
    const double angle = static_cast<double>(i % 6) * std::numbers::pi / 3.0;
    points.push_back({0.2 + 0.1 * std::cos(angle), 0.2 + 0.1 * std::sin(angle), i < 6 ? 0.0 : 1.5});
  }
  for (std::size_t i = 0; i < 6; ++i) {
    faces[0].push_back(5 - i);
    faces[1].push_back(6 + i);
    faces.push_back({i, (i + 1) % 6, (i + 1) % 6 + 6, i + 6});
  }
  // 3 √3 / 2 a² h with a = 0.1 m.
  const double by_hand = 1.5 * std::sqrt(3.0) * 0.01 * 1.5;
  for (const std::string& items : {brep(points, faces), triangulated(points, faces), polygonal(points, faces)}) {
    const Part part = part_of_items(items);
    CHECK(volume_of(part) == Approx(by_hand).epsilon(1e-7));
    REQUIRE(part.solid);
    CHECK(part.solid->outline.size() == 6);
    CHECK(part.solid->depth_m == Approx(1.5));
  }
}

TEST_CASE("round profiles are as round as the chord error says", "[shapes]") {
  const std::string bar = "<SweptArea xsi:type=\"IfcCircleProfileDef\" Radius=\"0.05\"/>";
  const Part part = part_of_items(extrusion(bar, 2.0));
  const double exact = std::numbers::pi * 0.0025 * 2.0;
  CHECK(volume_of(part) < exact);
  // Chords 0.02 mm inside of 50 mm: 112 of them, whose polygon lacks (2π / 112)² / 6 of the circle.
  CHECK(volume_of(part) == Approx(exact).epsilon(6e-4));
  CHECK(part.solid);
  CHECK(size_of(part).x == Approx(0.1).margin(4e-5));
  const std::string tube = "<SweptArea xsi:type=\"IfcCircleHollowProfileDef\" Radius=\"0.05\" WallThickness=\"0.01\"/>";
  const Part hollow = part_of_items(extrusion(tube, 2.0));
  CHECK(volume_of(hollow) == Approx(std::numbers::pi * (0.0025 - 0.0016) * 2.0).epsilon(1e-3));
  CHECK_FALSE(hollow.solid);
}

TEST_CASE("holes of a profile are no material, and what has them is no solid", "[shapes]") {
  const std::string plate = "<SweptArea xsi:type=\"IfcArbitraryProfileDefWithVoids\">" +
                            polyline("OuterCurve", rectangle(0.0, 0.0, 1.2, 0.8)) + "<InnerCurves>" +
                            polyline("IfcPolyline", rectangle(0.2, 0.2, 0.7, 0.6)) + "</InnerCurves></SweptArea>";
  const Part part = part_of_items(extrusion(plate, 0.02));
  CHECK(volume_of(part) == Approx((0.96 - 0.2) * 0.02));
  check_size(part, 1.2, 0.8, 0.02);
  CHECK_FALSE(part.solid);
  const std::string box =
      "<SweptArea xsi:type=\"IfcRectangleHollowProfileDef\" XDim=\"0.1\" YDim=\"0.08\" "
      "WallThickness=\"0.01\"/>";
  CHECK(volume_of(part_of_items(extrusion(box, 2.0))) == Approx((0.008 - 0.08 * 0.06) * 2.0));
}

TEST_CASE("profiles by their sizes have the area of the textbook, and each size is asked for", "[shapes]") {
  struct Profile {
    std::string type;
    std::vector<std::pair<std::string, double>> sizes_m;
    double area_m2;
  };
  // Circles are polygons within the chord error; the box of each is told by its first two sizes.
  const std::vector<Profile> profiles{
      {"IfcRectangleProfileDef", {{"XDim", 0.1}, {"YDim", 0.08}}, 0.1 * 0.08},
      {"IfcRectangleHollowProfileDef",
       {{"XDim", 0.1}, {"YDim", 0.08}, {"WallThickness", 0.01}},
       0.1 * 0.08 - 0.08 * 0.06},
      {"IfcIShapeProfileDef",
       {{"OverallWidth", 0.06}, {"OverallDepth", 0.24}, {"WebThickness", 0.01}, {"FlangeThickness", 0.04}},
       2.0 * 0.06 * 0.04 + 0.01 * (0.24 - 2.0 * 0.04)},
      {"IfcCircleProfileDef", {{"Radius", 0.05}}, std::numbers::pi * 0.05 * 0.05},
      {"IfcCircleHollowProfileDef",
       {{"Radius", 0.05}, {"WallThickness", 0.01}},
       std::numbers::pi * (0.05 * 0.05 - 0.04 * 0.04)}};
  for (const Profile& profile : profiles) {
    const auto item = [&](std::size_t changed, const std::string& value) {
      std::string text = "<SweptArea xsi:type=\"" + profile.type + "\"";
      for (std::size_t i = 0; i < profile.sizes_m.size(); ++i) {
        const auto& [name, size_m] = profile.sizes_m[i];
        const std::string size = i == changed ? value : shortest_text(size_m);
        if (!size.empty()) text += " " + name + "=\"" + size + "\"";
      }
      return extrusion(text + "/>", 2.0);
    };
    INFO(profile.type);
    const std::size_t none = profile.sizes_m.size();
    CHECK(volume_of(part_of_items(item(none, ""))) == Approx(2.0 * profile.area_m2).epsilon(0.01));
    for (std::size_t i = 0; i < none; ++i) {
      const std::string& name = profile.sizes_m[i].first;
      CHECK_THAT(error_of(item(i, "")), Catch::Contains(name));
      CHECK(error_of(item(i, "0.")) == name + " is not greater than zero");
      CHECK(error_of(item(i, "-0.01")) == name + " is not greater than zero");
    }
  }
}

TEST_CASE("walls, webs and flanges take no more than their section", "[shapes]") {
  const auto of = [](const std::string& profile) { return extrusion("<SweptArea xsi:type=\"" + profile + "/>", 1.0); };
  const std::string hollow = "IfcRectangleHollowProfileDef\" XDim=\"0.1\" YDim=\"0.08\" WallThickness=";
  const std::string tube = "IfcCircleHollowProfileDef\" Radius=\"0.05\" WallThickness=";
  for (const std::string& profile : {hollow + "\"0.04\"", hollow + "\"0.05\"", tube + "\"0.05\"", tube + "\"0.06\""}) {
    CHECK(error_of(of(profile)) == "the wall is thicker than half of the section");
  }
  const std::string joist = "IfcIShapeProfileDef\" OverallWidth=\"0.06\" OverallDepth=\"0.24\" ";
  for (const char* sizes :
       {"WebThickness=\"0.07\" FlangeThickness=\"0.04\"", "WebThickness=\"0.01\" FlangeThickness=\"0.13\""}) {
    CHECK(error_of(of(joist + sizes)) == "web or flanges are larger than the section");
  }
}

TEST_CASE("outlines that cross themselves or their holes are refused", "[shapes]") {
  CHECK(error_of(extrusion(outline_profile({{0.0, 0.0}, {1.0, 1.0}, {1.0, 0.0}, {0.0, 1.2}}), 0.1)) ==
        "the outline of the profile crosses itself or a hole in it");
  const std::string outside = "<SweptArea xsi:type=\"IfcArbitraryProfileDefWithVoids\">" +
                              polyline("OuterCurve", rectangle(0.0, 0.0, 1.0, 1.0)) + "<InnerCurves>" +
                              polyline("IfcPolyline", rectangle(2.0, 0.0, 2.5, 0.5)) + "</InnerCurves></SweptArea>";
  CHECK(error_of(extrusion(outside, 0.1)) == "a hole of the profile lies outside of its outline");
}

TEST_CASE("arcs of indexed curves are read, a half disc by three points", "[shapes]") {
  const std::string profile =
      "<SweptArea xsi:type=\"IfcArbitraryClosedProfileDef\"><OuterCurve xsi:type=\"IfcIndexedPolyCurve\">"
      "<Points xsi:type=\"IfcCartesianPointList2D\" CoordList=\"-0.5 0.2 0.5 0.2 0 0.7\"/>"
      "<Segments><IfcLineIndex-wrapper>1 2</IfcLineIndex-wrapper><IfcArcIndex-wrapper>2 3 1</IfcArcIndex-wrapper>"
      "</Segments></OuterCurve></SweptArea>";
  const Part part = part_of_items(extrusion(profile, 0.1));
  CHECK(volume_of(part) == Approx(std::numbers::pi / 8.0 * 0.1).epsilon(2e-4));
  check_size(part, 1.0, 0.5, 0.1);
  CHECK(part.solid);
}

TEST_CASE("composite curves of lines and arcs are read, arcs by angles or by points, either way round", "[shapes]") {
  const auto line = [](double x1, double y1, double x2, double y2) {
    return "<IfcCompositeCurveSegment Transition=\"continuous\" SameSense=\"true\"><ParentCurve "
           "xsi:type=\"IfcPolyline\">"
           "<Points><IfcCartesianPoint Coordinates=\"" +
           shortest_text(x1) + " " + shortest_text(y1) + "\"/><IfcCartesianPoint Coordinates=\"" + shortest_text(x2) +
           " " + shortest_text(y2) + "\"/></Points></ParentCurve></IfcCompositeCurveSegment>";
  };
  const auto arc = [](const std::string& centre, const std::string& trim1, const std::string& trim2, bool same) {
    return "<IfcCompositeCurveSegment Transition=\"continuous\" SameSense=\"" + std::string(same ? "true" : "false") +
           "\"><ParentCurve xsi:type=\"IfcTrimmedCurve\" SenseAgreement=\"true\"><BasisCurve xsi:type=\"IfcCircle\" "
           "Radius=\"0.25\"><Position xsi:type=\"IfcAxis2Placement2D\"><Location Coordinates=\"" +
           centre + "\"/></Position></BasisCurve><Trim1>" + trim1 + "</Trim1><Trim2>" + trim2 +
           "</Trim2></ParentCurve></IfcCompositeCurveSegment>";
  };
  const auto angle = [](double radians) {
    return "<IfcParameterValue-wrapper>" + shortest_text(radians) + "</IfcParameterValue-wrapper>";
  };
  const auto point = [](const std::string& at) { return "<IfcCartesianPoint Coordinates=\"" + at + "\"/>"; };
  const double quarter = std::numbers::pi / 2.0;
  // A slot of 1 m between the centres of its ends: right end upwards by angles, left end drawn the wrong way by points.
  const std::string profile =
      "<SweptArea xsi:type=\"IfcArbitraryClosedProfileDef\"><OuterCurve "
      "xsi:type=\"IfcCompositeCurve\" SelfIntersect=\"false\"><Segments>" +
      line(0.0, -0.25, 1.0, -0.25) + arc("1. 0.", angle(-quarter), angle(quarter), true) + line(1.0, 0.25, 0.0, 0.25) +
      arc("0. 0.", point("0. 0.25"), point("0. -0.25"), true) + "</Segments></OuterCurve></SweptArea>";
  const Part part = part_of_items(extrusion(profile, 0.1));
  CHECK(volume_of(part) == Approx((0.5 + std::numbers::pi / 16.0) * 0.1).epsilon(2e-4));
  CHECK(size_of(part).x == Approx(1.5).margin(4e-5));
  CHECK(size_of(part).y == Approx(0.5).margin(1e-6));
  const std::string gap =
      "<SweptArea xsi:type=\"IfcArbitraryClosedProfileDef\"><OuterCurve "
      "xsi:type=\"IfcCompositeCurve\"><Segments>" +
      line(0.0, 0.0, 1.0, 0.0) + line(1.1, 0.0, 1.0, 1.0) + "</Segments></OuterCurve></SweptArea>";
  check_unread(extrusion(gap, 0.1), "IfcCompositeCurve (segments do not meet)");
}

TEST_CASE("a wall cut by a roof is a prism through the wall", "[shapes]") {
  // 2 m long, 0.2 m thick, 1.5 m high, cut from 1 m at the left to 1.5 m at the right: a trapezium of 2 * 1.25 m².
  const std::string wall = first_extrusion(rectangle_profile(2.0, 0.2), 1.5);
  const Part above = part_of_items(difference(wall, half_space({0.0, 0.0, 1.0}, {-0.5, 0.0, 2.0})));
  CHECK(volume_of(above) == Approx(2.0 * 0.25 * 0.2));
  const Part below = part_of_items(difference(wall, half_space({0.0, 0.0, 1.0}, {0.5, 0.0, -2.0})));
  CHECK(volume_of(below) == Approx(2.0 * 1.25 * 0.2));
  check_size(below, 2.0, 0.2, 1.5);
  REQUIRE(below.solid);
  CHECK(below.solid->outline.size() == 4);
  CHECK(below.solid->depth_m == Approx(0.2));
}

TEST_CASE("a stud cut across both ways has a volume and a box and no solid", "[shapes]") {
  // Loses 0.05 m of its height on average at the top, sloping along x, and 0.05 m at the foot, sloping along y.
  const std::string stud = first_extrusion(rectangle_profile(0.1, 0.1), 2.0);
  const std::string top = "<FirstOperand xsi:type=\"IfcBooleanClippingResult\" Operator=\"difference\">" + stud +
                          half_space({0.0, 0.0, 2.0}, {-1.0, 0.0, -1.0}) + "</FirstOperand>";
  const Part part = part_of_items(difference(top, half_space({0.0, 0.0, 0.0}, {0.0, -1.0, 1.0})));
  CHECK(volume_of(part) == Approx(0.01 * 1.9).epsilon(1e-9));
  check_size(part, 0.1, 0.1, 2.0);
  CHECK_FALSE(part.solid);
}

TEST_CASE("a bounded half space cuts within its boundary alone", "[shapes]") {
  const std::string wall = first_extrusion(rectangle_profile(2.0, 0.2), 1.5);
  const auto cut_at = [&](const Polygon& boundary) {
    return part_of_items(difference(wall, bounded_half_space({0.0, 0.0, 1.0}, {0.0, 0.0, -1.0}, boundary)));
  };
  const Part whole = cut_at(rectangle(-1.0, -1.0, 3.0, 1.0));
  CHECK(volume_of(whole) == Approx(2.0 * 0.2 * 1.0));
  CHECK(whole.solid);
  const Part half = cut_at(rectangle(-1.0, -1.0, 1.0, 1.0));
  CHECK(volume_of(half) == Approx(0.6 - 1.0 * 0.2 * 0.5));
  check_size(half, 2.0, 0.2, 1.5);
  // What is left is still a prism through the wall, of six corners.
  REQUIRE(half.solid);
  CHECK(half.solid->outline.size() == 6);
  CHECK(half.solid->depth_m == Approx(0.2));
  CHECK(half.solid->volume_m3() == Approx(0.5));
  const Part beside = cut_at(rectangle(5.0, -1.0, 6.0, 1.0));
  CHECK(volume_of(beside) == Approx(0.6));
  CHECK(beside.solid);
  // An L: 0.5 m of the length over the whole thickness, another 0.5 m over half of it.
  const Part nook = cut_at({{0.5, -1.0}, {1.5, -1.0}, {1.5, 0.1}, {1.0, 0.1}, {1.0, 1.0}, {0.5, 1.0}});
  CHECK(volume_of(nook) == Approx(0.6 - (0.5 * 0.2 + 0.5 * 0.1) * 0.5));
  CHECK_FALSE(nook.solid);
}

TEST_CASE("a convex extrusion cuts a notch, other operators are not read", "[shapes]") {
  const std::string post = first_extrusion(rectangle_profile(0.1, 0.1), 2.0);
  const std::string notch = "<SecondOperand xsi:type=\"IfcExtrudedAreaSolid\" " +
                            extruded(rectangle_profile(0.05, 0.3), 0.2, {0.0, -0.1, 0.9}) + "</SecondOperand>";
  const Part part = part_of_items(difference(post, notch, "IfcBooleanResult"));
  CHECK(volume_of(part) == Approx(0.02 - 0.05 * 0.1 * 0.2));
  check_size(part, 0.1, 0.1, 2.0);
  REQUIRE(part.solid);
  CHECK(part.solid->outline.size() == 8);
  check_unread("<IfcBooleanResult Operator=\"union\">" + post + notch + "</IfcBooleanResult>",
               "IfcBooleanResult (no difference)");
  check_unread(difference(post, half_space({0.0, 0.0, -1.0}, {0.0, 0.0, -1.0})),
               "IfcBooleanClippingResult (nothing is left)");
}

TEST_CASE("mapped copies stand where their targets put them, mirrored ones too", "[shapes]") {
  const auto mapped = [](const std::string& target) {
    return "<IfcMappedItem><MappingSource><MappingOrigin xsi:type=\"IfcAxis2Placement3D\"><Location Coordinates=\"0. "
           "0. "
           "0.\"/></MappingOrigin><MappedRepresentation><Items>" +
           extrusion(outline_profile({{0.0, 0.0}, {0.9, 0.0}, {0.0, 0.6}}), 0.3) +
           "</Items></MappedRepresentation></MappingSource><MappingTarget "
           "xsi:type=\"IfcCartesianTransformationOperator3D\"" +
           target + "<LocalOrigin Coordinates=\"0.1 0.2 0.3\"/></MappingTarget></IfcMappedItem>";
  };
  const auto centroid_of = [](const Part& part) {
    REQUIRE(part.solid);
    return part.solid->centroid() - part.bounds->min;
  };
  const Part plain = part_of_items(mapped(">"));
  CHECK(volume_of(plain) == Approx(0.27 * 0.3));
  CHECK(centroid_of(plain).x == Approx(0.3));
  CHECK(centroid_of(plain).y == Approx(0.2));
  // A quarter turn: the long leg runs along y now, the other one towards -x.
  const Part turned = part_of_items(mapped("><Axis1 DirectionRatios=\"0. 1. 0.\"/>"));
  check_size(turned, 0.6, 0.9, 0.3);
  CHECK(centroid_of(turned).x == Approx(0.4));
  CHECK(centroid_of(turned).y == Approx(0.3));
  const Part mirrored =
      part_of_items(mapped("><Axis1 DirectionRatios=\"1. 0. 0.\"/><Axis2 DirectionRatios=\"0. -1. 0.\"/>"));
  check_size(mirrored, 0.9, 0.6, 0.3);
  CHECK(volume_of(mirrored) == Approx(0.27 * 0.3));
  CHECK(centroid_of(mirrored).x == Approx(0.3));
  CHECK(centroid_of(mirrored).y == Approx(0.4));
  check_unread(mapped(" Scale=\"1.5\">"), "IfcMappedItem (scaled)");
}

TEST_CASE("a mirrored body that is no prism keeps its volume", "[shapes]") {
  const std::string stud = first_extrusion(rectangle_profile(0.1, 0.1), 1.0);
  const std::string top = "<FirstOperand xsi:type=\"IfcBooleanClippingResult\" Operator=\"difference\">" + stud +
                          half_space({0.0, 0.0, 1.0}, {-1.0, 0.0, -1.0}) + "</FirstOperand>";
  const std::string cut = difference(top, half_space({0.0, 0.0, 0.0}, {0.0, -1.0, 1.0}));
  const Part part = part_of_items(
      "<IfcMappedItem><MappingSource><MappedRepresentation><Items>" + cut +
      "</Items></MappedRepresentation></MappingSource><MappingTarget xsi:type=\"IfcCartesianTransformationOperator3D\">"
      "<Axis1 DirectionRatios=\"1. 0. 0.\"/><Axis2 DirectionRatios=\"0. -1. 0.\"/><LocalOrigin Coordinates=\"0. 0. "
      "0.\"/></MappingTarget></IfcMappedItem>");
  CHECK(volume_of(part) == Approx(0.01 * 0.9).epsilon(1e-9));
  CHECK_FALSE(part.solid);
}

TEST_CASE("what is not closed, not flat or turned is counted and not read", "[shapes]") {
  const auto points = box_points(kStick);
  Faces open = box_faces();
  open.pop_back();
  check_unread(brep(points, open), "IfcFacetedBrep (not closed)");
  check_unread(triangulated(points, open), "IfcTriangulatedFaceSet (not closed)");
  Faces turned = box_faces();
  std::reverse(turned[1].begin(), turned[1].end());
  check_unread(polygonal(points, turned), "IfcPolygonalFaceSet (faces look both ways)");
  auto bent = points;
  bent[6].z += 0.01;
  check_unread(brep(bent, box_faces()), "IfcFacetedBrep (a face is not flat)");
  check_unread("<IfcRevolvedAreaSolid Angle=\"1.\"/>", "IfcRevolvedAreaSolid");
}

TEST_CASE("a box in the place of a body has the size of the part, and one without extent is an error", "[shapes]") {
  const std::string corner = "<IfcBoundingBox XDim=\"0.045\" YDim=\"0.145\" ZDim=\"";
  const std::string rest = "\"><Corner Coordinates=\"0.1 0.2 0.3\"/></IfcBoundingBox>";
  const Part part = part_of_items(corner + "2.4" + rest);
  check_size(part, 0.045, 0.145, 2.4);
  CHECK(error_of(corner + "0." + rest) == "a dimension of the box is not greater than zero");
}

TEST_CASE("a placement with an axis alone keeps its x axis, as IfcFirstProjAxis has it", "[shapes]") {
  // The axis looks along -y, so a stick of 0.3 m goes that way, its section 0.1 m along x and 0.05 m upwards.
  const Part part = part_of_items("<IfcExtrudedAreaSolid Depth=\"0.3\">" + rectangle_profile(0.1, 0.05) +
                                  "<Position xsi:type=\"IfcAxis2Placement3D\"><Location Coordinates=\"0. 0. 0.\"/>"
                                  "<Axis DirectionRatios=\"0. -1. 0.\"/></Position>"
                                  "<ExtrudedDirection DirectionRatios=\"0. 0. 1.\"/></IfcExtrudedAreaSolid>");
  check_size(part, 0.1, 0.3, 0.05);
}

TEST_CASE("a body of which a piece is not read counts for nothing", "[shapes]") {
  check_unread(extrusion(rectangle_profile(0.1, 0.1), 1.0) + "<IfcRevolvedAreaSolid Angle=\"1.\"/>",
               "IfcRevolvedAreaSolid");
}

TEST_CASE("indices that name no point are an error", "[shapes]") {
  Faces faces = box_faces();
  faces[0][0] = 8;
  CHECK(error_of(triangulated(box_points(kStick), faces)) == "CoordIndex names a point that is not in the list");
}

TEST_CASE("faces with holes bound a tube", "[shapes]") {
  // Outer box 0.2 x 0.2 x 1 m, hole 0.1 x 0.1 m from end to end.
  std::vector<Vec3> points = box_points({0.2, 0.2, 1.0});
  for (const double z : {0.0, 1.0}) {
    for (const Vec2& at : rectangle(0.05, 0.05, 0.15, 0.15)) points.push_back({at.x, at.y, z});
  }
  const std::string sides =
      "<IfcIndexedPolygonalFace CoordIndex=\"1 2 6 5\"/><IfcIndexedPolygonalFace CoordIndex=\"2 3 7 6\"/>"
      "<IfcIndexedPolygonalFace CoordIndex=\"3 4 8 7\"/><IfcIndexedPolygonalFace CoordIndex=\"4 1 5 8\"/>"
      "<IfcIndexedPolygonalFace CoordIndex=\"10 9 13 14\"/><IfcIndexedPolygonalFace CoordIndex=\"11 10 14 15\"/>"
      "<IfcIndexedPolygonalFace CoordIndex=\"12 11 15 16\"/><IfcIndexedPolygonalFace CoordIndex=\"9 12 16 13\"/>";
  const std::string ends =
      "<IfcIndexedPolygonalFaceWithVoids CoordIndex=\"4 3 2 1\"><InnerCoordIndices><Seq-IfcPositiveInteger-wrapper>9 "
      "10 "
      "11 12</Seq-IfcPositiveInteger-wrapper></InnerCoordIndices></IfcIndexedPolygonalFaceWithVoids>"
      "<IfcIndexedPolygonalFaceWithVoids CoordIndex=\"5 6 7 8\"><InnerCoordIndices><Seq-IfcPositiveInteger-wrapper>16 "
      "15 "
      "14 13</Seq-IfcPositiveInteger-wrapper></InnerCoordIndices></IfcIndexedPolygonalFaceWithVoids>";
  const Part part = part_of_items("<IfcPolygonalFaceSet Closed=\"true\">" + point_list(points) + "<Faces>" + sides +
                                  ends + "</Faces></IfcPolygonalFaceSet>");
  CHECK(volume_of(part) == Approx(0.03));
  check_size(part, 0.2, 0.2, 1.0);
  CHECK_FALSE(part.solid);
}

TEST_CASE("an occurrence without a shape has that of its type", "[shapes]") {
  const std::string type =
      "<IfcMemberType id=\"type\" " + identity("Short stud") +
      " PredefinedType=\"stud\"><RepresentationMaps><IfcRepresentationMap><MappingOrigin "
      "xsi:type=\"IfcAxis2Placement3D\"><Location Coordinates=\"0. 0. 0.5\"/></MappingOrigin><MappedRepresentation "
      "RepresentationIdentifier=\"Body\"><Items>" +
      extrusion(rectangle_profile(0.1, 0.1), 1.0) +
      "</Items></MappedRepresentation></IfcRepresentationMap></RepresentationMaps></IfcMemberType>";
  const Part part = part_of("<IsTypedBy><IfcRelDefinesByType GlobalId=\"" + global_id() +
                                "\"><RelatingType xsi:type=\"IfcMemberType\" xsi:nil=\"true\" ref=\"type\"/>"
                                "</IfcRelDefinesByType></IsTypedBy>",
                            type);
  CHECK(volume_of(part) == Approx(0.01));
  CHECK(part.solid);
}

TEST_CASE("a hole that the profile has already takes nothing more away", "[shapes]") {
  // An L-shaped plate of 0.75 m²; the opening reaches into the corner that is left out of it.
  const std::string l = outline_profile({{0.0, 0.0}, {1.0, 0.0}, {1.0, 0.5}, {0.5, 0.5}, {0.5, 1.0}, {0.0, 1.0}});
  const std::string hole = with_opening("Hole", extrusion(rectangle_profile(0.25, 0.5), 0.022, {0.375, 0.25, -0.001}));
  const Part part = part_of(body_of(extrusion(l, 0.02)) + hole);
  // By hand: of 0.375..0.625 by 0.25..0.75, the part beyond (0.5, 0.5) is no plate: 0.125 - 0.03125 m².
  CHECK(volume_of(part) == Approx((0.75 - 0.09375) * 0.02));
}

TEST_CASE("hostile shapes end in time and in a count", "[shapes]") {
  // A chain of clippings longer than any roof needs.
  std::string chain = first_extrusion(rectangle_profile(0.1, 0.1), 1.0);
  for (int i = 0; i < 300; ++i) {
    chain = "<FirstOperand xsi:type=\"IfcBooleanClippingResult\" Operator=\"difference\">" + chain +
            half_space({0.0, 0.0, 1.0}, {-1.0, 0.0, -1.0}) + "</FirstOperand>";
  }
  const std::string text = export_of_member(body_of(difference(chain, half_space({0.0, 0.0, 0.0}, {0.0, -1.0, 1.0}))));
  const IntakeResult result = read_export(text, "small.ifcxml", options());
  CHECK((!result.project || !warning_of(text, "1 shapes of type 'IfcBooleanClippingResult (cut too often)'").empty()));
}

}  // namespace panel_dossier
