// Which files of a library are read, its documents, declarations and people.
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "tests/intake/library/office_library.h"

using namespace panel_dossier;
using namespace panel_dossier::intake_test;
using namespace panel_dossier::testing;

namespace {

/// A material that names its declaration by this id or, without one, by this product.
void add_declared(Project& project, const std::string& id, const std::string& product = {}) {
  Material material;
  material.name = "Board";
  material.origin = origin_of("IfcMaterial");
  if (!id.empty()) put(material.properties, "Panel_EnvironmentalDeclaration", "DocumentId", id);
  if (!product.empty()) {
    put(material.properties, "Panel_EnvironmentalDeclaration", "Product", product);
  }
  project.materials.push_back(std::move(material));
}

std::string data_set(const std::string& uuid, const std::string& number, const std::string& product) {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<p:processDataSet xmlns:p=\"http://lca.jrc.it/ILCD/Process\" "
         "xmlns:c=\"http://lca.jrc.it/ILCD/Common\"><p:processInformation><p:dataSetInformation><c:UUID>" +
         uuid + "</c:UUID><p:name><p:baseName xml:lang=\"de\">Platte</p:baseName><p:baseName xml:lang=\"en\">" +
         product +
         "</p:baseName></p:name></p:dataSetInformation></p:processInformation><p:administrativeInformation>"
         "<p:publicationAndOwnership><c:registrationNumber>" +
         number +
         "</c:registrationNumber></p:publicationAndOwnership></p:administrativeInformation></p:processDataSet>\n";
}

}  // namespace

TEST_CASE("a setting that names no library is refused") {
  struct WrongName {
    const char* name;
    const char* told;
  };
  const auto wrong = GENERATE(values<WrongName>({
      {"../nowhere", "library.0: '../nowhere' is not there"},
      {"/etc", "library.0: '/etc' is no path relative to the settings"},
      {"https://example.org/library", "library.0: 'https://example.org/library' is no path relative to the settings"},
      {"../empty", "library.0: '../empty' holds no table of a library"},
      {"../materials.txt", "this is neither a .csv nor a .xlsx file"},
  }));
  OfficeLibrary office;
  office.write("empty/readme.txt", "nothing");
  office.write("materials.txt", "product\n");
  office.names = {wrong.name};
  office.add();
  INFO(office.told());
  CHECK(has_errors(office.diagnostics));
  CHECK(holds(office.told(), wrong.told));
}

TEST_CASE("a library is named once, and has each table once") {
  OfficeLibrary office;
  office.names = {"../office", "../project/../office"};
  office.add("materials.csv", "product,source,day\nA,s,2026-03-01\n");
  CHECK(holds(office.told(), "library.1: '../project/../office' is named already by 'library.0'"));

  OfficeLibrary twice;
  twice.write("office/Materials.CSV", "product,source,day\nA,s,2026-03-01\n");
  twice.add("materials.csv", "product,source,day\nA,s,2026-03-01\n");
  CHECK(holds(twice.told(), "the library has the table 'materials' already in ../office/Materials.CSV"));
}

TEST_CASE("a table that leads out of the library is not followed") {
  OfficeLibrary office;
  office.write("secret.csv", "product,source,day\nA,s,2026-03-01\n");
  std::filesystem::create_directories(office.path() / "office");
  std::filesystem::create_symlink("../secret.csv", office.path() / "office/materials.csv");
  office.add();
  CHECK(holds(office.told(), "../office/materials.csv: error: leads out of the library or to no file; not followed"));
}

TEST_CASE("a CSV file of another name is warned of") {
  OfficeLibrary office;
  office.write("office/material.csv", "product,source,day\nA,s,2026-03-01\n");
  office.add("boards.csv", "product,source,day\nA,s,2026-03-01\n");
  CHECK_FALSE(has_errors(office.diagnostics));
  CHECK(holds(office.told(), "../office/material.csv: warning: is no table of a library and is not read"));
}

TEST_CASE("a document of the library that a property names joins the project's evidence") {
  OfficeLibrary office;
  Panel panel = plain_panel(2.4, 2.7);
  put(panel.properties, "Panel_FireEvidence", "DocumentId", std::string("FT-1"));
  office.project.panels.push_back(panel);
  office.write("office/documents/ft-1.txt", "Fire test report FT-1\n");
  office.add(
      "evidence.csv",
      "id,location,kind,issuer,subject\nFT-1,documents/ft-1.txt,fire test report,A laboratory,Wall\nFT-2,x.txt,,,\n");
  REQUIRE(office.project.evidence.size() == 1);
  const Evidence& document = office.project.evidence[0];
  CHECK(document.status == EvidenceStatus::present);
  CHECK(document.kind == EvidenceKind::fire_test_report);
  CHECK(document.issuer == "A laboratory");
  CHECK(folder_of(document, office.project) == std::filesystem::weakly_canonical(office.path() / "office").string());
  CHECK(describe(document.origin) == "../office/evidence.csv, row 2, id");
  CHECK(holds(office.told(), "../office/evidence.csv: warning: 1 of 2 rows serve nothing in this project"));
}

