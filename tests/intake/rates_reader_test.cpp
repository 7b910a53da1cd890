// The file of material rates: keys of the settings, and every fault with its line.
#include "core/intake/rates_reader.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <string>

#include "core/intake/known_settings.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

namespace fs = std::filesystem;

const std::string kHeader = "material,unit,rate,currency,source\n";

std::string problems(const std::string& text) {
  Settings settings;
  Diagnostics diagnostics;
  read_rates(settings, text, "rates.csv", diagnostics);
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
    CHECK_FALSE(read_rates_file(settings, root / "inside", "settings.json", diagnostics));
    CHECK(settings.all().size() == 1);
    return intake_test::all_of(diagnostics);
  }
};

TEST_CASE("rows of the rates file become numbered settings that are known", "[intake]") {
  Settings settings;
  Diagnostics diagnostics;
  read_rates(
      settings,
      "\xEF\xBB\xBF# prices\r\n" + kHeader + "\"Wood, planed\",m3,412.5,GBP,quote 1\r\n\nScrews,piece,0,GBP,own\n",
      "rates.csv", diagnostics);
  CHECK(diagnostics.empty());
  CHECK(settings.text("quantities.rates.0.material")->value == "Wood, planed");
  CHECK(settings.text("quantities.rates.0.unit")->value == "m3");
  CHECK(settings.number("quantities.rates.0.rate")->value == 412.5);
  CHECK(settings.number("quantities.rates.0.rate")->origin.key == "quantities.rates.0.rate");
  CHECK(settings.text("quantities.rates.1.currency")->value == "GBP");
  CHECK(settings.text("quantities.rates.1.source")->value == "own");
  CHECK(settings.all().size() == 10);
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
        "rates.csv: error: the file gives no rate; add a row for each material, or leave the setting out\n");
  CHECK(problems(kHeader + "\xFF,m,1,GBP,s\n").find("rates.csv:2:1: error: the file is not valid UTF-8") == 0);
}

TEST_CASE("the rates file is read from the folder of the settings and kept as read", "[intake]") {
  const Folder folder;
  Settings settings;
  settings.set("quantities.rates_file", std::string("rates.csv"));
  Diagnostics diagnostics;
  const auto file = read_rates_file(settings, folder.root / "inside", "settings.json", diagnostics);
  CHECK(diagnostics.empty());
  REQUIRE(file);
  CHECK(file->location == "rates.csv");
  CHECK(file->bytes == kHeader + "Wood,m3,400,GBP,own\n");
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
  std::ofstream(folder.root / "inside/large.csv") << std::string(kLargestRatesFile_bytes + 1, '#');
  CHECK(folder.refusal_of("large.csv") ==
        key + "'large.csv' is larger than 4 MiB; keep the materials of this project only\n");
}

TEST_CASE("rates in the settings and in a file at once are refused", "[intake]") {
  const Folder folder;
  Settings settings;
  settings.set("quantities.rates_file", std::string("rates.csv"));
  settings.set("quantities.rates.0.material", std::string("Wood"));
  Diagnostics diagnostics;
  CHECK_FALSE(read_rates_file(settings, folder.root / "inside", "settings.json", diagnostics));
  CHECK(intake_test::all_of(diagnostics) ==
        "settings.json: error: quantities.rates_file: 'quantities.rates' is given too; keep one of them\n");
}

}  // namespace
}  // namespace panel_dossier
