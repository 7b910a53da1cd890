// The same shapes in the STEP form, whose lists and typed parameters are written otherwise.
#include <catch2/catch.hpp>
#include <numbers>

#include "tests/intake/shapes/small_export.h"

namespace panel_dossier {

using namespace intake_test;

namespace {

/// The member of a panel whose body is instance #100, which these lines give; lengths in m, angles in rad.
Part part_of_step(const std::string& lines) {
  const std::string text =
      "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\n"
      "FILE_NAME('small','2026-03-01T12:00:00',(''),(''),'','','');\nFILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n"
      "#1=IFCPROJECT('" +
      global_id() +
      "',$,'Small',$,$,$,$,(#5),#2);\n#2=IFCUNITASSIGNMENT((#3,#4));\n#3=IFCSIUNIT(*,.LENGTHUNIT.,$,.METRE.);\n"
      "#4=IFCSIUNIT(*,.PLANEANGLEUNIT.,$,.RADIAN.);\n#5=IFCGEOMETRICREPRESENTATIONCONTEXT($,'Model',3,$,#6,$);\n"
      "#6=IFCAXIS2PLACEMENT3D(#7,$,$);\n#7=IFCCARTESIANPOINT((0.,0.,0.));\n#8=IFCDIRECTION((0.,0.,1.));\n"
      "#10=IFCELEMENTASSEMBLY('" +
      global_id() + "',$,'P',$,$,$,$,'P',$,$);\n#11=IFCRELAGGREGATES('" + global_id() +
      "',$,$,$,#10,(#20,#40));\n#20=IFCPLATE('" + global_id() +
      "',$,'Sheet',$,$,$,#21,$,$);\n#21=IFCPRODUCTDEFINITIONSHAPE($,$,(#22));\n"
      "#22=IFCSHAPEREPRESENTATION(#5,'Body','SweptSolid',(#23));\n#23=IFCEXTRUDEDAREASOLID(#24,#6,#8,2.);\n"
      "#24=IFCRECTANGLEPROFILEDEF(.AREA.,$,#25,2.,0.02);\n#25=IFCAXIS2PLACEMENT2D(#26,$);\n"
      "#26=IFCCARTESIANPOINT((1.,-0.1));\n#40=IFCMEMBER('" +
      global_id() +
      "',$,'Stud',$,$,$,#41,$,.STUD.);\n#41=IFCPRODUCTDEFINITIONSHAPE($,$,(#42));\n"
      "#42=IFCSHAPEREPRESENTATION(#5,'Body','SolidModel',(#100));\n" +
      lines + "ENDSEC;\nEND-ISO-10303-21;\n";
  const Project project = project_of(text);
  REQUIRE(project.panels.size() == 1);
  REQUIRE(project.panels[0].parts.size() == 2);
  return project.panels[0].parts[1];
}

double step_volume(const Part& part) {
  REQUIRE(part.volume_m3);
  return part.volume_m3->value;
}

}  // namespace

TEST_CASE("STEP: arcs of an indexed curve are typed lists", "[shapes]") {
  const Part part = part_of_step(
      "#100=IFCEXTRUDEDAREASOLID(#101,#6,#8,0.1);\n#101=IFCARBITRARYCLOSEDPROFILEDEF(.AREA.,$,#102);\n"
      "#102=IFCINDEXEDPOLYCURVE(#103,(IFCLINEINDEX((1,2)),IFCARCINDEX((2,3,1))),.F.);\n"
      "#103=IFCCARTESIANPOINTLIST2D(((-0.5,0.),(0.5,0.),(0.,0.5)));\n");
  CHECK(step_volume(part) == Approx(std::numbers::pi / 8.0 * 0.1).epsilon(2e-4));
  CHECK(part.solid);
}

TEST_CASE("STEP: an arc is trimmed by parameters, or by points beside them", "[shapes]") {
  const auto half_disc = [](const std::string& trims) {
    return "#100=IFCEXTRUDEDAREASOLID(#101,#6,#8,0.1);\n#101=IFCARBITRARYCLOSEDPROFILEDEF(.AREA.,$,#102);\n"
           "#102=IFCCOMPOSITECURVE((#103,#104),.F.);\n#103=IFCCOMPOSITECURVESEGMENT(.CONTINUOUS.,.T.,#105);\n"
           "#104=IFCCOMPOSITECURVESEGMENT(.CONTINUOUS.,.T.,#106);\n#105=IFCPOLYLINE((#107,#108));\n"
           "#106=IFCTRIMMEDCURVE(#109," +
           trims +
           ",.T.,.PARAMETER.);\n#107=IFCCARTESIANPOINT((-0.5,0.));\n#108=IFCCARTESIANPOINT((0.5,0.));\n"
           "#109=IFCCIRCLE(#110,0.5);\n#110=IFCAXIS2PLACEMENT2D(#111,$);\n#111=IFCCARTESIANPOINT((0.,0.));\n";
  };
  for (const char* trims : {"(IFCPARAMETERVALUE(0.)),(IFCPARAMETERVALUE(3.141592653589793))",
                            "(#108,IFCPARAMETERVALUE(0.)),(#107,IFCPARAMETERVALUE(3.141592653589793))"}) {
    CHECK(step_volume(part_of_step(half_disc(trims))) == Approx(std::numbers::pi / 8.0 * 0.1).epsilon(2e-4));
  }
}

TEST_CASE("STEP: face sets are lists of lists, with holes and without", "[shapes]") {
  const std::string box =
      "#101=IFCCARTESIANPOINTLIST3D(((0.,0.,0.),(0.2,0.,0.),(0.2,0.2,0.),(0.,0.2,0.),(0.,0.,1.),"
      "(0.2,0.,1.),(0.2,0.2,1.),(0.,0.2,1.)));\n";
  const Part triangles = part_of_step(
      "#100=IFCTRIANGULATEDFACESET(#101,$,.T.,((4,3,2),(4,2,1),(5,6,7),(5,7,8),(1,2,6),(1,6,5),(2,3,7),(2,7,6),(3,4,8),"
      "(3,8,7),(4,1,5),(4,5,8)),$);\n" +
      box);
  CHECK(step_volume(triangles) == Approx(0.04));
  CHECK(triangles.solid);
  // A tube: the same box with a hole of 0.1 x 0.1 m from end to end.
  const Part tube = part_of_step(
      "#100=IFCPOLYGONALFACESET(#101,.T.,(#110,#111,#112,#113,#114,#115,#116,#117,#118,#119),$);\n"
      "#101=IFCCARTESIANPOINTLIST3D(((0.,0.,0.),(0.2,0.,0.),(0.2,0.2,0.),(0.,0.2,0.),(0.,0.,1.),(0.2,0.,1.),"
      "(0.2,0.2,1.),(0.,0.2,1.),(0.05,0.05,0.),(0.15,0.05,0.),(0.15,0.15,0.),(0.05,0.15,0.),(0.05,0.05,1.),"
      "(0.15,0.05,1.),(0.15,0.15,1.),(0.05,0.15,1.)));\n"
      "#110=IFCINDEXEDPOLYGONALFACE((1,2,6,5));\n#111=IFCINDEXEDPOLYGONALFACE((2,3,7,6));\n"
      "#112=IFCINDEXEDPOLYGONALFACE((3,4,8,7));\n#113=IFCINDEXEDPOLYGONALFACE((4,1,5,8));\n"
      "#114=IFCINDEXEDPOLYGONALFACE((10,9,13,14));\n#115=IFCINDEXEDPOLYGONALFACE((11,10,14,15));\n"
      "#116=IFCINDEXEDPOLYGONALFACE((12,11,15,16));\n#117=IFCINDEXEDPOLYGONALFACE((9,12,16,13));\n"
      "#118=IFCINDEXEDPOLYGONALFACEWITHVOIDS((4,3,2,1),((9,10,11,12)));\n"
      "#119=IFCINDEXEDPOLYGONALFACEWITHVOIDS((5,6,7,8),((16,15,14,13)));\n");
  CHECK(step_volume(tube) == Approx(0.03));
  CHECK_FALSE(tube.solid);
}

TEST_CASE("STEP: a clipped extrusion and a mirrored copy", "[shapes]") {
  const std::string clipped =
      "IFCBOOLEANCLIPPINGRESULT(.DIFFERENCE.,#121,#122);\n#121=IFCEXTRUDEDAREASOLID(#123,#6,#8,1.7);\n"
      "#122=IFCHALFSPACESOLID(#125,.F.);\n#123=IFCRECTANGLEPROFILEDEF(.AREA.,$,#124,0.1,0.1);\n"
      "#124=IFCAXIS2PLACEMENT2D(#127,$);\n#125=IFCPLANE(#126);\n#126=IFCAXIS2PLACEMENT3D(#128,$,$);\n"
      "#127=IFCCARTESIANPOINT((0.05,0.05));\n#128=IFCCARTESIANPOINT((0.,0.,1.));\n";
  const Part part = part_of_step("#100=" + clipped);
  CHECK(step_volume(part) == Approx(0.01));
  REQUIRE(part.solid);
  CHECK(part.bounds->size().z == Approx(1.0));
  const Part mapped = part_of_step(
      "#100=IFCMAPPEDITEM(#130,#131);\n#130=IFCREPRESENTATIONMAP(#6,#132);\n"
      "#131=IFCCARTESIANTRANSFORMATIONOPERATOR3D(#133,#134,#7,$,#8);\n"
      "#132=IFCSHAPEREPRESENTATION(#5,'Body','Clipping',(#135));\n#133=IFCDIRECTION((1.,0.,0.));\n"
      "#134=IFCDIRECTION((0.,-1.,0.));\n#135=" +
      clipped);
  CHECK(step_volume(mapped) == Approx(0.01));
  CHECK(mapped.solid);
}

}  // namespace panel_dossier