TEST_CASE("a document of the library never lies outside of it, and must be what it is said to be") {
  struct WrongDocument {
    const char* label;
    const char* location;
    const char* told;
  };
  const auto wrong = GENERATE(values<WrongDocument>({
      {"outside", "../secret.txt", "document 'FT-1': refused"},
      {"absolute", "/etc/hostname", "document 'FT-1': refused"},
      {"missing", "gone.txt", "document 'FT-1': missing"},
      {"another document", "other.txt", "document 'FT-1': the text does not name its number"},
      {"another kind", "loop.txt", "document 'FT-1': its kind is stated as 'fire test report', and its text says"},
  }));
  INFO(wrong.label);
  OfficeLibrary office;
  Panel panel = plain_panel(2.4, 2.7);
  put(panel.properties, "Panel_FireEvidence", "DocumentId", std::string("FT-1"));
  office.project.panels.push_back(panel);
  office.write("secret.txt", "Fire test report FT-1\n");
  office.write("office/other.txt", "Fire test report FT-17\n");
  office.write("office/loop.txt", "Lifting certificate FT-1\n");
  office.add("evidence.csv", std::string("id,location,kind\nFT-1,") + wrong.location + ",fire test report\n");
  INFO(office.told());
  CHECK(holds(office.told(), wrong.told));
  REQUIRE(office.project.evidence.size() == 1);
  CHECK_FALSE(evidence_fault(office.project.evidence[0], {EvidenceKind::fire_test_report}, "2026-06-01").empty());
}

TEST_CASE("a declaration is found by what identifies it") {
  const std::string id = GENERATE("EPD-7", "epd-7", "6f1c2a34-0000-4000-8000-000000000001", "board", "EPD-8", "Other");
  OfficeLibrary office;
  add_declared(office.project, id);
  office.write("office/declarations/board.xml", data_set("6f1c2a34-0000-4000-8000-000000000001", "EPD-7", "Board"));
  office.write("office/declarations/other.csv", "field,module,value,unit\nidentification,,EPD-8,\nproduct,,Other,\n");
  office.add("materials.csv", "product,source,day\nA,s,2026-03-01\n");
  REQUIRE(office.project.evidence.size() == 1);
  const Evidence& document = office.project.evidence[0];
  CHECK(document.id == id);
  CHECK(document.kind == EvidenceKind::environmental_declaration);
  CHECK(document.location == (id == "EPD-8" || id == "Other" ? "declarations/other.csv" : "declarations/board.xml"));
  CHECK(document.status == EvidenceStatus::present);
}

TEST_CASE("a material that names its product alone gets the declaration of that product") {
  OfficeLibrary office;
  add_declared(office.project, {}, "fine board");
  office.add("declarations/board.xml", data_set("6f1c2a34-0000-4000-8000-000000000001", "EPD-7", "Fine board"));
  const auto id = office.project.materials[0].properties.text("Panel_EnvironmentalDeclaration", "DocumentId");
  REQUIRE(id);
  CHECK(id->value == "EPD-7");
  REQUIRE(office.project.evidence.size() == 1);
  CHECK(office.project.evidence[0].name == "Fine board");
}

TEST_CASE("two declarations of one identification are warned of and neither is taken") {
  OfficeLibrary office;
  add_declared(office.project, "EPD-7");
  office.write("office/declarations/one.xml", data_set("a", "EPD-7", "Board"));
  office.add("declarations/two.xml", data_set("b", "EPD-7", "Board"));
  CHECK(office.project.evidence.empty());
  CHECK(
      holds(office.told(),
            "../office/declarations/two.xml: warning: is of the declaration 'EPD-7', as ../office/declarations/one.xml "
            "is; neither is used"));
}

TEST_CASE("a declaration of a later library replaces none of an earlier one that says otherwise") {
  const std::string other = GENERATE("1", "2");
  OfficeLibrary office;
  office.names = {"../office", "../own"};
  add_declared(office.project, "EPD-7");
  office.write("office/declarations/EPD-7.csv", "field,module,value,unit\nidentification,,EPD-7,\ngwp,A1-A3,1,kg\n");
  office.write("own/declarations/EPD-7.csv",
               "field,module,value,unit\nidentification,,EPD-7,\ngwp,A1-A3," + other + ",kg\n");
  office.add();
  const bool is_same = other == "1";
  CHECK(office.project.evidence.size() == (is_same ? 1 : 0));
  CHECK(holds(office.told(),
              "../own/declarations/EPD-7.csv: warning: is of the declaration 'EPD-7', as "
              "../office/declarations/EPD-7.csv is" +
                  std::string(is_same ? ", and says the same" : "; neither is used")));
}

