// Names of the standard before ours, and what happens where both stand in an export.
#include "core/intake/claims/standard_names.h"

#include <catch2/catch.hpp>

#include "core/api/support/units.h"
#include "core/api/testing/panels.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using testing::put;

constexpr const char* kHead = "set,property,title,on,measure,unit,range,usual,need,standard,meaning\n";
constexpr const char* kRows =
    "Panel_Timber,StrengthClass,Class,material,IfcLabel,,,,useful,Pset_MaterialWood.StrengthGrade,\n"
    "Panel_Supply,ServiceLife,Life,material,IfcReal,years,0.1..1000,5..200,useful,Pset_ServiceLife.ServiceLifeDuration,"
    "\n"
    "Panel_Fastener,Length,Length,part,IfcPositiveLengthMeasure,m,0..5,0..1,useful,"
    "IfcMechanicalFastener.NominalLength|Pset_MechanicalFastenerAnchorBolt.AnchorBoltLength,\n";

Diagnostics read_names(Project& project) {
  Reporter report("export.xml");
  const auto rows = read_property_lists({{"list.csv", std::string(kHead) + kRows}}, report);
  read_standard_names(project, rows, report);
  return report.take();
}

Project one_material() {
  Project project;
  testing::add_material(project, "Pine", "wood", 420.0, 0.13);
  return project;
}

Property seconds(double years) {
  Property property = testing::property_of(years * units::kSecondPerYear);
  property.unit = "s";
  property.origin = testing::origin_of("IfcPropertySingleValue", "Pset_ServiceLife.ServiceLifeDuration");
  return property;
}

TEST_CASE("what only the standard's property states is read under our name, with its place and in our unit",
          "[intake]") {
  Project project = one_material();
  project.materials[0].properties.add("Pset_ServiceLife", "ServiceLifeDuration", seconds(30.0));
  CHECK(read_names(project).empty());
  const auto life = project.materials[0].properties.number("Panel_Supply", "ServiceLife");
  REQUIRE(life);
  CHECK(life->value == Approx(30.0));
  CHECK(describe(life->origin) ==
        "IfcPropertySingleValue Pset_ServiceLife.ServiceLifeDuration, read as Panel_Supply.ServiceLife, "
        "0000000000000000000001, line 7");
}

TEST_CASE("the standard's property and ours that differ are named both and withheld", "[intake]") {
  Project project = one_material();
  Properties& properties = project.materials[0].properties;
  put(properties, "Pset_MaterialWood", "StrengthGrade", std::string("C24"));
  put(properties, "Panel_Timber", "StrengthClass", std::string("C30"));
  const Diagnostics diagnostics = read_names(project);
  CHECK(
      intake_test::all_of(diagnostics) ==
      "export.xml:7: warning: IfcPropertySingleValue 0000000000000000000001: 'Pset_MaterialWood.StrengthGrade' of "
      "'Pine' is 'C24', but Panel_Timber.StrengthClass of the same is 'C30' (line 7), and is not used; correct one of "
      "them\n");
  CHECK_FALSE(project.materials[0].strength_class());
  CHECK(properties.withheld().size() == 2);
}

TEST_CASE("the standard's property and ours that agree both stay", "[intake]") {
  Project project = one_material();
  Properties& properties = project.materials[0].properties;
  put(properties, "Pset_MaterialWood", "StrengthGrade", std::string("C24"));
  put(properties, "Panel_Timber", "StrengthClass", std::string("C24"));
  properties.add("Pset_ServiceLife", "ServiceLifeDuration", seconds(30.0));
  put(properties, "Panel_Supply", "ServiceLife", 30.0);
  CHECK(read_names(project).empty());
  CHECK(properties.withheld().empty());
  CHECK(describe(properties.text("Panel_Timber", "StrengthClass")->origin).find("read as") == std::string::npos);
}

TEST_CASE("two of the standard's that differ leave ours without a value, and withheld", "[intake]") {
  Project project;
  Panel panel = testing::plain_panel(1.0, 1.0);
  Part part;
  part.name = "Anchor";
  part.properties.add("IfcMechanicalFastener", "NominalLength", {0.12, "m", {}});
  part.properties.add("Pset_MechanicalFastenerAnchorBolt", "AnchorBoltLength", {0.16, "m", {}});
  panel.parts.push_back(std::move(part));
  project.panels.push_back(std::move(panel));
  CHECK(read_names(project).size() == 1);
  const Properties& properties = project.panels[0].parts[0].properties;
  CHECK_FALSE(properties.number("Panel_Fastener", "Length"));
  REQUIRE(properties.withheld().contains("Panel_Fastener.Length"));
  CHECK(
      properties.withheld().at("Panel_Fastener.Length").why.find("is 0.12 m, but Pset_MechanicalFastenerAnchorBolt") !=
      std::string::npos);
}

TEST_CASE("ours is withheld where the standard's is", "[intake]") {
  Project project = one_material();
  Properties& properties = project.materials[0].properties;
  properties.add("Pset_ServiceLife", "ServiceLifeDuration", seconds(3000.0));
  properties.withhold("Pset_ServiceLife.ServiceLifeDuration", "is too long");
  read_names(project);
  REQUIRE(properties.withheld().contains("Panel_Supply.ServiceLife"));
  CHECK(properties.withheld().at("Panel_Supply.ServiceLife").why == "is too long");
}

TEST_CASE("what parts of a material state alike counts for the material, what differs is withheld", "[intake]") {
  for (const double second : {30.0, 40.0}) {
    Project project = one_material();
    Panel panel = testing::plain_panel(1.0, 1.0);
    for (const double years : {30.0, second}) {
      Part part;
      part.material = 0;
      part.properties.add("Pset_ServiceLife", "ServiceLifeDuration", seconds(years));
      panel.parts.push_back(std::move(part));
    }
    project.panels.push_back(std::move(panel));
    const Diagnostics diagnostics = read_names(project);
    const Properties& properties = project.materials[0].properties;
    const bool same = second == 30.0;
    CHECK(diagnostics.size() == (same ? 0U : 1U));
    CHECK(properties.number("Panel_Supply", "ServiceLife").has_value() == same);
    CHECK(properties.withheld().contains("Panel_Supply.ServiceLife") != same);
  }
}

}  // namespace
}  // namespace panel_dossier
