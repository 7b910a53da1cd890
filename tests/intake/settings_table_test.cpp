// Tables that the settings name: keys of the settings, and every fault with its line.
#include "core/intake/settings/settings_table.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <string>

#include "core/intake/settings/known_settings.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

namespace fs = std::filesystem;

const std::string kHeader = "material,unit,rate,currency,source\n";

const std::string kTargetsHeader = "name,modules,applies_to,limit_kgco2e_per_m2,valid_from,valid_until,source\n";

std::string problems_of_targets(const std::string& text) {
  Settings settings;
  Diagnostics diagnostics;
  read_settings_table(carbon_targets_table(), settings, text, "targets.csv", diagnostics);
  return intake_test::all_of(diagnostics);
}

std::string problems(const std::string& text) {
  Settings settings;
  Diagnostics diagnostics;
  read_settings_table(rates_table(), settings, text, "rates.csv", diagnostics);
  return intake_test::all_of(diagnostics);
}

/// A folder with `inside/rates.csv`, and `outside.csv` beside it.
struct Folder {
  fs::path root = fs::temp_directory_path() / ("rates-reader-test-" + std::to_string(::getpid()));
  Folder() {
    fs::create_directories(root / "inside");
    std::ofstream(root / "inside/rates.csv") << kHeader << "Wood,m3,400,GBP,own\n";
    std::ofstream(root / "outside.csv") << kHeader << "Wood,m3,1,GBP,own\n";
  }
  ~Folder() { fs::remove_all(root); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  std::string refusal_of(const std::string& location) const {
    Settings settings;
    settings.set("quantities.rates_file", location);
    Diagnostics diagnostics;
    CHECK(read_settings_files(settings, root / "inside", "settings.json", diagnostics).empty());
    CHECK(settings.all().size() == 1);
    return intake_test::all_of(diagnostics);
  }
};

TEST_CASE("rows of the rates file become numbered settings that are known", "[intake]") {
  Settings settings;
  Diagnostics diagnostics;
  read_settings_table(
      rates_table(), settings,
      "\xEF\xBB\xBF# prices\r\n" + kHeader + "\"Wood, planed\",m3,412.5,GBP,quote 1\r\n\nScrews,piece,0,GBP,own\n",
      "rates.csv", diagnostics);
  CHECK(diagnostics.empty());
  CHECK(settings.text("quantities.rates.0.material")->value == "Wood, planed");
  CHECK(settings.text("quantities.rates.0.unit")->value == "m3");
  CHECK(settings.number("quantities.rates.0.rate")->value == 412.5);
  CHECK(settings.number("quantities.rates.0.rate")->origin.key == "quantities.rates.0.rate");
  CHECK(settings.text("quantities.rates.1.currency")->value == "GBP");
  CHECK(settings.text("quantities.rates.1.source")->value == "own");
  CHECK(settings.number("quantities.rates.1.line")->value == 5.0);
  CHECK(settings.all().size() == 12);
  const auto schema = fs::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas/settings.schema.json";
  CHECK(unknown_settings(settings, schema, "settings.json").empty());
}

TEST_CASE("every bad row of a rates file is named with its line", "[intake]") {
  CHECK(
      problems(kHeader + ",m3,1,GBP,s\nA,l,1,GBP,s\nA,m,1e999,GBP,s\nA,m,-1,GBP,s\nA,m,1,gbp,s\nA,m,1,GBP,\n"
                         "B,m,1,GBP,s\nB,kg,1,GBP,s\nC,m,1,GBP\n\"C,m,1,GBP,s\n") ==
      "rates.csv:2: error: the material is empty; write its name as in the export\n"
      "rates.csv:3: error: 'l' is no unit of a rate; write m3, m2, m, kg or piece\n"
      "rates.csv:4: error: '1e999' is not a number of at least 0; write the rate with a decimal point\n"
      "rates.csv:5: error: '-1' is not a number of at least 0; write the rate with a decimal point\n"
      "rates.csv:6: error: 'gbp' is not a currency; write its three capital letters\n"
      "rates.csv:7: error: the rate of 'A' names no source; say where the rate comes from\n"
      "rates.csv:9: error: material 'B' has a rate already; keep one of them\n"
      "rates.csv:10: error: 4 fields instead of 5; write material,unit,rate,currency,source, and quotes around a field "
      "with a comma\n"
      "rates.csv:11: error: a quoted field is not closed; close the quote on the same line\n");
}

TEST_CASE("a rates file without header, rows or UTF-8 is refused", "[intake]") {
  CHECK(problems("A,m,1,GBP,s\nA,m,1,GBP,s\n") ==
        "rates.csv:1: error: the header is not material,unit,rate,currency,source; write this header first\n");
  CHECK(problems(kHeader) ==
        "rates.csv: error: the file gives no rate; add a row for each, or leave the setting out\n");
  CHECK(problems(kHeader + "\xFF,m,1,GBP,s\n").find("rates.csv:2:1: error: the file is not valid UTF-8") == 0);
}

TEST_CASE("rows of the targets file become numbered settings that are known, and may say the same twice", "[intake]") {
  Settings settings;
  Diagnostics diagnostics;
  read_settings_table(carbon_targets_table(), settings,
                      "\xEF\xBB\xBF" + kTargetsHeader +
                          "Brief,A1-A5,every panel,120.5,2026-01-01,2027-12-31,\"brief, 2\"\nBrief,A-C,E1,90,,,brief\n",
                      "targets.csv", diagnostics);
  CHECK(diagnostics.empty());
  CHECK(settings.text("carbon.targets.0.modules")->value == "A1-A5");
  CHECK(settings.number("carbon.targets.0.limit_kgco2e_per_m2")->value == 120.5);
  CHECK(settings.text("carbon.targets.0.source")->value == "brief, 2");
  CHECK(settings.text("carbon.targets.1.valid_until")->value.empty());
  CHECK(settings.number("carbon.targets.1.line")->value == 3.0);
  const auto schema = fs::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas/settings.schema.json";
  CHECK(unknown_settings(settings, schema, "settings.json").empty());
}

TEST_CASE("every bad row of a targets file is named with its line", "[intake]") {
  CHECK(problems_of_targets("name,modules,limit\n") ==
        "targets.csv:1: error: the header is not name,modules,applies_to,limit_kgco2e_per_m2,valid_from,valid_until,"
        "source; write this header first\n");
  CHECK(problems_of_targets(kTargetsHeader) ==
        "targets.csv: error: the file gives no target; add a row for each, or leave the setting out\n");
  CHECK(problems_of_targets(kTargetsHeader + ",A-C,project,1,,,s\nT,B6,project,1,,,s\nT,A-C,,1,,,s\n"
                                             "T,A-C,project,-1,,,s\nT,A-C,project,0,,,s\nT,A-C,project,\"1,5\",,,s\n"
                                             "T,A-C,project,1,01.02.2026,,s\nT,A-C,project,1,,2026-13-01,s\n"
                                             "T,A-C,project,1,2026-02-01,2026-01-31,s\nT,A-C,project,1,,,\n") ==
        "targets.csv:2: error: the target has no name; give it one, by which the findings call it\n"
        "targets.csv:3: error: 'B6' is no group of modules of a target; write A1-A3, A1-A5 or A-C\n"
        "targets.csv:4: error: target 'T' applies to nothing; write a panel type, 'every panel' or 'project' under "
        "applies_to\n"
        "targets.csv:5: error: '-1' is not a number above 0; write the limit with a decimal point\n"
        "targets.csv:6: error: '0' is not a number above 0; write the limit with a decimal point\n"
        "targets.csv:7: error: '1,5' is not a number above 0; write the limit with a decimal point\n"
        "targets.csv:8: error: '01.02.2026' is not a date; write YYYY-MM-DD, or nothing for no bound\n"
        "targets.csv:9: error: '2026-13-01' is not a date; write YYYY-MM-DD, or nothing for no bound\n"
        "targets.csv:10: error: valid_until 2026-01-31 is before valid_from 2026-02-01; correct one of them\n"
        "targets.csv:11: error: target 'T' names no source; say who set it and where\n");
}

TEST_CASE("a targets file outside the folder or absent is refused by its own key", "[intake]") {
  const Folder folder;
  for (const auto& [location, words] :
       {std::pair<std::string, std::string>{"../outside.csv", "is not inside the folder of the settings"},
        {"none.csv", "'none.csv' is not there; put the file beside the settings"}}) {
    INFO(location);
    Settings settings;
    settings.set("carbon.targets_file", location);
    Diagnostics diagnostics;
    CHECK(read_settings_files(settings, folder.root / "inside", "settings.json", diagnostics).empty());
    const std::string found = intake_test::all_of(diagnostics);
    CHECK(found.find("settings.json: error: carbon.targets_file: ") == 0);
    CHECK(found.find(words) != std::string::npos);
  }
}

TEST_CASE("the rates file is read from the folder of the settings and kept as read", "[intake]") {
  const Folder folder;
  Settings settings;
  settings.set("quantities.rates_file", std::string("rates.csv"));
  Diagnostics diagnostics;
  const auto files = read_settings_files(settings, folder.root / "inside", "settings.json", diagnostics);
  CHECK(diagnostics.empty());
  REQUIRE(files.size() == 1);
  CHECK(files[0].location == "rates.csv");
  CHECK(files[0].bytes == kHeader + "Wood,m3,400,GBP,own\n");
  CHECK(settings.number("quantities.rates.0.rate")->value == 400.0);
}

TEST_CASE("a rates file outside the folder, absent, too large or of another kind is refused", "[intake]") {
  const Folder folder;
  const std::string key = "settings.json: error: quantities.rates_file: ";
  const std::string outside = "is not inside the folder of the settings; not followed";
  CHECK(folder.refusal_of("../outside.csv").find(outside) != std::string::npos);
  CHECK(folder.refusal_of((folder.root / "outside.csv").string()).find(outside) != std::string::npos);
  fs::create_symlink(folder.root / "outside.csv", folder.root / "inside/link.csv");
  CHECK(folder.refusal_of("link.csv").find(outside) != std::string::npos);
  CHECK(folder.refusal_of("none.csv") == key + "'none.csv' is not there; put the file beside the settings\n");
  CHECK(folder.refusal_of("rates.txt") == key + "'rates.txt' does not name a .csv file; name a CSV file\n");
  std::ofstream(folder.root / "inside/large.csv") << std::string(kLargestSettingsFile_bytes + 1, '#');
  CHECK(folder.refusal_of("large.csv") ==
        key + "'large.csv' is larger than 4 MiB; keep the rows of this project only\n");
}

TEST_CASE("rates in the settings and in a file at once are refused", "[intake]") {
  const Folder folder;
  Settings settings;
  settings.set("quantities.rates_file", std::string("rates.csv"));
  settings.set("quantities.rates.0.material", std::string("Wood"));
  Diagnostics diagnostics;
  CHECK(read_settings_files(settings, folder.root / "inside", "settings.json", diagnostics).empty());
  CHECK(intake_test::all_of(diagnostics) ==
        "settings.json: error: quantities.rates_file: 'quantities.rates' is given too; keep one of them\n");
}

}  // namespace
}  // namespace panel_dossier
