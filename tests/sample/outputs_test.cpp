// What a build of the sample leaves in its folder.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "tests/sample/sample_build.h"
#include "tests/seal/archival_rules.h"
#include "tests/support/text_boxes.h"
#include "tests/support/text_sizes.h"

using namespace panel_dossier;
using nlohmann::json;

namespace {

const std::set<std::string> kDisciplines{"thermal", "structural", "fire", "carbon", "quantities"};

/// Keep it in a variable: a reference into a temporary document would dangle.
std::string discipline_of(const json& finding) {
  const std::string check = finding.at("check");
  return check.substr(0, check.find('.'));
}

/// A statement in words, such as that a panel stops nobody from falling, has nothing to work out.
bool was_computed(const json& finding) {
  return finding.at("verdict") != "not assessed" && finding.at("verdict") != "evidence needed" &&
         finding.at("value").is_number();
}

}  // namespace

TEST_CASE("Every promised file is written and nothing else") {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(sample_out())) names.insert(entry.path().filename());
  CHECK(names == std::set<std::string>{"dossier.pdf", "results.json", "checks.xml", "quantities.csv", "cutting.csv",
                                       "carbon.csv", "deliveries.csv", "batches.csv", "labels.pdf", "panel-labels.pdf",
                                       "build.log", "open-points.csv", "workshop.pdf", "companion.html", "cobie.xlsx",
                                       "tables.xlsx", "workshop.xlsx", "signing-certificate.pem", "calendar.ics"});
}

TEST_CASE("Every panel has findings of all five disciplines", "[outputs]") {
  const json& document = sample_results();
  CHECK(document.at("panels").size() >= 60);
  for (const json& panel : document.at("panels")) {
    INFO(panel.at("mark"));
    std::set<std::string> disciplines;
    for (const json& finding : panel.at("findings")) disciplines.insert(discipline_of(finding));
    CHECK(disciplines == kDisciplines);
  }
}

TEST_CASE("Every computed finding of a panel has inputs, steps and a clause", "[outputs]") {
  const json& document = sample_results();
  for (const json& panel : document.at("panels")) {
    for (const json& finding : panel.at("findings")) {
      if (!was_computed(finding)) continue;
      INFO(panel.at("mark") << " " << finding.at("check"));
      CHECK_FALSE(derivation_of(finding).at("inputs").empty());
      CHECK_FALSE(derivation_of(finding).at("steps").empty());
      CHECK_FALSE(finding.at("clause").get<std::string>().empty());
    }
  }
}

TEST_CASE("The sample has at least six panel types over three storeys", "[outputs]") {
  const json& document = sample_results();
  std::set<std::string> types;
  std::set<std::string> storeys;
  for (const json& panel : document.at("panels")) {
    types.insert(panel.at("type"));
    storeys.insert(panel.at("storey"));
  }
  CHECK(types.size() >= 6);
  CHECK(storeys.size() == 3);
}

TEST_CASE("The only check that fails is the one meant to", "[outputs]") {
  const json& document = sample_results();
  std::map<std::string, std::set<std::string>> failing;
  for (const json& panel : document.at("panels")) {
    for (const json& finding : panel.at("findings")) {
      if (finding.at("verdict") == "fail") failing[finding.at("check")].insert(panel.at("mark"));
    }
  }
  REQUIRE(failing.size() == 1);
  CHECK(failing.begin()->first == "quantities.as_built_size");
  CHECK(failing.begin()->second.size() == 1);
}

TEST_CASE("No plugin failed", "[outputs]") {
  const json& build = sample_results().at("build");
  CHECK(build.at("incomplete") == false);
  CHECK(build.at("failures").empty());
  CHECK(build.at("plugins").size() == 5);
}

TEST_CASE("results.json validates against its schema", "[plain]") {
  const auto schema = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas" / "results.schema.json";
  const CommandResult result =
      run_command("/usr/bin/python3 -m jsonschema -i " + quoted(sample_out() / "results.json") + " " + quoted(schema));
  INFO(result.err);
  CHECK(result.status == 0);
}

TEST_CASE("checks.xml counts as many failures as results.json") {
  const CommandResult result = run_command("grep -c '<failure' " + quoted(sample_out() / "checks.xml"));
  CHECK(result.out == "1\n");
}

TEST_CASE("quantities.csv has a line a panel, a head and a total", "[outputs]") {
  const std::string text = text_of(sample_out() / "quantities.csv");
  const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
  CHECK(lines == sample_results().at("panels").size() + 2);
}

