// Tables that plugins write: how a row becomes a line, and the page that describes them.
#include "core/pipeline/outputs.h"

#include <catch2/catch.hpp>
#include <stdexcept>
#include <string>

#include "core/api/support/text_encoding.h"
#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;

namespace {

OutputTable table_of(std::vector<OutputRow> rows) {
  return {{"pieces.csv",
           "Pieces",
           "One row a piece.",
           {{"mark", "", "mark | of the panel"}, {"length_mm", "mm", "length"}, {"note", "", "free text"}}},
          std::move(rows)};
}

/// Whether a declaration of that file and column is taken.
bool is_taken(const std::string& file, const std::string& column) {
  const testing::TemporaryFolder folder;
  const auto json = folder.write("outputs.json", R"({"outputs": [{"file": ")" + file +
                                                     R"(", "title": "T", "description": "D", "columns": [{"name": ")" +
                                                     column + R"(", "meaning": "M"}]}]})");
  try {
    return read_outputs(json).size() == 1;
  } catch (const std::runtime_error&) {
    return false;
  }
}

}  // namespace

TEST_CASE("A table is named plainly and ends in .csv, a column is one word") {
  for (const char* file : {"areas.csv", "a-1_b.csv", "0.csv"}) CHECK(is_taken(file, "mark"));
  for (const char* file :
       {"", ".csv", "areas", "areas.txt", "areas.csv.txt", "Areas.csv", "a b.csv", "a.b.csv", "/a.csv", "../a.csv"}) {
    INFO(file);
    CHECK_FALSE(is_taken(file, "mark"));
  }
  for (const char* column : {"m", "Mark_2", "aZ09_"}) CHECK(is_taken("areas.csv", column));
  for (const char* column : {"", "2a", "_a", "a b", "a-b", "länge"}) {
    INFO(column);
    CHECK_FALSE(is_taken("areas.csv", column));
  }
}

TEST_CASE("A declaration whose texts are missing, or no texts, is refused with their name") {
  const auto said_of = [](const std::string& title, const std::string& columns) {
    const testing::TemporaryFolder folder;
    try {
      read_outputs(folder.write("outputs.json", R"({"outputs": [{"file": "a.csv", )" + title +
                                                    R"("description": "D", "columns": )" + columns + "}]}"));
    } catch (const std::runtime_error& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  const std::string column = R"([{"name": "m", "meaning": "M"}])";
  CHECK(said_of(R"("title": "T", )", column).empty());
  for (const char* title : {"", R"("title": 5, )", R"("title": null, )"}) {
    CHECK_THAT(said_of(title, column), Catch::Matchers::Contains(" has no text 'title'"));
  }
  for (const char* columns : {"[]", "{}", "5"}) {
    CHECK_THAT(said_of(R"("title": "T", )", columns), Catch::Matchers::Contains(" has no list 'columns'"));
  }
  CHECK_THAT(said_of(R"("title": "T", )", R"(["m"])"), Catch::Matchers::Contains(" has a column that is no object"));
}

TEST_CASE("A table or a column can be for the workshop, and the page says so") {
  const auto read = [](const std::string& table, const std::string& column) {
    const testing::TemporaryFolder folder;
    return read_outputs(folder.write("outputs.json",
                                     R"({"outputs": [{"file": "a.csv", "title": "T", "description": "D.")" + table +
                                         R"(, "columns": [{"name": "m", "meaning": "M")" + column + "}]}]}"))
        .front();
  };
  CHECK_FALSE(read("", "").for_workshop);
  CHECK_FALSE(read("", "").columns[0].for_workshop);
  CHECK(read(R"(, "for_workshop": true)", "").for_workshop);
  CHECK(read("", R"(, "for_workshop": true)").columns[0].for_workshop);
  CHECK_THROWS_WITH(read(R"(, "for_workshop": "yes")", ""),
                    "output 'a.csv' has a 'for_workshop' that is neither true nor false");
  const std::string page = outputs_page({{"Workshop", read(R"(, "for_workshop": true)", R"(, "for_workshop": true)")}});
  CHECK_THAT(page, Catch::Matchers::Contains("Workshop: T. D. For the workshop.\n"));
  CHECK_THAT(page, Catch::Matchers::Contains("| `m` | | M; for the workshop |\n"));
}

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
