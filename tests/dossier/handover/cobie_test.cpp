// cobie.xlsx: read back, held against the form of COBie 2.4, and written of projects that are wrong in something.
#include <catch2/catch.hpp>
#include <set>
#include <string>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "core/dossier/handover/cobie_check.h"
#include "core/dossier/handover/cobie_delivery.h"
#include "core/dossier/handover/cobie_workbook.h"
#include "tests/dossier/handover/workbook_reading.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
using test::ReadBook;
using test::SheetRows;

namespace {

test::SyntheticDossier dossier_of_two_storeys() {
  test::SyntheticDossier made = test::synthetic_dossier(30, 4);
  test::claim(made.results.build, role::kMass, "thermal.check_0");
  test::claim(made.results.build, role::kFireResistance, "structural.check_1");
  Party maker;
  maker.role = "panel manufacturer";
  maker.organisation = "Example Works, Ltd";
  maker.contact = "works office, works@example.org";
  Party designer;
  designer.role = "designer of the panels";
  designer.organisation = "Example Practice";
  designer.contact = "extension 3";
  made.project.parties = {maker, designer};
  made.project.name = made.results.project.name;
  made.project.global_id = "0Project";
  made.project.buildings = {"Block A"};
  return made;
}

HandoverContent handover_of(const DossierContent& content) {
  return {content, {}, stated_inspections(content.project), {}};
}

ReadBook cobie_of(const test::SyntheticDossier& made, const std::string& name = "cobie.xlsx") {
  const DossierContent content = made.content();
  write_cobie(handover_of(content), test::temporary_file(name));
  return test::read_book(test::temporary_file(name));
}

std::vector<std::string> column(const SheetRows& rows, const std::string& name) {
  const auto found = std::find(rows.front().begin(), rows.front().end(), name);
  REQUIRE(found != rows.front().end());
  std::vector<std::string> cells;
  for (std::size_t row = 1; row < rows.size(); ++row)
    cells.push_back(rows[row][static_cast<std::size_t>(found - rows.front().begin())]);
  return cells;
}

std::set<std::string> names_in(const ReadBook& book, const std::string& sheet, const std::string& key = "Name") {
  const auto cells = column(book.sheets.at(sheet), key);
  return {cells.begin(), cells.end()};
}

/// The published list, read without the program's reader of it.
std::vector<std::vector<std::string>> published_columns() {
  std::vector<std::vector<std::string>> rows;
  const std::string text =
      test::bytes_of(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "core/dossier/handover/data/cobie_columns.csv");
  for (const std::string& line : split(text, '\n')) {
    if (!line.empty()) rows.push_back(split(line, ','));
  }
  rows.erase(rows.begin());
  return rows;
}

}  // namespace

TEST_CASE("All sheets stand in their order, each with all of its columns in theirs") {
  const ReadBook book = cobie_of(dossier_of_two_storeys());
  CHECK(book.names == std::vector<std::string>{"Instruction", "Contact",   "Facility",   "Floor",  "Space",
                                               "Zone",        "Type",      "Component",  "System", "Assembly",
                                               "Connection",  "Spare",     "Resource",   "Job",    "Impact",
                                               "Document",    "Attribute", "Coordinate", "Issue",  "PickLists"});
  const auto published = published_columns();
  CHECK(published.size() == 272);
  std::map<std::string, std::vector<std::string>> heads;
  for (const auto& row : published) heads[row[0]].push_back(row[2]);
  CHECK(heads.size() == 18);
  for (const auto& [sheet, head] : heads) {
    INFO(sheet);
    CHECK(book.sheets.at(sheet).front() == head);
  }
  CHECK(book.sheets.at("Instruction")[0] == std::vector<std::string>{"Title", "COBie"});
  CHECK(book.sheets.at("Instruction")[1] == std::vector<std::string>{"Version", "2"});
  CHECK(book.sheets.at("PickLists").front().size() == 54);
}