TEST_CASE("The client's workbook has no costs and no cutting lists, the workshop's has both") {
  // The sheets' own names and heads: in cells of text, as they stand in the parts of the workbook.
  const auto holds = [](const char* book, const char* text) {
    return run_command(
               "/usr/bin/python3 -c \"import sys, zipfile; z = zipfile.ZipFile(sys.argv[1]); "
               "sys.exit(0 if any(sys.argv[2].encode() in z.read(n) for n in z.namelist()) else 1)\" " +
               quoted(sample_out() / book) + " '" + text + "'")
               .status == 0;
  };
  for (const char* text : {">costs<", ">currency<", ">erection time [h]<", "name=\"cutting\"", "name=\"deliveries\""}) {
    INFO(text);
    CHECK(holds("workshop.xlsx", text));
    CHECK_FALSE(holds("tables.xlsx", text));
  }
  for (const char* text : {">mass [kg]<", ">area [m²]<", "name=\"batches\"", "name=\"carbon\""})
    CHECK(holds("tables.xlsx", text));
}

TEST_CASE("deliveries.csv has a line a panel and a head", "[outputs]") {
  const std::string text = text_of(sample_out() / "deliveries.csv");
  const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
  CHECK(lines == sample_results().at("panels").size() + 1);
  CHECK(text.starts_with("load,place,panel,storey,row,behind_headboard_m,stands_on,mass_kg,erected_on,global_id\r\n"));
}

TEST_CASE("deliveries.csv weighs each load and the project to the last digit", "[outputs]") {
  std::istringstream lines(text_of(sample_out() / "deliveries.csv"));
  std::string line;
  std::getline(lines, line);
  const auto milligrams = [](double mass_kg) { return std::llround(mass_kg * 1.0e6); };
  std::map<std::string, long long> loads;
  long long total = 0;
  while (std::getline(lines, line)) {
    std::vector<std::string> cells;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
    REQUIRE(cells.size() == 10);
    const long long mass_mg = milligrams(std::stod(cells[7]));
    loads[cells[0]] += mass_mg;
    total += mass_mg;
  }
  const json& document = sample_results();
  for (const json& finding : document.at("project_findings")) {
    if (finding.at("check") == "quantities.mass") CHECK(total == milligrams(finding.at("value").get<double>()));
    if (finding.at("check") != "quantities.deliveries") continue;
    const json& rows = derivation_of(finding).at("tables").at(0).at("rows");
    REQUIRE(rows.size() == loads.size());
    for (const json& row : rows) {
      const std::string load = std::to_string(row.at(0).get<int>());
      CHECK(loads.at(load) == milligrams(row.at(2).get<double>()));
    }
  }
}

TEST_CASE("cutting.csv shows mitred ends and drilled holes") {
  const std::string text = text_of(sample_out() / "cutting.csv");
  CHECK_THAT(text, Catch::Matchers::Contains(",ends 45° and 90°,") &&
                       Catch::Matchers::Contains(",\"rectangular, holes 20 mm at 1005\","));
}

TEST_CASE("labels.pdf has a label for each piece of cutting.csv but slabs of insulation") {
  std::istringstream lines(text_of(sample_out() / "cutting.csv"));
  std::string line;
  std::getline(lines, line);
  CHECK(line.starts_with(
      "mark,type,storey,batch,erection_order,part_mark,kind,material,thickness_mm,width_mm,length_mm,count,"));
  constexpr int kColumnsBeforeCount = 11;
  int pieces = 0;
  while (std::getline(lines, line)) {
    std::istringstream fields(line);
    constexpr int kColumnsBeforeKind = 6;
    std::string kind;
    std::string field;
    for (int i = 0; i <= kColumnsBeforeCount; ++i) {
      std::getline(fields, field, ',');
      if (i == kColumnsBeforeKind) kind = field;
    }
    if (kind != "insulation") pieces += std::stoi(field);
  }
  const CommandResult extracted = run_command("pdftotext -layout " + quoted(sample_out() / "labels.pdf") + " -");
  CHECK(extracted.err.empty());
  const std::regex counted("\\b[0-9]+ of [0-9]+\\b");
  const auto labels = std::distance(std::sregex_iterator(extracted.out.begin(), extracted.out.end(), counted), {});
  CHECK(labels == pieces);
}

