// Which elements of an export are panels: without rules, and by the rules of the settings.
#include "core/intake/panels/panel_rules.h"

#include <catch2/catch.hpp>
#include <map>

#include "core/intake/inputs.h"
#include "core/intake/settings/settings_reader.h"
#include "tests/intake/shapes/small_export.h"

namespace panel_dossier {

using namespace intake_test;

namespace {

std::string wall_body() {
  return body_of(extrusion(rectangle_profile(2.0, 0.2), 2.5));
}

/// A material layer set of 0.2 m, by its id; written once, beside the project.
std::string layer_set(const std::string& id, const std::string& name) {
  return "<IfcMaterialLayerSet id=\"" + id + "\" LayerSetName=\"" + name +
         "\"><MaterialLayers><IfcMaterialLayer LayerThickness=\"0.2\"><Material Name=\"Clay " + id +
         "\"/></IfcMaterialLayer></MaterialLayers></IfcMaterialLayerSet>";
}

std::string with_layers(const std::string& set) {
  return "<HasAssociations><IfcRelAssociatesMaterial GlobalId=\"" + global_id() +
         "\"><RelatingMaterial xsi:type=\"IfcMaterialLayerSetUsage\" LayerSetDirection=\"axis2\" "
         "DirectionSense=\"positive\" OffsetFromReferenceLine=\"0.\"><ForLayerSet xsi:nil=\"true\" ref=\"" +
         set + "\"/></RelatingMaterial></IfcRelAssociatesMaterial></HasAssociations>";
}

std::string with_set(const std::string& set, const std::string& property, const std::string& value) {
  return "<IsDefinedBy><IfcRelDefinesByProperties GlobalId=\"" + global_id() +
         "\"><RelatingPropertyDefinition><IfcPropertySet GlobalId=\"" + global_id() + "\" Name=\"" + set +
         "\"><HasProperties><IfcPropertySingleValue Name=\"" + property + "\"><NominalValue>" + value +
         "</NominalValue></IfcPropertySingleValue></HasProperties></IfcPropertySet></RelatingPropertyDefinition>"
         "</IfcRelDefinesByProperties></IsDefinedBy>";
}

std::string with_classification(const std::string& identification, const std::string& name) {
  return "<HasAssociations><IfcRelAssociatesClassification GlobalId=\"" + global_id() +
         "\"><RelatingClassification xsi:type=\"IfcClassificationReference\" Identification=\"" + identification +
         "\" Name=\"" + name + "\"/></IfcRelAssociatesClassification></HasAssociations>";
}

std::string wall(const std::string& mark, const std::string& inside, const std::string& type = {}) {
  return "<IfcWall " + identity(mark) + " ObjectType=\"" + type + "\">" + wall_body() + inside + "</IfcWall>";
}

std::string framed(const std::string& mark) {
  return assembly(mark, "<IfcPlate " + identity("Sheet") + ">" + body_of(extrusion(rectangle_profile(2.0, 0.2), 2.5)) +
                            "</IfcPlate>");
}

struct Chosen {
  std::string marks;
  std::map<std::string, std::size_t> in;
  std::map<std::string, std::size_t> out;
  std::string diagnostics;
  bool is_read = false;
};

Chosen chosen(const std::string& text, const std::string& rules = {}) {
  IntakeOptions how = options();
  how.default_layer_order = LayerOrder::inside_to_outside;
  if (!rules.empty()) {
    const SettingsResult settings = read_settings("{\"intake\": {\"panels\": " + rules + "}}", "settings.json");
    INFO(all_of(settings.diagnostics));
    REQUIRE(settings.diagnostics.empty());
    const SettingsSchema schema(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas/settings.schema.json");
    const Diagnostics faults = schema.faults_of(settings.settings, "settings.json");
    INFO(all_of(faults));
    REQUIRE(faults.empty());
    how.panel_rules = panel_rules(settings.settings);
  }
  const IntakeResult result = read_export(text, "small.ifcxml", how);
  Chosen found;
  found.diagnostics = all_of(result.diagnostics);
  found.is_read = result.project.has_value();
  for (const ChoiceCount& count : result.panel_choice) {
    (count.is_panel ? found.in : found.out)[count.reason] += count.elements;
  }
  if (!result.project) return found;
  for (const Panel& panel : result.project->panels) found.marks += (found.marks.empty() ? "" : " ") + panel.mark;
  return found;
}

std::string many_walls() {
  return export_text(
      wall("A", with_layers("outer"), "EW-100") + wall("B", with_layers("inner"), "IW-50") +
          wall("C", with_set("Pset_WallCommon", "IsExternal", "<IfcBoolean-wrapper>true</IfcBoolean-wrapper>"),
               "EW-200") +
          wall("D", with_classification("Ss_25_10", "Framed wall")),
      layer_set("outer", "Outer wall") + layer_set("inner", "Inner wall"),
      wall("E", with_set("Pset_WallCommon", "IsExternal", "<IfcBoolean-wrapper>false</IfcBoolean-wrapper>")) +
          "<IfcBuildingElementProxy " + identity("F") + ">" + wall_body() + "</IfcBuildingElementProxy>");
}

}  // namespace

TEST_CASE("the order of layers is one of two words, or a fault that names them", "[intake]") {
  Diagnostics faults;
  Settings settings;
  CHECK_FALSE(layer_order_setting(settings, faults));
  settings.set("intake.layer_order", std::string("inside_to_outside"));
  CHECK(layer_order_setting(settings, faults) == LayerOrder::inside_to_outside);
  settings.set("intake.layer_order", std::string("outside_to_inside"));
  CHECK(layer_order_setting(settings, faults) == LayerOrder::outside_to_inside);
  CHECK(faults.empty());
  settings.set("intake.layer_order", std::string("inwards"));
  CHECK_FALSE(layer_order_setting(settings, faults));
  REQUIRE(faults.size() == 1);
  CHECK_THAT(faults.front().advice, Catch::Contains("'inside_to_outside' or 'outside_to_inside'"));
}

TEST_CASE("what decomposes into parts is a panel, and walls beside it are not", "[rules]") {
  const Chosen found =
      chosen(export_text(framed("P") + wall("W", with_layers("outer")), layer_set("outer", "Outer wall")));
  CHECK(found.marks == "P");
  CHECK(found.in.at("decomposes into parts") == 1);
  CHECK(found.out.at("a wall of layers alone, beside panels with parts or properties") == 1);
}

TEST_CASE("a property set of ours makes a wall a panel", "[rules]") {
  const Chosen found = chosen(
      export_text(wall("P", with_set("Panel_Identity", "Mark", "<IfcIdentifier-wrapper>P</IfcIdentifier-wrapper>")) +
                  wall("W", "")));
  INFO(found.diagnostics);
  CHECK(found.marks == "P");
  CHECK(found.in.at("carries a property set Panel_…") == 1);
  CHECK(found.out.at("neither parts nor properties of a panel nor layers") == 1);
}

TEST_CASE("results that were written back make no wall a panel before others", "[rules]") {
  const std::string results = with_set("Panel_Results", "Verdict", "<IfcLabel-wrapper>pass</IfcLabel-wrapper>");
  const Chosen found = chosen(export_text(wall("A", results + with_layers("outer")) + wall("B", with_layers("outer")),
                                          layer_set("outer", "Outer wall")));
  INFO(found.diagnostics);
  CHECK(found.marks == "A B");
}

TEST_CASE("walls with layers that no rule leaves out are named by kind", "[rules]") {
  const std::string text =
      export_text(framed("P") + wall("V", with_layers("outer"), "EW-100") + wall("W", with_layers("outer")),
                  layer_set("outer", "Outer wall"));
  CHECK(chosen(text).diagnostics.find("left out: 2 (1 of type 'EW-100', 1 of type 'Outer wall')") != std::string::npos);
  const std::string rule = R"([{"use": "exclude", "entity": "IfcWall"}])";
  CHECK(chosen(text, rule).diagnostics.find("left out") == std::string::npos);
}

TEST_CASE("in an export without parts the walls with layers are panels", "[rules]") {
  const Chosen found = chosen(many_walls());
  CHECK(found.marks == "A B");
  CHECK(found.in.at("a wall with layers, in an export without parts") == 2);
  CHECK(found.out.at("neither parts nor properties of a panel nor layers") == 3);
}

TEST_CASE("an export without panels says what was left out, and how to name panels", "[rules]") {
  const Chosen found = chosen(export_text(wall("W", "")));
  CHECK_FALSE(found.is_read);
  CHECK(found.diagnostics.find("the project has no panels: 1 left out (neither parts nor properties of a panel nor "
                               "layers)") != std::string::npos);
  CHECK(found.diagnostics.find("intake.panels") != std::string::npos);
}

TEST_CASE("the first rule that an element fits decides, whatever it is by", "[rules]") {
  const std::string text = many_walls();
  CHECK(chosen(text, R"([{"use": "include", "type_name": "ew-*"}])").marks == "A C");
  CHECK(chosen(text, R"([{"use": "include", "type_name": "EW-?00"}])").marks == "A C");
  CHECK(chosen(text, R"([{"use": "exclude", "type_name": "EW-200"}, {"use": "include", "type_name": "EW*"}])").marks ==
        "A");
  CHECK(chosen(text, R"([{"use": "include", "classification": "Ss_25*"}])").marks == "D");
  CHECK(chosen(text, R"([{"use": "include", "classification": "framed wall"}])").marks == "D");
  CHECK(chosen(text, R"([{"use": "include", "property": "Pset_WallCommon.IsExternal", "equals": true}])").marks == "C");
  CHECK(chosen(text, R"([{"use": "include", "property": "Pset_WallCommon.IsExternal"}])").marks == "C E");
  CHECK(chosen(text, R"([{"use": "include", "storey": "First*"}])").marks == "E");
  CHECK(chosen(text, R"([{"use": "include", "layer_set": "inner*"}])").marks == "B");
  CHECK(chosen(text, R"([{"use": "include", "entity": "IfcBuildingElementProxy"}])").marks == "F");
  // Rules that exclude alone leave the rest to the ways of an export without rules.
  CHECK(chosen(text, R"([{"use": "exclude", "layer_set": "Inner*"}])").marks == "A");
  // All conditions of a rule must hold.
  CHECK(chosen(text, R"([{"use": "include", "type_name": "EW*", "layer_set": "Outer*"}])").marks == "A");
}

TEST_CASE("each rule tells how many elements it took in or left out", "[rules]") {
  const Chosen found =
      chosen(many_walls(), R"([{"use": "exclude", "type_name": "EW-2*"}, {"use": "include", "type_name": "EW*"}])");
  CHECK(found.out.at("rule 1 (exclude type_name 'EW-2*')") == 1);
  CHECK(found.in.at("rule 2 (include type_name 'EW*')") == 1);
  CHECK(found.out.at("no rule fits") == 3);
}

TEST_CASE("an element is looked at once, however many rules name its entity", "[rules]") {
  const Chosen found =
      chosen(many_walls(), R"([{"use": "exclude", "entity": "IfcBuildingElementProxy", "storey": "Cellar"},
      {"use": "include", "entity": "IfcBuildingElementProxy"}, {"use": "include", "entity": "IfcWall"}])");
  CHECK(found.marks == "A B C D E F");
  CHECK(found.in.at("rule 2 (include entity 'IfcBuildingElementProxy')") == 1);
  CHECK(found.in.at("rule 3 (include entity 'IfcWall')") == 5);
}

TEST_CASE("a rule that decides on nothing is named", "[rules]") {
  const Chosen found =
      chosen(many_walls(), R"([{"use": "include", "type_name": "EW*"}, {"use": "exclude", "storey": "Cellar"}])");
  CHECK(found.diagnostics.find("rule 2 (exclude storey 'Cellar') of the setting intake.panels decides on no element") !=
        std::string::npos);
  CHECK(found.diagnostics.find("rule 1") == std::string::npos);
}

TEST_CASE("rules that are wrong are refused by the schema of the settings", "[rules]") {
  const SettingsSchema schema(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas/settings.schema.json");
  for (const char* rules :
       {R"([{"type_name": "EW*"}])", R"([{"use": "maybe"}])", R"([{"use": "include", "entity": "IfcDoor"}])",
        R"([{"use": "include", "property": "IsExternal"}])", R"([{"use": "include", "storey": ""}])"}) {
    INFO(rules);
    const SettingsResult settings =
        read_settings("{\"intake\": {\"panels\": " + std::string(rules) + "}}", "settings.json");
    CHECK(has_errors(schema.faults_of(settings.settings, "settings.json")));
  }
}

TEST_CASE("a panel names how it and its type are classified", "[rules]") {
  const Project project = project_of(many_walls(), [] {
    IntakeOptions how = options();
    PanelRule rule;
    rule.classification = "Ss*";
    how.panel_rules = {rule};
    return how;
  }());
  REQUIRE(project.panels.size() == 1);
  CHECK(project.panels[0].classifications == std::vector<std::string>{"Ss_25_10"});
}

TEST_CASE("materials are named after what all their parts say", "[rules]") {
  const auto stud = [](const std::string& article, const std::string& material) {
    return "<IfcMember " + identity("Stud") + " PredefinedType=\"stud\">" +
           body_of(extrusion(rectangle_profile(0.1, 0.1), 2.0)) +
           with_set("Pset_ManufacturerTypeInformation", "ArticleNumber",
                    "<IfcIdentifier-wrapper>" + article + "</IfcIdentifier-wrapper>") +
           "<HasAssociations><IfcRelAssociatesMaterial GlobalId=\"" + global_id() +
           "\"><RelatingMaterial xsi:type=\"IfcMaterial\" xsi:nil=\"true\" ref=\"" + material +
           "\"/></IfcRelAssociatesMaterial><IfcRelAssociatesClassification GlobalId=\"" + global_id() +
           "\"><RelatingClassification xsi:type=\"IfcClassificationReference\" Identification=\"Pr_" + article +
           "\"/></IfcRelAssociatesClassification></HasAssociations></IfcMember>";
  };
  const std::string sheet =
      "<IfcPlate " + identity("Sheet") + ">" + body_of(extrusion(rectangle_profile(2.0, 0.2), 2.5)) + "</IfcPlate>";
  const std::string materials = "<IfcMaterial id=\"pine\" Name=\"Pine\"/><IfcMaterial id=\"oak\" Name=\"Oak\"/>";
  const Project project = project_of(export_text(
      assembly("P", sheet + stud("45", "pine") + stud("45", "pine") + stud("60", "oak") + stud("70", "oak")),
      materials));
  REQUIRE(project.materials.size() == 2);
  CHECK(project.materials[0].article_number == "45");
  CHECK(project.materials[0].classification == "Pr_45");
  // One material in two products is neither of them.
  CHECK(project.materials[1].article_number.empty());
  CHECK(project.materials[1].classification.empty());
}

}  // namespace panel_dossier
