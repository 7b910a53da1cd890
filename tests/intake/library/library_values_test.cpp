// What a library's products put into a project, and what of them is refused or withheld.
#include <catch2/catch.hpp>
#include <string>

#include "tests/intake/library/office_library.h"
#include "tests/support/workbook_bytes.h"

using namespace panel_dossier;
using namespace panel_dossier::intake_test;
using namespace panel_dossier::testing;

namespace {

const std::string kHead = "product,material name,source,day,";

Material bare_material(const std::string& name) {
  Material material;
  material.name = name;
  material.origin = origin_of("IfcMaterial");
  return material;
}

}  // namespace

TEST_CASE("a row fills what the export leaves open, with file, row and source as its origin") {
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("Board"));
  office.add("materials.csv",
             kHead +
                 "Density [kg/m³],Thermal conductivity [W/mK],Pset_MaterialThermal.SpecificHeatCapacity "
                 "[kJ/(kg·K)]\nFine board,board,data sheet 7,2026-03-01,650,0.13,1.7\n");
  INFO(office.told());
  CHECK(office.diagnostics.empty());
  const Material& board = office.project.materials[0];
  REQUIRE(board.density_kg_per_m3());
  CHECK(board.density_kg_per_m3()->value == 650.0);
  CHECK(board.specific_heat_j_per_kgk()->value == Approx(1700.0));
  const Origin origin = board.thermal_conductivity_w_per_mk()->origin;
  CHECK(origin.kind == OriginKind::input_table);
  CHECK(describe(origin) ==
        "../office/materials.csv, row 2, Pset_MaterialThermal.ThermalConductivity (data sheet 7, 2026-03-01)");
  CHECK(board.properties.text("Pset_ManufacturerTypeInformation", "ModelLabel")->value == "Fine board");
  REQUIRE(office.files.size() == 1);
  CHECK(office.files[0].location == "../office/materials.csv");
}

TEST_CASE("fasteners, lifting points and fillings are filled from their own tables") {
  OfficeLibrary office;
  Panel panel = plain_panel(2.4, 2.7);
  add_part(panel, PartKind::fastener, "Lining screws", std::nullopt, {});
  add_part(panel, PartKind::fastener, "Loop", std::nullopt, {}).object_type = "LIFTING_LOOP";
  add_part(panel, PartKind::stud, "Loop", std::nullopt, {});
  add_window(panel, 0.5, 1.5, 0.9, 2.1, std::nullopt);
  office.project.panels.push_back(panel);
  office.write("office/fixings.csv",
               "product;name;source;day;Shank diameter [mm]\nScrew 4x35;Lining screws;sheet 1;2026-03-01;4\n");
  office.write("office/lifting.csv",
               "product;name;source;day;Working load limit [kN]\nStrap;Loop;sheet 2;2026-03-01;7.5\n");
  office.add("windows.csv",
             "product;name pattern;source;day;Window U-value [W/(m²·K)];Mass [kg]\nW;W-*;sheet 3;2026-03-01;0.9;64\n");
  INFO(office.told());
  CHECK(office.diagnostics.empty());
  const Panel& filled = office.project.panels[0];
  CHECK(filled.parts[0].properties.number("Panel_Fastener", "Diameter")->value == Approx(0.004));
  CHECK(filled.parts[1].properties.number("Panel_Fastener", "WorkingLoadLimit")->value == Approx(7500.0));
  CHECK(filled.parts[2].properties.all().empty());
  CHECK(filled.openings[0].filling_properties.number("Pset_WindowCommon", "ThermalTransmittance")->value == 0.9);
}

