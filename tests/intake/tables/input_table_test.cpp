#include "core/intake/tables/input_table.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "core/intake/tables/cell_reader.h"
#include "core/intake/tables/table_limits.h"

using namespace panel_dossier;

namespace {

struct ReadTable {
  std::optional<InputTable> table;
  Diagnostics diagnostics;
};

ReadTable csv_table_of(const std::string& text) {
  ReadTable read;
  read.table = read_input_table(text, "boards.csv", "boards", read.diagnostics);
  return read;
}

/// `3:2 what is wrong`: row and column of the first diagnostic with its message.
std::string first_fault(const Diagnostics& diagnostics) {
  if (diagnostics.empty()) return "none";
  const Diagnostic& first = diagnostics.front();
  return std::to_string(first.line) + ":" + std::to_string(first.column) + " " + first.message;
}

}  // namespace

TEST_CASE("a head is a title and a unit, and a row keeps its line") {
  const auto read = csv_table_of("# a list\nProduct,Thermal conductivity [W/(m·K)]\n\nOak board,0.18\n");
  REQUIRE(read.table);
  CHECK(read.diagnostics.empty());
  CHECK(read.table->columns[1].title == "Thermal conductivity");
  CHECK(read.table->columns[1].unit == "W/(m·K)");
  CHECK(read.table->columns[1].number == 2);
  REQUIRE(read.table->rows.size() == 1);
  CHECK(read.table->rows[0].number == 4);
  CHECK(read.table->rows[0].cells == std::vector<std::string>{"Oak board", "0.18"});
  CHECK(read.table->column("product") == 0U);
  CHECK_FALSE(read.table->column("width"));
}

TEST_CASE("commas, semicolons and tabs separate, lines end in every way") {
  const std::string text = GENERATE("a,b\n1,2\n3,4\n", "a;b\r\n1;2\r\n3;4\r\n", "a\tb\r1\t2\r3\t4",
                                    "\xEF\xBB\xBF"
                                    "a;b\n1;2\n3;4");
  const auto read = csv_table_of(text);
  REQUIRE(read.table);
  REQUIRE(read.table->rows.size() == 2);
  CHECK(read.table->rows[1].cells == std::vector<std::string>{"3", "4"});
  CHECK(read.table->rows[1].number == 3);
}

TEST_CASE("a quoted field holds separators, quotes and line breaks") {
  const auto read = csv_table_of("a;b\n\"one; \"\"two\"\"\nthree\";2\n\"x\";4\n");
  REQUIRE(read.table);
  CHECK(read.table->rows[0].cells[0] == "one; \"two\"\nthree");
  CHECK(read.table->rows[1].number == 4);
}

TEST_CASE("a column without a title is left out where it is empty") {
  const auto read = csv_table_of("a;b;\n1;2;\n");
  REQUIRE(read.table);
  CHECK(read.table->columns.size() == 2);
  CHECK(read.table->rows[0].cells.size() == 2);
}

TEST_CASE("a table that is faulty is refused at the place of the fault") {
  struct BadTable {
    const char* label;
    std::string text;
    const char* fault;
  };
  const auto bad = GENERATE(values<BadTable>(
      {{"empty", "", "0:0 the file is empty"},
       {"comments only", "# a\n", "0:0 the table has no head row"},
       {"one column", "a|b\n1|2\n", "1:0 the head row has one column only"},
       {"title twice", "a,B,b\n1,2,3\n", "1:3 the title 'b' stands over columns 2 and 3"},
       {"title twice but for its unit", "a [m],a [mm]\n1,2\n", "1:2 the title 'a' stands over columns 1 and 2"},
       {"no title above a cell", "a,b,\n1,2,\n1,2,3\n", "3:3 column 3 has no title above this cell"},
       {"short row", "a,b,c\n1,2\n1,2,3\n", "2:0 the row has 2 fields and the head row 3"},
       {"long row", "a,b\n1,2\n1,2,3\n", "3:0 the row has 3 fields and the head row 2"},
       {"other separator below", "a;b;c\n1,2,3\n4,5,6\n",
        "2:0 the head row is separated by ';', but no row below has as many fields: the row has 1 field "
        "and the head row 3"},
       {"open quote", "a,b\n1,\"2\n3,4\n", "2:0 a quoted field is not closed"},
       {"UTF-16",
        std::string("\xFF\xFE"
                    "a\0,\0b\0",
                    8),
        "1:1 the file is not in UTF-8 (it looks like UTF-16)"},
       {"Latin 1", "a,b\n1,L\xE4rche\n", "2:4 the file is not valid UTF-8 from this byte on"},
       {"binary", std::string("a,b\n1,\0\n", 8), "2:3 the file holds a zero byte, as no text does"},
       {"archive", "PK\x03\x04 and more", "0:0 this is an archive and no text: a workbook under another name"},
       {"long cell", "a,b\n1," + std::string(kLongestCell_bytes + 1, 'x') + "\n",
        "2:2 a cell is longer than 32767 bytes"}}));
  INFO(bad.label);
  const auto read = csv_table_of(bad.text);
  CHECK_FALSE(read.table);
  CHECK(first_fault(read.diagnostics) == bad.fault);
}

