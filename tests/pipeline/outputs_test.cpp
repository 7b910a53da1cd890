// Tables that plugins write: how a row becomes a line, and the page that describes them.
#include "core/pipeline/outputs.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/api/support/text_encoding.h"

using namespace panel_dossier;

namespace {

OutputTable table_of(std::vector<OutputRow> rows) {
  return {{"pieces.csv",
           "Pieces",
           "One row a piece.",
           {{"mark", "", "mark | of the panel"}, {"length_mm", "mm", "length"}, {"note", "", "free text"}}},
          std::move(rows)};
}

}  // namespace

TEST_CASE("Numbers stand in their shortest exact form and an absent value is an empty cell") {
  CHECK(csv_of(table_of({{std::string("P1"), 0.1, Value{}}, {std::string("P2"), 2400.0, std::string("a")}})) ==
        "mark,length_mm,note\r\nP1,0.1,\r\nP2,2400,a\r\n");
}

TEST_CASE("Commas, quotes and line breaks are quoted, and what looks like a formula is shown as text") {
  CHECK(csv_of(table_of({{std::string("a,b"), 1.0, std::string("say \"no\"")}})) ==
        "mark,length_mm,note\r\n\"a,b\",1,\"say \"\"no\"\"\"\r\n");
  for (const std::string formula : {"=1+1", "+1", "-1", "@x", "\tx"}) {
    CHECK(csv_of(table_of({{formula, 1.0, Value{}}})) == "mark,length_mm,note\r\n'" + formula + ",1,\r\n");
  }
}

TEST_CASE("Lines stay in a cell, and what would hide text or turn it round is shown") {
  const std::string hostile = "a\nb\x1b[2J\xC2\x9B\xE2\x80\xAE";
  CHECK(csv_of(table_of({{hostile, 1.0, Value{}}})) ==
        "mark,length_mm,note\r\n\"a\nb<U+001B>[2J<U+009B><U+202E>\",1,\r\n");
}

TEST_CASE("A row of another length and text under a unit break the declaration") {
  CHECK(output_breach(table_of({{std::string("P1"), 1.0, Value{}}})).empty());
  CHECK(output_breach(table_of({{std::string("P1"), 1.0}})) == "output 'pieces.csv', row 1: 2 cells for 3 columns");
  CHECK(output_breach(table_of({{std::string("P1"), std::string("1"), Value{}}})) ==
        "output 'pieces.csv', row 1: column 'length_mm' in mm holds text");
}

TEST_CASE("The page of the outputs has a row for each column") {
  const std::string page = outputs_page({{"Workshop", table_of({}).declaration}});
  CHECK_THAT(page, Catch::Matchers::Contains("\n## pieces.csv\nWorkshop: Pieces. One row a piece.\n"));
  CHECK_THAT(page, Catch::Matchers::Contains("| `length_mm` | mm | length |\n"));
  CHECK_THAT(page, Catch::Matchers::Contains("| `mark` | | mark \\| of the panel |\n"));
}
