// Exports of a few elements, put together from their XML: IFC4, nested, in metres and radians.
#pragma once

#include <cstdio>
#include <sstream>
#include <string>
#include <vector>

#include "core/api/support/geometry.h"
#include "core/api/support/words.h"
#include "core/intake/export_reader.h"
#include "tests/intake/test_support.h"

namespace panel_dossier::intake_test {

/// A GlobalId that stands once.
inline std::string global_id() {
  static int last = 0;
  char text[23];
  std::snprintf(text, sizeof text, "0Shapes%015d", ++last);
  return text;
}

/// `Name="…"` and a GlobalId, as elements begin.
inline std::string identity(const std::string& name) {
  return "GlobalId=\"" + global_id() + "\" Name=\"" + name + "\" Tag=\"" + name + "\"";
}

/// An export whose first storey, at 0 m, holds these elements, and its second one, at 3 m, those. `outside` stands
/// beside the project: types, relationships.
inline std::string export_text(const std::string& elements, const std::string& outside = {},
                               const std::string& upper_elements = {}, const std::string& of_site = {}) {
  const auto storey = [](const std::string& name, const std::string& elevation, const std::string& held) {
    const std::string contained = held.empty() ? std::string()
                                               : "<ContainsElements><IfcRelContainedInSpatialStructure GlobalId=\"" +
                                                     global_id() + "\"><RelatedElements>" + held +
                                                     "</RelatedElements></IfcRelContainedInSpatialStructure>"
                                                     "</ContainsElements>";
    return "<IfcBuildingStorey GlobalId=\"" + global_id() + "\" Name=\"" + name + "\" Elevation=\"" + elevation +
           "\">" + contained + "</IfcBuildingStorey>";
  };
  const auto whole = [](const std::string& parts) {
    return "<IsDecomposedBy><IfcRelAggregates GlobalId=\"" + global_id() + "\"><RelatedObjects>" + parts +
           "</RelatedObjects></IfcRelAggregates></IsDecomposedBy>";
  };
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
         "<ifcXML xmlns=\"http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2\" "
         "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\">\n"
         "<IfcProject GlobalId=\"" +
         global_id() +
         "\" Name=\"Small\"><UnitsInContext xsi:type=\"IfcUnitAssignment\"><Units>"
         "<IfcSIUnit UnitType=\"lengthunit\" Name=\"metre\"/><IfcSIUnit UnitType=\"planeangleunit\" Name=\"radian\"/>"
         "</Units></UnitsInContext>" +
         whole("<IfcSite GlobalId=\"" + global_id() + "\" Name=\"Site\">" + of_site +
               whole("<IfcBuilding GlobalId=\"" + global_id() + "\" Name=\"House\">" +
                     whole(storey("Ground floor", "0.", elements) + storey("First floor", "3.", upper_elements)) +
                     "</IfcBuilding>") +
               "</IfcSite>") +
         "</IfcProject>\n" + outside + "\n</ifcXML>\n";
}

/// The attribute `Representation` with a body of these items.
inline std::string body_of(const std::string& items) {
  return "<Representation xsi:type=\"IfcProductDefinitionShape\"><Representations><IfcShapeRepresentation "
         "RepresentationIdentifier=\"Body\"><Items>" +
         items + "</Items></IfcShapeRepresentation></Representations></Representation>";
}

inline std::string placed_at(const Vec3& at) {
  return "<ObjectPlacement xsi:type=\"IfcLocalPlacement\"><RelativePlacement><IfcAxis2Placement3D><Location "
         "Coordinates=\"" +
         shortest_text(at.x) + " " + shortest_text(at.y) + " " + shortest_text(at.z) +
         "\"/></IfcAxis2Placement3D></RelativePlacement></ObjectPlacement>";
}

/// A panel of these parts.
inline std::string assembly(const std::string& mark, const std::string& parts) {
  return "<IfcElementAssembly " + identity(mark) + "><IsDecomposedBy><IfcRelAggregates GlobalId=\"" + global_id() +
         "\"><RelatedObjects>" + parts + "</RelatedObjects></IfcRelAggregates></IsDecomposedBy></IfcElementAssembly>";
}

inline std::string member(const std::string& inside) {
  return "<IfcMember " + identity("Stud") + " PredefinedType=\"stud\">" + inside + "</IfcMember>";
}

inline std::string coordinates(const Vec3& v) {
  return "\"" + shortest_text(v.x) + " " + shortest_text(v.y) + " " + shortest_text(v.z) + "\"";
}

inline std::string position_at(const Vec3& at, const std::string& name = "Position") {
  return "<" + name + " xsi:type=\"IfcAxis2Placement3D\"><Location Coordinates=" + coordinates(at) + "/></" + name +
         ">";
}

/// `attributes` and content of an IfcExtrudedAreaSolid with this profile, upwards from z.
inline std::string extruded(const std::string& profile, double depth_m, const Vec3& at = {}) {
  return "Depth=\"" + shortest_text(depth_m) + "\">" + profile + position_at(at) +
         "<ExtrudedDirection DirectionRatios=\"0. 0. 1.\"/>";
}

inline std::string extrusion(const std::string& profile, double depth_m, const Vec3& at = {}) {
  return "<IfcExtrudedAreaSolid " + extruded(profile, depth_m, at) + "</IfcExtrudedAreaSolid>";
}

/// A rectangle from the origin to (x, y).
inline std::string rectangle_profile(double x_m, double y_m) {
  return "<SweptArea xsi:type=\"IfcRectangleProfileDef\" XDim=\"" + shortest_text(x_m) + "\" YDim=\"" +
         shortest_text(y_m) + "\"><Position xsi:type=\"IfcAxis2Placement2D\"><Location Coordinates=\"" +
         shortest_text(x_m / 2.0) + " " + shortest_text(y_m / 2.0) + "\"/></Position></SweptArea>";
}

inline std::string polyline(const std::string& name, const Polygon& corners) {
  std::string points;
  for (std::size_t i = 0; i <= corners.size(); ++i) {
    const Vec2& corner = corners[i % corners.size()];
    points += "<IfcCartesianPoint Coordinates=\"" + shortest_text(corner.x) + " " + shortest_text(corner.y) + "\"/>";
  }
  return "<" + name + " xsi:type=\"IfcPolyline\"><Points>" + points + "</Points></" + name + ">";
}

inline std::string outline_profile(const Polygon& corners) {
  return "<SweptArea xsi:type=\"IfcArbitraryClosedProfileDef\">" + polyline("OuterCurve", corners) + "</SweptArea>";
}

/// What remains of `first` (attribute FirstOperand with its type) without `second`.
inline std::string difference(const std::string& first, const std::string& second,
                              const std::string& entity = "IfcBooleanClippingResult") {
  return "<" + entity + " Operator=\"difference\">" + first + second + "</" + entity + ">";
}

inline std::string first_extrusion(const std::string& profile, double depth_m) {
  return "<FirstOperand xsi:type=\"IfcExtrudedAreaSolid\" " + extruded(profile, depth_m) + "</FirstOperand>";
}

/// The plane through `at` with this normal, as the base of a half space.
inline std::string base_plane(const Vec3& at, const Vec3& normal) {
  const Vec3 across = std::abs(normal.x) < 0.9 * length(normal) ? Vec3{1.0, 0.0, 0.0} : Vec3{0.0, 1.0, 0.0};
  return "<BaseSurface xsi:type=\"IfcPlane\"><Position><Location Coordinates=" + coordinates(at) +
         "/><Axis DirectionRatios=" + coordinates(normal) + "/><RefDirection DirectionRatios=" + coordinates(across) +
         "/></Position></BaseSurface>";
}

/// The half space on that side of the plane through `at` that `away` points away from. With the flag it is drawn by
/// this normal, without by the opposite one.
inline std::string half_space(const Vec3& at, const Vec3& away, bool agreement = false) {
  return "<SecondOperand xsi:type=\"IfcHalfSpaceSolid\" AgreementFlag=\"" + std::string(agreement ? "true" : "false") +
         "\">" + base_plane(at, away * (agreement ? 1.0 : -1.0)) + "</SecondOperand>";
}

inline std::string bounded_half_space(const Vec3& at, const Vec3& away, const Polygon& boundary) {
  return "<SecondOperand xsi:type=\"IfcPolygonalBoundedHalfSpace\" AgreementFlag=\"true\">" + base_plane(at, away) +
         position_at({}) + polyline("PolygonalBoundary", boundary) + "</SecondOperand>";
}

/// The attribute `HasOpenings` with one opening of this body.
inline std::string with_opening(const std::string& name, const std::string& items) {
  return "<HasOpenings><IfcRelVoidsElement GlobalId=\"" + global_id() +
         "\"><RelatedOpeningElement xsi:type=\"IfcOpeningElement\" " + identity(name) + ">" + body_of(items) +
         "</RelatedOpeningElement></IfcRelVoidsElement></HasOpenings>";
}

using Faces = std::vector<std::vector<std::size_t>>;

/// The corners of a box, and its faces seen from outside.
inline std::vector<Vec3> box_points(const Vec3& size) {
  std::vector<Vec3> points;
  for (const double z : {0.0, size.z}) {
    for (const Vec2& at : rectangle(0.0, 0.0, size.x, size.y)) points.push_back({at.x, at.y, z});
  }
  return points;
}

inline Faces box_faces() {
  return {{3, 2, 1, 0}, {4, 5, 6, 7}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}};
}