TEST_CASE("Every reference of the workbook leads to a row, every value of a list is in it, and no cell is empty") {
  const ReadBook book = cobie_of(dossier_of_two_storeys());
  const SheetRows& lists = book.sheets.at("PickLists");
  std::size_t followed = 0;
  for (const auto& row : published_columns()) {
    const SheetRows& sheet = book.sheets.at(row[0]);
    const std::vector<std::string> cells = column(sheet, row[2]);
    std::string to = row.size() > 4 ? row[4] : std::string();
    const bool is_list = to.ends_with(" (list)");
    if (is_list) to.resize(to.size() - std::string(" (list)").size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
      INFO(row[0] << " row " << i + 2 << " " << row[2] << " '" << cells[i] << "'");
      REQUIRE_FALSE(cells[i].empty());
      if (cells[i] == "n/a" || to.empty()) continue;
      std::set<std::string> known;
      if (to.starts_with("PickLists.")) {
        const auto values = column(lists, to.substr(std::string("PickLists.").size()));
        known.insert(values.begin(), values.end());
      } else if (to.starts_with("Name in ")) {
        known = names_in(book, column(sheet, to.substr(std::string("Name in ").size()))[i]);
      } else {
        known = names_in(book, to.substr(0, to.find('.')), to.substr(to.find('.') + 1));
      }
      for (const std::string& name : is_list ? split(cells[i], ',') : std::vector<std::string>{cells[i]}) {
        REQUIRE(known.count(name) == 1);
        ++followed;
      }
    }
  }
  CHECK(followed > 1000);
}

TEST_CASE("Panels side by side are connected once, and the spaces of a building are a zone") {
  const ReadBook book = cobie_of(dossier_of_two_storeys());
  const SheetRows& connections = book.sheets.at("Connection");
  const auto first = column(connections, "RowName1");
  const auto second = column(connections, "RowName2");
  REQUIRE_FALSE(first.empty());
  std::set<std::set<std::string>> pairs;
  for (std::size_t i = 0; i < first.size(); ++i) {
    CHECK(first[i] != second[i]);
    pairs.insert({first[i], second[i]});
  }
  CHECK(pairs.size() == first.size());
  CHECK(column(book.sheets.at("Zone"), "SpaceNames") ==
        std::vector<std::string>{"Ground floor wall panels,First floor wall panels,Second floor wall panels"});
}

TEST_CASE("A telephone number is told apart from the e-mail address beside it") {
  test::SyntheticDossier made = dossier_of_two_storeys();
  const auto phones = [&made] { return names_in(cobie_of(made), "Contact", "Phone"); };
  CHECK(phones().count("works office") == 0);  // no number
  CHECK(phones().count("extension 3") == 1);   // all that there is
  made.project.parties[0].contact = "works@example.org, 01632 960 107";
  CHECK(phones().count("01632 960 107") == 1);
  made.project.parties[0].contact = "01632 960 107; <works@example.org>";
  CHECK(phones().count("01632 960 107") == 1);
  made.project.parties[0].contact = "room 1234, works@example.org";
  CHECK(phones().count("room 1234") == 0);
}

TEST_CASE("What the project says stands where COBie has a place for it") {
  test::SyntheticDossier made = dossier_of_two_storeys();
  Panel& panel = made.project.panels[1];  // with a window
  panel.properties.add("Pset_ManufacturerOccurrence", "SerialNumber", {std::string("2026-7"), "", {}});
  panel.properties.add("Pset_Condition", "NextAssessmentDate", {std::string("2027-05-01"), "", {}});
  const ReadBook book = cobie_of(made);
  const SheetRows& components = book.sheets.at("Component");
  CHECK(column(components, "Name")[0] == "P-1");
  CHECK(column(components, "Space")[0] == "Ground floor wall panels");
  const auto serials = column(components, "SerialNumber");
  CHECK(std::count(serials.begin(), serials.end(), "2026-7") == 1);
  CHECK(names_in(book, "Component").count("P-2 W1") == 1);
  CHECK(names_in(book, "Type") == std::set<std::string>{"T1 infill", "T2 oversail", "Window 1200 × 1200 mm"});
  CHECK(names_in(book, "Floor") == std::set<std::string>{"Ground floor", "First floor", "Second floor"});
  CHECK(names_in(book, "Contact", "Email") ==
        std::set<std::string>{"works@example.org", "example-practice@not-given.invalid"});
  CHECK(column(book.sheets.at("Type"), "Manufacturer")[0] == "works@example.org");
  CHECK(column(book.sheets.at("Facility"), "CreatedBy")[0] == "example-practice@not-given.invalid");
  CHECK(column(book.sheets.at("Facility"), "CreatedOn")[0] == "2026-11-25T02:00:00");
  const SheetRows& attributes = book.sheets.at("Attribute");
  CHECK(column(attributes, "Name")[0] == "Made-up check number 0");
  CHECK(column(attributes, "Value")[0] == "0.15");
  CHECK(column(attributes, "Category")[1] == "Maximum Requirement");
  CHECK(column(book.sheets.at("Job"), "Start") == std::vector<std::string>{"2027-05-01"});
  CHECK_FALSE(column(book.sheets.at("Issue"), "Name").empty());
  CHECK(names_in(book, "Document").count("TR-1 Invented fire test report") == 1);
}