TEST_CASE("a workbook holds the tables as sheets") {
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("Board"));
  WorkbookBytes book;
  book.sheets["Materials"] = WorkbookBytes::sheet_of(
      WorkbookBytes::row(1, {"product", "material name", "source", "day", "Density [kg/m³]"}) +
      "<row r=\"2\"><c t=\"inlineStr\"><is><t>Fine board</t></is></c><c t=\"inlineStr\"><is><t>Board</t></is></c>"
      "<c t=\"inlineStr\"><is><t>sheet</t></is></c><c s=\"1\"><v>46082</v></c><c><v>650</v></c></row>");
  book.sheets["Notes"] = WorkbookBytes::sheet_of(WorkbookBytes::row(1, {"a", "b"}));
  office.add("office.xlsx", book.bytes());
  CHECK(office.told() ==
        "../office/office.xlsx: warning: sheet 'Notes' is no table of a library and is not read; tables are materials, "
        "boards, fixings, windows, lifting, panels, evidence, people\n");
  const auto density = office.project.materials[0].density_kg_per_m3();
  REQUIRE(density);
  CHECK(density->origin.table == "../office/office.xlsx, sheet 'Materials'");
  CHECK(density->origin.source == "sheet, 2026-03-01");
}

TEST_CASE("what the export says stands, a disagreement is withheld and names both places") {
  OfficeLibrary office;
  add_material(office.project, "Board", "wood", 650.0, 0.13);
  office.project.materials[0].properties = {};
  put(office.project.materials[0].properties, "Pset_MaterialCommon", "MassDensity", 650.0);
  put(office.project.materials[0].properties, "Pset_MaterialThermal", "ThermalConductivity", 0.13);
  office.add("materials.csv",
             kHead + "Density [kg/m³],Thermal conductivity [W/(m·K)]\nB,Board,s,2026-03-01,650.01,0.11\n");
  const Properties& properties = office.project.materials[0].properties;
  CHECK(properties.number("Pset_MaterialCommon", "MassDensity")->value == 650.0);
  CHECK(properties.number("Pset_MaterialCommon", "MassDensity")->origin.kind == OriginKind::export_file);
  CHECK_FALSE(properties.number("Pset_MaterialThermal", "ThermalConductivity"));
  REQUIRE(properties.withheld().contains("Pset_MaterialThermal.ThermalConductivity"));
  CHECK(holds(office.told(), "Pset_MaterialThermal.ThermalConductivity of 'Board' is 0.13"));
  CHECK(holds(office.told(), "and 0.11 W/(m·K) in ../office/materials.csv row 2 (s, 2026-03-01); neither is used"));
}

TEST_CASE("a number of the export that is confirmed stands against the library, which is listed") {
  OfficeLibrary office;
  add_material(office.project, "Board", "wood", 650.0, 0.13);
  office.settings.set("confirmed_values.0.name", std::string("Pset_MaterialThermal.ThermalConductivity"));
  office.settings.set("confirmed_values.0.of", std::string("Board"));
  office.settings.set("confirmed_values.0.value", 0.13);
  office.settings.set("confirmed_values.0.reason", std::string("measured"));
  office.add("materials.csv", kHead + "Thermal conductivity [W/(m·K)]\nB,Board,s,2026-03-01,0.11\n");
  CHECK(office.project.materials[0].thermal_conductivity_w_per_mk()->value == 0.13);
  REQUIRE(office.confirmed.size() == 1);
  CHECK(holds(office.confirmed[0], "although the library says 0.11 W/(m·K) in ../office/materials.csv row 2"));
}

TEST_CASE("the standard's property and ours that says the same contradict each other too") {
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("Stud"));
  put(office.project.materials[0].properties, "Pset_MaterialWood", "StrengthGrade", std::string("C16"));
  office.add("materials.csv", kHead + "Strength class\nTimber,Stud,s,2026-03-01,C24\n");
  CHECK_FALSE(office.project.materials[0].strength_class());
  CHECK(holds(office.told(), "Pset_MaterialWood.StrengthGrade of 'Stud' is 'C16'"));
}

TEST_CASE("a row of another product or maker than the export names is passed over") {
  struct Other {
    const char* name;
    const char* said;
    const char* told;
  };
  const auto other =
      GENERATE(values<Other>({{"ModelLabel", "Coarse board", "its product is 'Coarse board' in the export"},
                              {"Manufacturer", "Another works", "its maker is 'Another works' in the"}}));
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("Board"));
  put(office.project.materials[0].properties, "Pset_ManufacturerTypeInformation", other.name, std::string(other.said));
  office.add("materials.csv", kHead + "Manufacturer,Density [kg/m³]\nFine board,Board,s,2026-03-01,Our works,650\n");
  CHECK_FALSE(office.project.materials[0].density_kg_per_m3());
  CHECK(holds(office.told(), other.told));
  CHECK(holds(office.told(), "../office/materials.csv:2: warning: the row matches 'Board' by its name"));
}

