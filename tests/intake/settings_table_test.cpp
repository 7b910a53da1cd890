// Tables that the settings name: keys of the settings, and every fault with its line.
#include "core/intake/settings/settings_table.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <string>

#include "core/intake/settings/settings_schema.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

namespace fs = std::filesystem;

const char* const kSchema = R"({
  "type": "object", "description": "Stone", "additionalProperties": false, "properties": {
    "prices_file": { "type": "string", "rows_of": "prices", "row_word": "price", "description": "Prices of stone" },
    "prices": { "type": "array", "unique": "stone", "description": "Prices, one entry a stone", "items": {
      "type": "object", "additionalProperties": false, "required": ["stone", "unit", "price", "currency", "source"],
      "properties": {
        "stone": { "type": "string", "minLength": 1, "description": "Name of the stone" },
        "unit": { "enum": ["m3", "kg"], "description": "What the price is for" },
        "price": { "type": "number", "minimum": 0, "description": "Price of one unit" },
        "currency": { "type": "string", "pattern": "^[A-Z]{3}$", "description": "Three capital letters" },
        "source": { "type": "string", "description": "Where the price comes from" },
        "line": { "type": "number", "description": "Line of the file" } } } },
    "orders_file": { "type": "string", "rows_of": "orders", "row_word": "order", "description": "Orders of stone" },
    "orders": { "type": "array", "description": "Orders", "items": {
      "type": "object", "additionalProperties": false, "required": ["name", "blocks"], "properties": {
        "line": { "type": "number", "description": "Line of the file" },
        "name": { "type": "string", "description": "Who ordered" },
        "blocks": { "type": "integer", "exclusiveMinimum": 0, "description": "How many blocks" },
        "grade": { "enum": [1, 2], "description": "Grade" },
        "paid": { "type": "boolean", "description": "Whether it is paid" },
        "until": { "type": "string", "format": "date", "description": "Last day of delivery" } } } }
  }
})";

const std::string kHeader = "stone,unit,price,currency,source\n";
const std::string kOrdersHeader = "name,blocks,grade,paid,until\n";