TEST_CASE("a table beyond the limits ends with one error") {
  std::string many_rows = "a,b\n";
  for (std::size_t i = 0; i <= kMostTableRows; ++i) many_rows += "1,2\n";
  const auto rows = csv_table_of(many_rows);
  CHECK_FALSE(rows.table);
  REQUIRE(rows.diagnostics.size() == 1);
  CHECK(first_fault(rows.diagnostics) == "250002:0 the table has more than 250000 rows");

  const auto columns = csv_table_of("a" + std::string(kMostTableColumns, ',') + "\n");
  CHECK(first_fault(columns.diagnostics) == "1:0 the table has more than 400 columns");
}

TEST_CASE("a file that is not there, is a folder or has another ending is refused") {
  const panel_dossier::testing::TemporaryFolder folder;
  Diagnostics diagnostics;
  CHECK_FALSE(read_input_table(folder.path() / "boards.csv", "boards.csv", diagnostics));
  CHECK_FALSE(read_input_table(folder.path(), "folder", diagnostics));
  CHECK_FALSE(read_input_table(folder.write("boards.ods", "x"), "boards.ods", diagnostics));
  REQUIRE(diagnostics.size() == 3);
  CHECK(diagnostics[0].message == "there is no such file");
  CHECK(diagnostics[1].message == "this is no file but a folder, pipe or device");
  CHECK(diagnostics[2].message == "this is neither a .csv nor a .xlsx file");
}

TEST_CASE("a row is the origin of its values") {
  const auto read = csv_table_of("a,b\n1,2\n");
  REQUIRE(read.table);
  const Origin origin = table_origin(*read.table, read.table->rows[0], "Set.Property", "a test report, 2026-03-01");
  CHECK(describe(origin) == "boards.csv, row 2, Set.Property (a test report, 2026-03-01)");
}

TEST_CASE("a mark that begins with # is a row where it is quoted, and told of where it is not") {
  const auto quoted = csv_table_of("mark,result\n\"#S0-01\",REJECTED\n\"# checked, twice\",\n");
  REQUIRE(quoted.table);
  CHECK(quoted.diagnostics.empty());
  REQUIRE(quoted.table->rows.size() == 1);
  CHECK(quoted.table->rows[0].cells[0] == "#S0-01");
  const auto plain = csv_table_of("# mark,result\nmark,result\n# of the workshop\n#S0-01,REJECTED\n");
  REQUIRE(plain.table);
  CHECK(plain.table->rows.empty());
  REQUIRE(plain.diagnostics.size() == 1);
  CHECK(plain.diagnostics[0].severity == Severity::warning);
  CHECK(first_fault(plain.diagnostics) ==
        "4:0 the row begins with '#' and is passed over as a comment; others like it are too");
}

TEST_CASE("a row that an open quote takes into a note is told of") {
  const auto read =
      csv_table_of("mark,result,note\nS0-01,ACCEPTED,\"seal, sill\nS0-02,REJECTED,torn\"\nS0-03,OPEN,\"two\nlines\"\n");
  REQUIRE(read.table);
  REQUIRE(read.diagnostics.size() == 1);
  CHECK(first_fault(read.diagnostics) ==
        "2:3 the quoted cell holds a line that looks like a row of the table, which is not read as one");
}