TEST_CASE("two rows that match by one rule are a fault that names both") {
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("Board 12"));
  office.add("materials.csv",
             "product,name pattern,source,day,Density [kg/m³]\nA,Board*,s,2026-03-01,600\nB,*12,s,2026-03-01,700\n");
  CHECK(has_errors(office.diagnostics));
  CHECK(holds(office.told(),
              "../office/materials.csv:3: error: the row matches 'Board 12' by its name pattern, as "
              "../office/materials.csv row 2 does"));
  CHECK_FALSE(office.project.materials[0].density_kg_per_m3());
}

TEST_CASE("a later library goes before an earlier one, and says so") {
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("Board"));
  office.names = {"../office", "../ours"};
  office.write("ours/boards.csv", kHead + "Density [kg/m³]\nOurs,Board,s,2026-03-01,700\n");
  office.add("materials.csv",
             kHead + "Density [kg/m³],Specific heat capacity [J/(kg·K)]\nTheirs,Board,s,2026-03-01,600,1600\n");
  CHECK_FALSE(has_errors(office.diagnostics));
  CHECK(office.project.materials[0].density_kg_per_m3()->value == 700.0);
  CHECK_FALSE(office.project.materials[0].specific_heat_j_per_kgk());
  CHECK(holds(
      office.told(),
      "../office/materials.csv:2: warning: the row matches 'Board' and is passed over: ../ours/boards.csv row 2 of "
      "a library named later does too"));
}

TEST_CASE("rows that serve nothing are counted") {
  OfficeLibrary office;
  office.add("materials.csv", kHead + "Density [kg/m³]\nA,A,s,2026-03-01,600\nB,B,s,2026-03-01,600\n");
  CHECK(
      office.told() ==
      "../office/materials.csv: warning: 2 of 2 rows serve nothing in this project; nothing is to be done, if they are "
      "meant for others\n");
}