TEST_CASE("Classes that the lists do not have are added to them, and nothing else is") {
  test::SyntheticDossier made = dossier_of_two_storeys();
  for (Panel& panel : made.project.panels) panel.origin.entity = "IfcElementAssembly";
  const ReadBook book = cobie_of(made);
  CHECK(column(book.sheets.at("Component"), "ExtObject")[0] == "IfcElementAssembly");
  CHECK(column(book.sheets.at("Type"), "ExtObject")[0] == "IfcElementAssemblyType");
  std::size_t added = 0;
  for (const PickList& list : cobie_pick_lists()) {
    std::vector<std::string> shown = column(book.sheets.at("PickLists"), list.name);
    shown.erase(std::find(shown.begin(), shown.end(), ""), shown.end());
    INFO(list.name);
    REQUIRE(shown.size() >= list.values.size());
    CHECK(std::equal(list.values.begin(), list.values.end(), shown.begin()));
    if (!list.is_regional) added += shown.size() - list.values.size();
  }
  // The types of panels and windows: no list has a class for those of IFC4.
  CHECK(added == 2);
}

TEST_CASE("What a plugin declares as the climate change of the standard is an impact, in its own unit alone") {
  test::SyntheticDossier made = dossier_of_two_storeys();
  const DossierContent content = made.content();
  HandoverContent handover = handover_of(content);
  handover.standard_results = {{"thermal.check_0", "Pset_EnvironmentalImpactValues", "ClimateChange", "modules A1-A3"}};
  CHECK(cobie_delivery(handover).book.sheet("Impact").rows().empty());
  made.results.panels[2].findings[0].unit = "kg CO2e";
  const CobieDelivery delivery = cobie_delivery(handover);
  const CobieTable& impacts = delivery.book.sheet("Impact");
  REQUIRE(impacts.rows().size() == 1);
  CHECK(impacts.text(0, "RowName") == "P-3");
  CHECK(impacts.text(0, "Value") == "0.15");
  CHECK(impacts.text(0, "ImpactUnit") == "kgCO2e");
  CHECK(impacts.text(0, "ImpactStage") == "n/a");
  CHECK_THAT(impacts.text(0, "Description"), Contains("modules A1-A3") && Contains("verdict: pass"));
  CHECK(cobie_faults(delivery.book) == std::vector<std::string>{});
}

TEST_CASE("A verdict that is open is never shown without its word") {
  test::SyntheticDossier made = dossier_of_two_storeys();
  const ReadBook book = cobie_of(made);
  const auto words = column(book.sheets.at("Attribute"), "Description");
  // Check 0 passes and check 1 fails, as their numbers have it.
  CHECK_THAT(words[0], Contains("verdict: pass"));
  CHECK(std::any_of(words.begin(), words.end(), [](const std::string& text) {
    return text.find("verdict: fail: The property Pset_Made.Up is not in the export") != std::string::npos;
  }));
}

TEST_CASE("The same content gives the same bytes, another time others") {
  test::SyntheticDossier made = dossier_of_two_storeys();
  cobie_of(made, "one.xlsx");
  cobie_of(made, "two.xlsx");
  CHECK(test::bytes_of(test::temporary_file("one.xlsx")) == test::bytes_of(test::temporary_file("two.xlsx")));
  made.results.build.time_utc = "2026-11-26T02:00:00Z";
  cobie_of(made, "two.xlsx");
  CHECK(test::bytes_of(test::temporary_file("one.xlsx")) != test::bytes_of(test::temporary_file("two.xlsx")));
}