inline std::string shell(const std::string& name, const std::string& type, const std::vector<Vec3>& points,
                         const Faces& faces) {
  std::string text = "<" + name + (type.empty() ? std::string() : " xsi:type=\"" + type + "\"") + "><CfsFaces>";
  for (const auto& face : faces) {
    text += "<IfcFace><Bounds><IfcFaceOuterBound Orientation=\"true\"><Bound xsi:type=\"IfcPolyLoop\"><Polygon>";
    for (const std::size_t index : face) text += "<IfcCartesianPoint Coordinates=" + coordinates(points[index]) + "/>";
    text += "</Polygon></Bound></IfcFaceOuterBound></Bounds></IfcFace>";
  }
  return text + "</CfsFaces></" + name + ">";
}

inline std::string brep(const std::vector<Vec3>& points, const Faces& faces) {
  return "<IfcFacetedBrep>" + shell("Outer", "IfcClosedShell", points, faces) + "</IfcFacetedBrep>";
}

inline std::string point_list(const std::vector<Vec3>& points) {
  std::string list;
  for (const Vec3& p : points) list += shortest_text(p.x) + " " + shortest_text(p.y) + " " + shortest_text(p.z) + " ";
  return "<Coordinates xsi:type=\"IfcCartesianPointList3D\" CoordList=\"" + list + "\"/>";
}

