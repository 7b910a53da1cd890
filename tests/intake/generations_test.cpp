// One hall with one panel, written the way each generation and form writes it: the model must not tell them apart.
#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>

#include "tests/intake/project_text.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using intake_test::all_of;
using intake_test::describe;
using intake_test::file_text;
using intake_test::read_text;

Project read(const std::string& name) {
  const IntakeResult result = read_text(file_text(name));
  INFO(name << "\n" << all_of(result.diagnostics));
  CHECK(result.diagnostics.empty());
  REQUIRE(result.project);
  return *result.project;
}

TEST_CASE("each generation names itself", "[intake]") {
  CHECK(read_text(file_text("hall-ifc2x3.ifcxml")).schema_version == "IFC2x3 TC1");
  CHECK(read_text(file_text("hall-ifc4-nested.ifcxml")).schema_version == "IFC4 ADD2 TC1");
  CHECK(read_text(file_text("hall-ifc4x3-nested.ifcxml")).schema_version == "IFC4X3 ADD2");
}

TEST_CASE("the STEP form of a generation gives the same model as its XML form", "[intake]") {
  for (const std::string name : {"hall-ifc2x3", "hall-ifc4", "hall-ifc4x3"}) {
    const std::string xml = name == "hall-ifc2x3" ? name : name + "-nested";
    CHECK(describe(read(name + ".ifc")) == describe(read(xml + ".ifcxml")));
    CHECK(read_text(file_text(name + ".ifc")).schema_version == read_text(file_text(xml + ".ifcxml")).schema_version);
  }
}

TEST_CASE("IFC2x3 and IFC4 give the same model", "[intake]") {
  CHECK(describe(read("hall-ifc2x3.ifcxml")) == describe(read("hall-ifc4-nested.ifcxml")));
}

TEST_CASE("IFC4X3 with a prefix and in metres gives the same model as IFC4 in millimetres", "[intake]") {
  CHECK(describe(read("hall-ifc4x3-nested.ifcxml")) == describe(read("hall-ifc4-nested.ifcxml")));
}

TEST_CASE("flat IFC4 in metres gives the same model as nested IFC4 in millimetres", "[intake]") {
  const Project flat = read("hall-ifc4-flat-metres.ifcxml");
  const Project nested = read("hall-ifc4-nested.ifcxml");
  // Materials stand in file order, which the two forms do not share.
  REQUIRE(flat.materials.size() == nested.materials.size());
  REQUIRE(flat.panels.size() == 1);
  const Panel& a = flat.panels.front();
  const Panel& b = nested.panels.front();
  REQUIRE(a.parts.size() == b.parts.size());
  for (std::size_t i = 0; i < a.parts.size(); ++i) {
    std::ostringstream text_a;
    std::ostringstream text_b;
    describe(text_a, a.parts[i]);
    describe(text_b, b.parts[i]);
    CHECK(text_a.str() == text_b.str());
    CHECK((a.parts[i].material ? flat.materials[*a.parts[i].material].name : "") ==
          (b.parts[i].material ? nested.materials[*b.parts[i].material].name : ""));
  }
  CHECK(a.properties.all().size() == b.properties.all().size());
}

TEST_CASE("a panel whose layers start outside is turned so that y runs from inside to outside", "[intake]") {
  const Project project = read("hall-ifc4-nested.ifcxml");
  const Panel& panel = project.panels.front();
  // By hand: the wall stands at (110, 220, 3) with its x axis along the world's y; the outer face is at local y = 0,
  // so the inner face is at local y = 0.165 and the frame starts at its far end, x = 2.4: world (109.835, 222.4, 3).
  CHECK(panel.outside_known);
  CHECK(panel.frame.origin.x == Approx(109.835));
  CHECK(panel.frame.origin.y == Approx(222.4));
  CHECK(panel.frame.origin.z == Approx(3.0));
  CHECK(panel.frame.y_axis.x == Approx(1.0));
  CHECK(panel.frame.x_axis.y == Approx(-1.0));
  REQUIRE(panel.layers.size() == 4);
  CHECK(panel.layers.front().name == "Gypsum board");
  CHECK(panel.layers.front().category == "lining");
  CHECK(panel.layers.back().y_outside_m == Approx(0.165));
}

TEST_CASE("sizes, volumes and quantities are in SI units with their origin", "[intake]") {
  const Project project = read("hall-ifc4-nested.ifcxml");
  const Panel& panel = project.panels.front();
  CHECK(panel.width_m.value == Approx(2.4));
  CHECK(panel.height_m.value == Approx(2.7));
  CHECK(panel.thickness_m.value == Approx(0.165));
  CHECK(panel.properties.number("Panel_FireEvidence", "MaxHeight")->value == Approx(4.0));
  CHECK(panel.properties.find("Panel_FireEvidence", "MaxHeight")->unit == "m");
  CHECK(panel.properties.number("Qto_WallBaseQuantities", "Length")->value == Approx(2.4));
  CHECK(panel.load_bearing()->value == false);
  CHECK(project.materials.front().density_kg_per_m3().has_value());
  // The sheathing is an L: 2.4 x 2.7 less 1.5 x 1.8, 12 mm thick.
  CHECK(panel.parts[5].volume_m3->value == Approx((2.4 * 2.7 - 1.5 * 1.8) * 0.012));
  CHECK(panel.parts[9].count == 120);
  CHECK(panel.origin.line > 0);
  CHECK(panel.parts[2].origin.global_id == panel.parts[2].global_id);
}

TEST_CASE("a window in its opening is placed as seen from inside", "[intake]") {
  const Panel panel = read("hall-ifc4-nested.ifcxml").panels.front();
  REQUIRE(panel.openings.size() == 1);
  // 0.3 m from the left edge seen from outside, 1.2 m wide, in a panel of 2.4 m: 0.9 m seen from inside.
  CHECK(panel.openings[0].x_min_m == Approx(0.9));
  CHECK(panel.openings[0].x_max_m == Approx(2.1));
  CHECK(panel.openings[0].filling_entity == "IfcWindow");
  CHECK(panel.openings[0].filling_properties.number("Pset_WindowCommon", "ThermalTransmittance")->value == Approx(1.2));
}

TEST_CASE("true north is read as an angle from the project's y axis", "[intake]") {
  // Direction (sin 30°, cos 30°) lies 30° clockwise of y.
  CHECK(read("hall-ifc4-nested.ifcxml").true_north_rad == Approx(-std::acos(-1.0) / 6.0));
}

TEST_CASE("evidence inside the project folder is present and belongs to its panel", "[intake]") {
  const Project project = read("hall-ifc2x3.ifcxml");
  REQUIRE(project.evidence.size() == 1);
  CHECK(project.evidence[0].id == "T-1");
  CHECK(project.evidence[0].status == EvidenceStatus::present);
  CHECK(project.panels.front().evidence == std::vector<std::size_t>{0});
  // What a plugin reads beside the export stands in this folder.
  CHECK(std::filesystem::path(project.folder).is_absolute());
  CHECK(std::filesystem::exists(std::filesystem::path(project.folder) / project.evidence[0].location));
}

}  // namespace
}  // namespace panel_dossier