TEST_CASE("A project that is wrong in something still gives a delivery that keeps the rules") {
  const std::string huge(40000, 'x');
  const std::string turned =
      "\xE2\x80\xAE"
      "evil, name\x07";
  struct Case {
    const char* label;
    void (*spoil)(Project&, const std::string&, const std::string&);
  };
  const std::vector<Case> cases{
      {"no panels", [](Project& p, const std::string&, const std::string&) { p.panels.clear(); }},
      {"no storeys",
       [](Project& p, const std::string&, const std::string&) {
         p.storeys.clear();
         for (Panel& panel : p.panels) panel.storey.reset();
       }},
      {"storeys of one name",
       [](Project& p, const std::string&, const std::string&) {
         for (Storey& storey : p.storeys) storey.name = "Floor";
       }},
      {"names that are huge",
       [](Project& p, const std::string& name, const std::string&) {
         p.name = name;
         p.storeys[0].name = name;
         for (Panel& panel : p.panels) {
           panel.mark = name + panel.mark;
           panel.type = name;
           panel.properties.add("Panel_" + name, "a", {name, "", {}});
           panel.properties.add("Panel_" + name, "b", {name, "", {}});
           for (Opening& opening : panel.openings) opening.filling_name = name;
         }
       }},
      {"names that turn writing round, with commas",
       [](Project& p, const std::string&, const std::string& name) {
         for (Panel& panel : p.panels) {
           panel.mark = name;
           panel.type = name;
         }
       }},
      {"names that are formulas",
       [](Project& p, const std::string&, const std::string&) {
         for (Panel& panel : p.panels) panel.mark = "=cmd|' /C calc'!A0" + panel.mark;
       }},
      {"nothing named", [](Project& p, const std::string&, const std::string&) {
         p.name.clear();
         p.buildings.clear();
         p.parties.clear();
         for (Storey& storey : p.storeys) storey.name.clear();
         for (Panel& panel : p.panels) {
           panel.mark.clear();
           panel.type.clear();
           panel.layers.clear();
           panel.parts.clear();
         }
       }}};
  for (const Case& wrong : cases) {
    INFO(wrong.label);
    test::SyntheticDossier made = dossier_of_two_storeys();
    wrong.spoil(made.project, huge, turned);
    if (made.project.panels.empty()) made.results.panels.clear();
    const DossierContent content = made.content();
    CHECK(cobie_faults(cobie_delivery(handover_of(content)).book) == std::vector<std::string>{});
    CHECK_NOTHROW(cobie_of(made));
  }
}

TEST_CASE("A mark that turns writing round is shown, a formula stays a text") {
  test::SyntheticDossier made = dossier_of_two_storeys();
  made.project.panels[0].mark = "\xE2\x80\xAEmark";
  made.project.panels[2].mark = "=1+1";
  made.project.panels[4].mark = "_x0041_";
  const std::set<std::string> names = names_in(cobie_of(made), "Component");
  CHECK(names.count("<U+202E>mark") == 1);
  CHECK(names.count("=1+1") == 1);
  // As it is stored: a program that reads `_x0041_` as the letter A shows the text again.
  CHECK(names.count("_x005F_x0041_") == 1);
}

TEST_CASE("Names are parted by commas over as many cells as they need") {
  std::vector<std::string> names;
  for (int i = 0; i < 5000; ++i) names.push_back("panel " + std::to_string(10000 + i));
  std::vector<std::string> again;
  const std::vector<std::string> lists = name_lists(names);
  CHECK(lists.size() == 2);
  for (const std::string& list : lists) {
    CHECK(list.size() <= 32767);
    for (std::string& name : split(list, ',')) again.push_back(std::move(name));
  }
  CHECK(again == names);
  CHECK(name_lists({}).empty());
}