TEST_CASE("a library that is wrong is refused at the place of the fault") {
  struct WrongTable {
    const char* label;
    std::string text;
    const char* told;
  };
  const auto wrong = GENERATE(values<WrongTable>({
      {"no unit", kHead + "Density\nA,A,s,2026-03-01,600\n",
       ":1:5: error: column 'Density' names no unit; write it in brackets: Density [kg/m³]"},
      {"another unit", kHead + "Density [W/(m·K)]\nA,A,s,2026-03-01,600\n",
       ":1:5: error: column 'Density' has the unit 'W/(m·K)', which is none of kg/m³"},
      {"a unit of nothing", kHead + "Vapour resistance factor [m]\nA,A,s,2026-03-01,60\n",
       ":1:5: error: column 'Vapour resistance factor' has the unit 'm', but its values have none"},
      {"a unit of a text", kHead + "Strength grade [kN]\nA,A,s,2026-03-01,C24\n",
       ":1:5: error: column 'Strength grade' has the unit 'kN', but its values have none"},
      {"the wrong unit for the values", kHead + "Density [g/cm³]\nA,A,s,2026-03-01,600\n",
       ":2:5: error: column 'Density': '600' cannot be: it goes from 0.5 to 25000 kg/m³"},
      {"one property twice", kHead + "Density [kg/m³],Pset_MaterialCommon.MassDensity [kg/m³]\nA,A,s,2026-03-01,1,1\n",
       ":1:6: error: column 'Pset_MaterialCommon.MassDensity' stands for Pset_MaterialCommon.MassDensity, as 'Density' "
       "does"},
      {"no such day", kHead + "Strength grade\nA,A,s,2026-02-30,C24\n",
       ":2:4: error: column 'day': '2026-02-30' is no day YYYY-MM-DD"},
      {"a day to come", kHead + "Strength grade\nA,A,s,2026-06-02,C24\n",
       ":2:4: error: column 'day': '2026-06-02' lies in the future"},
      {"no day", kHead + "Strength grade\nA,A,s,,C24\n", ":2:4: error: column 'day': is empty"},
      {"no source", kHead + "Strength grade\nA,A,,2026-03-01,C24\n", ":2:3: error: column 'source': is empty"},
      {"no column of sources", "product,day,Strength grade\nA,2026-03-01,C24\n",
       ":1: error: the table has no column 'source'"},
      {"no product", kHead + "Strength grade\n,A,s,2026-03-01,C24\n", ":2:1: error: column 'product': is empty"},
      {"no number", kHead + "Density [kg/m³]\nA,A,s,2026-03-01,heavy\n",
       ":2:5: error: column 'Density': 'heavy' is no number"},
      {"no whole number", kHead + "Service class\nA,A,s,2026-03-01,1.5\n",
       ":2:5: error: column 'Service class': '1.5' is no whole number"},
      {"none of the words", kHead + "Insulation type\nA,A,s,2026-03-01,WOOL\n",
       ":2:5: error: column 'Insulation type': 'WOOL' is none of STONE_WOOL, GLASS_WOOL"},
      {"a pattern of anything", "product,name pattern,source,day\nA,*?*,s,2026-03-01\n",
       ":2:2: error: column 'name pattern': '*?*' is the pattern of any name"},
      {"a product twice", kHead + "Strength grade\nA,A,s,2026-03-01,C24\na,B,s,2026-03-01,C16\n",
       ":3: error: the product 'a' has a row already: ../office/materials.csv row 2"},
      {"a name twice", kHead + "Strength grade\nA,X,s,2026-03-01,C24\nB,x,s,2026-03-01,C16\n",
       ":3: error: the name 'x' has a row already: ../office/materials.csv row 2"},
      {"a table of another separator", "product;material name;source;day\nA,A,s,2026-03-01\n",
       ":2: error: the head row is separated by ';', but no row below has as many fields"},
      {"a decimal comma among commas", kHead + "Density [kg/m³]\nA,A,s,2026-03-01,\"600,5\"\n",
       ":2:5: error: column 'Density': '600,5' has a comma where commas separate the fields"},
  }));
  INFO(wrong.label);
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("A"));
  office.add("materials.csv", wrong.text);
  INFO(office.told());
  CHECK(has_errors(office.diagnostics));
  CHECK(holds(office.told(), std::string("../office/materials.csv") + wrong.told));
  CHECK_FALSE(office.project.materials[0].density_kg_per_m3());
}

TEST_CASE("a column that no property has is named and left out") {
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("A"));
  office.add("materials.csv", kHead + "Price,Density [kg/m³]\nA,A,s,2026-03-01,12,600\n");
  CHECK(office.told() ==
        "../office/materials.csv:1:5: warning: column 'Price' is no property that is known of a material, and is not "
        "read; see schemas/library.md for the columns\n");
  CHECK(office.project.materials[0].density_kg_per_m3());
}

TEST_CASE("a library says what a material is where the export does not, of one that is two things nothing is used") {
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("B 12"));
  office.project.materials.push_back(bare_material("G 15"));
  office.project.materials[1].category = "gypsum";
  office.add("boards.csv", kHead +
                               "category,Density [kg/m³]\nBoard,B 12,list,2026-03-01,OSB,620\n"
                               "Plaster,G 15,list,2026-03-01,cement,880\n");
  CHECK(office.project.materials[0].category == "wood");
  CHECK(office.project.materials[1].category == "gypsum");
  CHECK(holds(office.told(),
              "../office/boards.csv:3: warning: category of 'G 15' is 'gypsum' in the export and 'cement' in "
              "../office/boards.csv row 3; nothing that is said of it is used; correct one of them"));
  CHECK(office.project.materials[0].density_kg_per_m3());
  CHECK_FALSE(office.project.materials[1].density_kg_per_m3());
}

TEST_CASE("a category of no kind of material is refused") {
  OfficeLibrary office;
  office.project.materials.push_back(bare_material("B 12"));
  office.add("boards.csv", kHead + "category,Density [kg/m³]\nBoard,B 12,list,2026-03-01,wodo,62\n");
  CHECK(has_errors(office.diagnostics));
  CHECK(
      holds(office.told(),
            "../office/boards.csv:2:5: error: column 'category': 'wodo' is no kind of material; write one of the words "
            "of schemas/material_kinds.csv"));
}