inline std::string triangulated(const std::vector<Vec3>& points, const Faces& faces) {
  std::string indices;
  for (const auto& face : faces) {
    for (std::size_t i = 1; i + 1 < face.size(); ++i) {
      for (const std::size_t index : {face[0], face[i], face[i + 1]}) indices += std::to_string(index + 1) + " ";
    }
  }
  return "<IfcTriangulatedFaceSet Closed=\"true\" CoordIndex=\"" + indices + "\">" + point_list(points) +
         "</IfcTriangulatedFaceSet>";
}

inline std::string polygonal(const std::vector<Vec3>& points, const Faces& faces) {
  std::string text;
  for (const auto& face : faces) {
    std::string indices;
    for (const std::size_t index : face) indices += std::to_string(index + 1) + " ";
    text += "<IfcIndexedPolygonalFace CoordIndex=\"" + indices + "\"/>";
  }
  return "<IfcPolygonalFaceSet Closed=\"true\">" + point_list(points) + "<Faces>" + text +
         "</Faces></IfcPolygonalFaceSet>";
}

inline Project project_of(const std::string& text, const IntakeOptions& how = options()) {
  const IntakeResult result = read_export(text, "small.ifcxml", how);
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  return *result.project;
}

/// A panel of a sheet of 2 by 2 m, so that the panel has a size, and a member of this content.
inline std::string export_of_member(const std::string& inside, const std::string& outside = {}) {
  const std::string sheet = "<IfcPlate " + identity("Sheet") + ">" + placed_at({0.0, -0.1, 0.0}) +
                            body_of(extrusion(rectangle_profile(2.0, 0.02), 2.0)) + "</IfcPlate>";
  return export_text(assembly("P-1", sheet + member(inside)), outside);
}

/// The member as it is read.
inline Part part_of(const std::string& inside, const std::string& outside = {}) {
  const Project project = project_of(export_of_member(inside, outside));
  REQUIRE(project.panels.size() == 1);
  REQUIRE(project.panels[0].parts.size() == 2);
  return project.panels[0].parts[1];
}

inline Part part_of_items(const std::string& items) {
  return part_of(body_of(items));
}

}  // namespace panel_dossier::intake_test