TEST_CASE("a document of which two libraries say different things proves nothing") {
  const std::string number = GENERATE("FT-1", "FT-9");
  OfficeLibrary office;
  office.names = {"../office", "../own"};
  Panel panel = plain_panel(2.4, 2.7);
  put(panel.properties, "Panel_FireEvidence", "DocumentId", std::string("FT-1"));
  office.project.panels.push_back(panel);
  for (const char* folder : {"office/", "own/"}) {
    office.write(std::string(folder) + "ft.txt", "Fire test report FT-1 FT-9\n");
  }
  office.write("office/evidence.csv", "id,number,location,kind\nFT-1,FT-1,ft.txt,fire test report\n");
  office.write("own/evidence.csv", "id,number,location,kind\nFT-1," + number + ",ft.txt,fire test report\n");
  office.add();
  REQUIRE(office.project.evidence.size() == 1);
  const std::string fault = evidence_fault(office.project.evidence[0], {EvidenceKind::fire_test_report}, "2026-06-01");
  const bool is_same = number == "FT-1";
  CHECK(fault.empty() == is_same);
  CHECK(holds(office.told(), is_same ? "which say the same" : "differ in its number; keep the row that is meant"));
}

TEST_CASE("a table in a form that is not read is an error, another file of such a form a warning") {
  OfficeLibrary office;
  office.write("office/boards.ods", "");
  office.write("office/prices.xls", "");
  office.write("office/people.txt", "");
  office.write("office/readme.txt", "");
  office.add("materials.csv", "product,source,day\nA,s,2026-03-01\n");
  const std::string told = office.told();
  CHECK(holds(told, "../office/boards.ods: error: is neither a .csv nor a .xlsx file and is not read"));
  CHECK(holds(told, "../office/people.txt: error: is neither a .csv nor a .xlsx file and is not read"));
  CHECK(holds(told, "../office/prices.xls: warning: is neither a .csv nor a .xlsx file and is not read"));
  CHECK_FALSE(holds(told, "readme.txt"));
}

TEST_CASE("a declaration that is no data set is found by its name, and proves nothing that it does not hold") {
  OfficeLibrary office;
  add_declared(office.project, "EPD-7");
  office.add("declarations/EPD-7.xml", "<cut off");
  REQUIRE(office.project.evidence.size() == 1);
  CHECK(office.project.evidence[0].status == EvidenceStatus::unnamed);
}

TEST_CASE("people are parties of the project, a later library's role in place of an earlier one's") {
  OfficeLibrary office;
  office.names = {"../office", "../ours"};
  office.write("office/people.csv",
               "role,name,organisation,address,contact\nTechnical manager,,The practice,1 High Street,mail\n"
               "Client,,A trust,,\n");
  office.write("ours/people.csv", "role,organisation\nclient,Another trust\nclient,A second one\n");
  office.add();
  INFO(office.told());
  REQUIRE(office.project.parties.size() == 3);
  CHECK(office.project.parties[0].role == "Technical manager");
  CHECK(office.project.parties[0].address == "1 High Street");
  CHECK(office.project.parties[1].organisation == "Another trust");
  CHECK(office.project.parties[2].organisation == "A second one");
  CHECK(describe(office.project.parties[1].origin) == "../ours/people.csv, row 2, role");
  CHECK(holds(office.told(), "names the role 'client' in place of ../office/people.csv row 3"));
}

TEST_CASE("a table of people that is wrong is refused at the place of the fault") {
  struct WrongPeople {
    const char* text;
    const char* told;
  };
  const auto wrong = GENERATE(values<WrongPeople>({
      {"name,contact\nA,b\n", ":1: error: the table has no column 'role'"},
      {"role,name,phone\nClient,A,1\n", ":1:3: error: 'phone' is no column of people"},
      {"role,name\n,A\n", ":2:1: error: column 'role': is empty"},
      {"role,name\nClient,\n", ":2: error: the row names neither a person nor an organisation"},
      {"role,name\nClient,A\nclient,a\n", ":3: error: the row stands twice"},
  }));
  OfficeLibrary office;
  office.add("people.csv", wrong.text);
  INFO(office.told());
  CHECK(holds(office.told(), std::string("../office/people.csv") + wrong.told));
  CHECK(office.project.parties.empty());
}