TEST_CASE("No cutting plan loses more than the waste that is declared for A5", "[outputs]") {
  std::size_t materials = 0;
  const json& document = sample_results();
  for (const json& finding : document.at("project_findings")) {
    for (const json& table : derivation_of(finding).at("tables")) {
      if (table.at("title") != "Loss in the plan and waste declared for A5") continue;
      for (const json& row : table.at("rows")) {
        INFO(row);
        ++materials;
        CHECK(row.at(1).get<double>() <= row.at(2).get<double>());
        CHECK(row.at(3) == "");
      }
    }
  }
  CHECK(materials == 7);
}

TEST_CASE("qpdf finds the dossier sound", "[plain]") {
  const CommandResult result = run_command("qpdf --check " + quoted(sample_out() / "dossier.pdf"));
  INFO(result.out << result.err);
  CHECK(result.status == 0);
  CHECK_THAT(result.out, Catch::Matchers::Contains("No syntax or stream encoding errors found"));
}

TEST_CASE("Text extracts without a warning and holds the figures of results.json", "[outputs]") {
  const CommandResult& extracted = sample_pages();
  CHECK(extracted.status == 0);
  CHECK(extracted.err.empty());
  const json& document = sample_results();
  CHECK_THAT(extracted.out, Catch::Matchers::Contains(document.at("project").at("name").get<std::string>()));
  for (const json& panel : document.at("panels")) {
    INFO(panel.at("mark"));
    CHECK(extracted.out.find(panel.at("mark").get<std::string>()) != std::string::npos);
    CHECK(extracted.out.find(panel.at("global_id").get<std::string>()) != std::string::npos);
  }
  CHECK_THAT(extracted.out, Catch::Matchers::Contains("EN ISO 6946:2017") && Catch::Matchers::Contains("W/(m²·K)"));
}

TEST_CASE("The root of the hash tree is printed in full on the cover", "[outputs]") {
  const CommandResult cover =
      run_command("pdftotext -l 1 " + quoted(sample_out() / "dossier.pdf") + " - | tr -d ' \\n'");
  CHECK(cover.out.find(sample_results().at("build").at("hash_tree_root").get<std::string>()) != std::string::npos);
}

TEST_CASE("Every page says that the dossier is not signed for issue", "[outputs]") {
  const std::string& text = sample_pages().out;
  std::size_t pages = 0;
  std::size_t start = 0;
  for (std::size_t end = text.find('\f'); end != std::string::npos; end = text.find('\f', start)) {
    ++pages;
    INFO("page " << pages);
    CHECK(text.substr(start, end - start).find("NOT SIGNED FOR ISSUE") != std::string::npos);
    start = end + 1;
  }
  CHECK(pages > 100);
}

TEST_CASE("The signed dossier of the sample keeps the rules of PDF/A-3u and of tagged structure", "[plain]") {
  for (const std::string& fault : testing::archival_faults(sample_out() / "dossier.pdf")) FAIL_CHECK(fault);
}

TEST_CASE("No word of the sample's pages stands over another or leaves its page", "[plain]") {
  for (const char* file : {"dossier.pdf", "workshop.pdf"}) {
    for (const std::string& fault : testing::overprinted_words(sample_out() / file)) FAIL_CHECK(file << ", " << fault);
  }
}

TEST_CASE("No text of the sample's pages is set smaller than 8 pt", "[plain]") {
  for (const char* file : {"dossier.pdf", "workshop.pdf"}) {
    for (const std::string& fault : testing::pages_with_small_text(sample_out() / file, 8.0))
      FAIL_CHECK(file << ", " << fault);
  }
}

TEST_CASE("All fonts are embedded and subset", "[plain]") {
  const CommandResult fonts = run_command("pdffonts " + quoted(sample_out() / "dossier.pdf") + " | tail -n +3");
  CHECK(fonts.err.empty());
  CHECK_FALSE(fonts.out.empty());
  const CommandResult others =
      run_command("pdffonts " + quoted(sample_out() / "dossier.pdf") + " | tail -n +3 | grep -v 'yes yes yes' | wc -l");
  CHECK(others.out == "0\n");
}

TEST_CASE("pdfsig confirms the signature over the whole document") {
  const CommandResult result = run_command("pdfsig " + quoted(sample_out() / "dossier.pdf"));
  CHECK_THAT(result.out, Catch::Matchers::Contains("Signature is Valid") &&
                             Catch::Matchers::Contains("Total document signed") &&
                             Catch::Matchers::Contains("SHA-256") && Catch::Matchers::Contains("ETSI.CAdES.detached"));
}