TEST_CASE("A name is one line without commas, stands once, and never ends inside a character") {
  std::set<std::string> taken;
  CHECK(free_name(taken, " A, b\n", "none") == "A; b");
  CHECK(free_name(taken, "A; b", "none") == "A; b (2)");
  CHECK(free_name(taken, "", "none") == "none");
  CHECK(free_name(taken, "n/a", "none") == "none (2)");
  std::string long_name(254, 'x');
  CHECK(free_name(taken, long_name + "é", "none") == long_name);
  CHECK(free_name(taken, long_name + "ü", "none") == std::string(251, 'x') + " (2)");
}

TEST_CASE("A contact is known by its e-mail address, or by one that reaches nobody") {
  const auto party = [](const char* role, const char* organisation, const char* contact) {
    Party made;
    made.role = role;
    made.organisation = organisation;
    made.contact = contact;
    return made;
  };
  CobieContacts contacts({party("client", "Example Trust", "desk, a.b+c@example.org."),
                          party("maker", "Example Works", "call 12@ or ask"),
                          party("builder", "Example Works!", "12")});
  CHECK(contacts.creator() == "a.b+c@example.org");
  CHECK(contacts.with_role({"maker"}) == "example-works@not-given.invalid");
  CHECK(contacts.with_role({"builder"}) == "example-works-2@not-given.invalid");
  CHECK(contacts.of("Example Works", "manufacturer") == "example-works@not-given.invalid");
  CHECK(contacts.of("  ", "manufacturer").empty());
  CHECK(contacts.of("\xD9\x85", "manufacturer") == "contact@not-given.invalid");
  CHECK(CobieContacts({}).creator() == "issuer-of-the-dossier@not-given.invalid");
}

TEST_CASE("Each rule that a delivery can break is told with its row") {
  struct Case {
    const char* told;
    void (*breach)(CobieBook&);
  };
  const std::vector<Case> cases{
      {"Component row 2: TypeName 'T9' is no row of Type",
       [](CobieBook& book) {
         book.add("Component", {{"Name", "A"}, {"TypeName", "T9"}, {"Space", "n/a"}});
       }},
      {"Floor row 3: its key stands twice",
       [](CobieBook& book) {
         book.add("Floor", {{"Name", "A"}});
         book.add("Floor", {{"Name", "A"}});
       }},
      {"Floor row 2: Category 'Cellar' is not in the list PickLists.FloorType",
       [](CobieBook& book) {
         book.add("Floor", {{"Name", "A"}, {"Category", "Cellar"}});
       }},
      {"Type row 2: no component has this type",
       [](CobieBook& book) {
         book.add("Type", {{"Name", "A"}, {"AssetType", "Fixed"}});
       }},
      {"Space row 2: Name 'A,B' has a comma, which parts the names of a list",
       [](CobieBook& book) {
         book.add("Space", {{"Name", "A,B"}});
       }},
      {"Space row 2: Name is longer than a name may be",
       [](CobieBook& book) {
         book.add("Space", {{"Name", std::string(256, 'x')}});
       }},
      {"Floor row 2: Description is longer than a cell can be",
       [](CobieBook& book) {
         book.sheet("Floor").add({{"Name", "A"}, {"Description", std::string(32768, 'x')}});
       }},
      {"System row 2: ComponentNames 'B' is no row of Component",
       [](CobieBook& book) {
         book.add("System", {{"Name", "A"}, {"ComponentNames", "B"}});
       }},
      {"Attribute row 2: RowName 'A' is no row of Zone",
       [](CobieBook& book) {
         book.add("Attribute", {{"Name", "x"}, {"SheetName", "Zone"}, {"RowName", "A"}});
       }},
      {"Facility row 2: CreatedBy 'who@example.org' is no row of Contact", [](CobieBook& book) {
         book.set_creator("who@example.org", "2026-11-25T02:00:00", "test");
         book.add("Facility", {{"Name", "A"}});
       }}};
  for (const Case& broken : cases) {
    CobieBook book;
    book.set_creator("n/a", "2026-11-25T02:00:00", "test");
    broken.breach(book);
    const std::vector<std::string> faults = cobie_faults(book);
    INFO(joined(faults, "\n"));
    CHECK(std::find(faults.begin(), faults.end(), broken.told) != faults.end());
  }
}