SettingsSchema schema() {
  SettingsSchema made(fs::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas/settings.schema.json");
  made.add_group("quarry", kSchema);
  return made;
}

SettingsTable table(const std::string& name) {
  for (const SettingsTable& found : schema().tables()) {
    if (found.name == name) return found;
  }
  throw std::logic_error("no table " + name);
}

std::string problems_of_orders(const std::string& text) {
  Settings settings;
  Diagnostics diagnostics;
  read_settings_table(table("quarry.orders"), settings, text, "orders.csv", diagnostics);
  return intake_test::all_of(diagnostics);
}

std::string table_problems(const std::string& text) {
  Settings settings;
  Diagnostics diagnostics;
  read_settings_table(table("quarry.prices"), settings, text, "prices.csv", diagnostics);
  return intake_test::all_of(diagnostics);
}

/// A folder with `inside/prices.csv`, and `outside.csv` beside it.
struct Folder {
  fs::path root = fs::temp_directory_path() / ("table-reader-test-" + std::to_string(::getpid()));
  Folder() {
    fs::create_directories(root / "inside");
    std::ofstream(root / "inside/prices.csv") << kHeader << "Slate,m3,400,GBP,own\n";
    std::ofstream(root / "outside.csv") << kHeader << "Slate,m3,1,GBP,own\n";
  }
  ~Folder() { fs::remove_all(root); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  std::vector<SettingsFile> read(Settings& settings, Diagnostics& diagnostics) const {
    return read_settings_files(schema().tables(), settings, root / "inside", "settings.json", diagnostics);
  }

  std::string refusal_of(const std::string& location) const {
    Settings settings;
    settings.set("quarry.prices_file", location);
    Diagnostics diagnostics;
    CHECK(read(settings, diagnostics).empty());
    CHECK(settings.all().size() == 1);
    return intake_test::all_of(diagnostics);
  }
};

TEST_CASE("rows of a table become numbered settings that are known", "[intake]") {
  Settings settings;
  Diagnostics diagnostics;
  read_settings_table(
      table("quarry.prices"), settings,
      "\xEF\xBB\xBF# prices\r\n" + kHeader + "\"Slate, split\",m3,412.5,GBP,quote 1\r\n\nGranite,kg,0,GBP,own\n",
      "prices.csv", diagnostics);
  CHECK(diagnostics.empty());
  CHECK(settings.text("quarry.prices.0.stone")->value == "Slate, split");
  CHECK(settings.text("quarry.prices.0.unit")->value == "m3");
  CHECK(settings.number("quarry.prices.0.price")->value == 412.5);
  CHECK(settings.number("quarry.prices.0.price")->origin.key == "quarry.prices.0.price");
  CHECK(settings.text("quarry.prices.1.currency")->value == "GBP");
  CHECK(settings.text("quarry.prices.1.source")->value == "own");
  CHECK(settings.number("quarry.prices.1.line")->value == 5.0);
  CHECK(settings.all().size() == 12);
  CHECK(intake_test::all_of(schema().faults_of(settings, "settings.json")).empty());
}

TEST_CASE("every bad row of a table is named with its line, and what to write", "[intake]") {
  CHECK(
      table_problems(kHeader +
                     ",m3,1,GBP,s\nA,l,1,GBP,s\nA,kg,1e999,GBP,s\nA,kg,-1,GBP,s\nA,kg,\"1,5\",GBP,s\nA,kg,,GBP,s\n"
                     "A,kg,1,gbp,s\nA,kg,1,GBP,\nB,kg,1,GBP,s\nB,kg,1,GBP,s\nC,kg,1,GBP\n\"C,kg,1,GBP,s\n") ==
      "prices.csv:2: error: stone: the field is empty; write a text: Name of the stone\n"
      "prices.csv:3: error: unit: 'l' is not allowed here; write one of: m3, kg\n"
      "prices.csv:4: error: price: '1e999' is not a number; write a number that is at least 0: Price of one unit\n"
      "prices.csv:5: error: price: -1 is not at least 0; write a number that is at least 0: Price of one unit\n"
      "prices.csv:6: error: price: '1,5' is not a number; write a number that is at least 0: Price of one unit\n"
      "prices.csv:7: error: price: the field is empty; write a number that is at least 0: Price of one unit\n"
      "prices.csv:8: error: currency: 'gbp' has another form; write a text of this form: Three capital letters\n"
      "prices.csv:9: error: source: the field is empty; write a text: Where the price comes from\n"
      "prices.csv:11: error: stone 'B' has a price already; keep one of them\n"
      "prices.csv:12: error: 4 fields instead of 5; write stone,unit,price,currency,source, and quotes around a field "
      "with a comma\n"
      "prices.csv:13: error: a quoted field is not closed; close the quote on the same line\n");
}

TEST_CASE("a table without header, rows or UTF-8 is refused", "[intake]") {
  CHECK(table_problems("A,kg,1,GBP,s\nA,kg,1,GBP,s\n") ==
        "prices.csv:1: error: the header is not stone,unit,price,currency,source; write this header first\n");
  CHECK(table_problems(kHeader) ==
        "prices.csv: error: the file gives no price; add a row for each, or leave the setting out\n");
  CHECK(table_problems(kHeader + "\xFF,kg,1,GBP,s\n").find("prices.csv:2:1: error: the file is not valid UTF-8") == 0);
}

TEST_CASE("an empty field that may be empty is a setting left out, and texts may come twice where that is allowed",
          "[intake]") {
  Settings settings;
  Diagnostics diagnostics;
  read_settings_table(table("quarry.orders"), settings,
                      kOrdersHeader + "\"Hall, north\",3,2,true,2027-12-31\n\"Hall, north\",1,,,\n", "orders.csv",
                      diagnostics);
  CHECK(diagnostics.empty());
  CHECK(settings.text("quarry.orders.0.name")->value == "Hall, north");
  CHECK(settings.number("quarry.orders.0.blocks")->value == 3.0);
  CHECK(settings.number("quarry.orders.0.grade")->value == 2.0);
  CHECK(settings.logical("quarry.orders.0.paid")->value);
  CHECK(settings.text("quarry.orders.0.until")->value == "2027-12-31");
  CHECK_FALSE(settings.text("quarry.orders.1.until"));
  CHECK_FALSE(settings.logical("quarry.orders.1.paid"));
  CHECK(settings.number("quarry.orders.1.line")->value == 3.0);
  CHECK(settings.all().size() == 9);
  CHECK(intake_test::all_of(schema().faults_of(settings, "settings.json")).empty());
}

TEST_CASE("dates, whole numbers, choices and yes or no of a table keep their rules", "[intake]") {
  CHECK(problems_of_orders("name,blocks\n") ==
        "orders.csv:1: error: the header is not name,blocks,grade,paid,until; write this header first\n");
  CHECK(
      problems_of_orders(kOrdersHeader + "A,0,,,\nA,1.5,,,\nA,1,3,,\nA,1,,yes,\nA,1,,,01.02.2026\n"
                                         "A,1,,,2026-13-01\n") ==
      "orders.csv:2: error: blocks: 0 is not above 0; write a whole number that is above 0: How many blocks\n"
      "orders.csv:3: error: blocks: 1.5 is not a whole number; write a whole number that is above 0: How many blocks\n"
      "orders.csv:4: error: grade: 3 is not allowed here; write one of: 1, 2\n"
      "orders.csv:5: error: paid: 'yes' is not true or false; write true or false: Whether it is paid\n"
      "orders.csv:6: error: until: '01.02.2026' is not a date; write a date as 2026-06-01: Last day of delivery\n"
      "orders.csv:7: error: until: '2026-13-01' is not a date; write a date as 2026-06-01: Last day of delivery\n");
}

TEST_CASE("each table is refused by its own key", "[intake]") {
  const Folder folder;
  Settings settings;
  settings.set("quarry.orders_file", std::string("none.csv"));
  settings.set("quarry.prices_file", std::string("prices.csv"));
  Diagnostics diagnostics;
  CHECK(folder.read(settings, diagnostics).size() == 1);
  CHECK(intake_test::all_of(diagnostics) ==
        "settings.json: error: quarry.orders_file: 'none.csv' is not there; put the file beside the settings\n");
}

TEST_CASE("a table is read from the folder of the settings and kept as read", "[intake]") {
  const Folder folder;
  Settings settings;
  settings.set("quarry.prices_file", std::string("prices.csv"));
  Diagnostics diagnostics;
  const auto files = folder.read(settings, diagnostics);
  CHECK(diagnostics.empty());
  REQUIRE(files.size() == 1);
  CHECK(files[0].location == "prices.csv");
  CHECK(files[0].bytes == kHeader + "Slate,m3,400,GBP,own\n");
  CHECK(files[0].description == "Prices of stone");
  CHECK(settings.number("quarry.prices.0.price")->value == 400.0);
}

TEST_CASE("a table outside the folder, absent, too large or of another kind is refused", "[intake]") {
  const Folder folder;
  const std::string key = "settings.json: error: quarry.prices_file: ";
  const std::string outside = "is not inside the folder of the settings; not followed";
  CHECK(folder.refusal_of("../outside.csv").find(outside) != std::string::npos);
  CHECK(folder.refusal_of((folder.root / "outside.csv").string()).find(outside) != std::string::npos);
  fs::create_symlink(folder.root / "outside.csv", folder.root / "inside/link.csv");
  CHECK(folder.refusal_of("link.csv").find(outside) != std::string::npos);
  CHECK(folder.refusal_of("none.csv") == key + "'none.csv' is not there; put the file beside the settings\n");
  CHECK(folder.refusal_of("prices.txt") == key + "'prices.txt' does not name a .csv file; name a CSV file\n");
  std::ofstream(folder.root / "inside/large.csv") << std::string(kLargestSettingsFile_bytes + 1, '#');
  CHECK(folder.refusal_of("large.csv") ==
        key + "'large.csv' is larger than 4 MiB; keep the rows of this project only\n");
}

TEST_CASE("the name of a table that is no text is left to the schema, which refuses it", "[intake]") {
  const Folder folder;
  Settings settings;
  settings.set("quarry.prices_file", 5.0);
  Diagnostics diagnostics;
  CHECK(folder.read(settings, diagnostics).empty());
  CHECK(diagnostics.empty());
  CHECK(intake_test::all_of(schema().faults_of(settings, "settings.json")) ==
        "settings.json: error: quarry.prices_file: 5 is not a text; write a text: Prices of stone\n");
}

TEST_CASE("rows in the settings and in a file at once are refused", "[intake]") {
  const Folder folder;
  Settings settings;
  settings.set("quarry.prices_file", std::string("prices.csv"));
  settings.set("quarry.prices.0.stone", std::string("Slate"));
  Diagnostics diagnostics;
  CHECK(folder.read(settings, diagnostics).empty());
  CHECK(intake_test::all_of(diagnostics) ==
        "settings.json: error: quarry.prices_file: 'quarry.prices' is given too; keep one of them\n");
}

}  // namespace
}  // namespace panel_dossier