TEST_CASE("openssl confirms the detached signature over the bytes that ByteRange names") {
  const std::string bytes = text_of(sample_out() / "dossier.pdf");
  const std::size_t contents = bytes.rfind("/Contents <") + 11;
  const std::size_t end = bytes.find('>', contents);
  const testing::TemporaryFolder folder;
  std::ofstream(folder.path() / "signed", std::ios::binary) << bytes.substr(0, contents - 1) << bytes.substr(end + 1);
  std::ofstream(folder.path() / "signature.hex") << bytes.substr(contents, end - contents);
  const CommandResult result =
      run_command("cd " + quoted(folder.path()) +
                  " && /usr/bin/python3 -c \"open('signature', 'wb').write(bytes.fromhex("
                  "open('signature.hex').read()))\" && openssl cms -verify -binary -noverify -inform DER -in signature "
                  "-content signed -out /dev/null");
  INFO(result.err);
  CHECK(result.status == 0);
  CHECK_THAT(result.err, Catch::Matchers::Contains("CMS Verification successful"));
}

TEST_CASE("verify confirms the dossier from the PDF alone, and one panel of it by itself") {
  const testing::TemporaryFolder elsewhere;
  std::filesystem::copy_file(sample_out() / "dossier.pdf", elsewhere.path() / "d.pdf");
  const std::string verify = quoted(PANEL_DOSSIER_PROGRAM) + " verify " + quoted(elsewhere.path() / "d.pdf") +
                             " --at " PANEL_DOSSIER_SAMPLE_TIME;
  const CommandResult result =
      run_command(verify + " --json --panel E1-01 --trust " + quoted(sample_out() / "signing-certificate.pem"));
  INFO(result.out << result.err);
  CHECK(result.status == 0);
  std::ofstream(elsewhere.path() / "answers.json") << result.out;
  CHECK(run_command("/usr/bin/python3 -m jsonschema -i " + quoted(elsewhere.path() / "answers.json") +
                    " " PANEL_DOSSIER_SOURCE_DIR "/schemas/verification.schema.json")
            .status == 0);
  const json answers = json::parse(result.out);
  CHECK(answers.at("answer") == "holds");
  CHECK(answers.at("for_issue") == false);
  CHECK(answers.at("signatures").at(0).at("role") == "author");
  CHECK_THAT(result.out, Catch::Matchers::Contains("panel 'E1-01': its hash leads to the signed root") &&
                             Catch::Matchers::Contains("panel 'E1-01': its pages are those that were signed") &&
                             Catch::Matchers::Contains("60 of 60 panels have pages in this file"));
}

TEST_CASE("verify leaves open who signed where nobody is named, and refuses a file that is not there", "[plain]") {
  const std::string verify = quoted(PANEL_DOSSIER_PROGRAM) + " verify " + quoted(sample_out() / "dossier.pdf");
  const CommandResult unnamed = run_command(verify + " --at " PANEL_DOSSIER_SAMPLE_TIME);
  CHECK(unnamed.status == 4);
  CHECK_THAT(unnamed.out, Catch::Matchers::Contains("OPEN   signer trusted: nobody was named whom you trust") &&
                              Catch::Matchers::Contains("not signed for issue") &&
                              !Catch::Matchers::Contains("is intact"));
  CHECK(run_command(verify + " --trust /nonexistent.pem").status == 2);
}

TEST_CASE("verify refuses a dossier with one byte changed in the middle", "[plain]") {
  const testing::TemporaryFolder folder;
  std::string bytes = text_of(sample_out() / "dossier.pdf");
  bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 1);
  std::ofstream(folder.path() / "d.pdf", std::ios::binary) << bytes;
  const CommandResult result =
      run_command(quoted(PANEL_DOSSIER_PROGRAM) + " verify " + quoted(folder.path() / "d.pdf"));
  CHECK(result.status == 1);
}

TEST_CASE("trace shows the inputs of a panel with their lines in the export", "[outputs]") {
  const std::string mark = sample_results().at("panels").at(0).at("mark");
  const CommandResult result =
      run_command(quoted(PANEL_DOSSIER_PROGRAM) + " trace " + quoted(sample_out()) + " " + mark);
  CHECK(result.status == 0);
  CHECK_THAT(result.out, Catch::Matchers::Contains("thermal.u_value") && Catch::Matchers::Contains("line "));
}

TEST_CASE("The panel with missing evidence asks for it and does not pass", "[outputs]") {
  const json& document = sample_results();
  std::size_t asking = 0;
  for (const json& panel : document.at("panels")) {
    for (const json& finding : panel.at("findings")) {
      if (discipline_of(finding) == "fire" && finding.at("verdict") == "evidence needed") ++asking;
    }
  }
  CHECK(asking >= 1);
}
