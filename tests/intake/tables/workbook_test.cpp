#include "core/intake/tables/workbook.h"

#include <catch2/catch.hpp>
#include <optional>
#include <string>
#include <vector>

#include "core/intake/tables/input_table.h"
#include "core/intake/tables/table_limits.h"
#include "tests/support/workbook_bytes.h"

using namespace panel_dossier;
using panel_dossier::testing::WorkbookBytes;
using panel_dossier::testing::zip_bytes;

namespace {

struct ReadWorkbook {
  std::optional<InputTable> table;
  Diagnostics diagnostics;
};

ReadWorkbook workbook_table(const std::string& bytes, const std::string& sheet = "boards") {
  ReadWorkbook read;
  read.table = read_input_table(bytes, "library.xlsx", sheet, read.diagnostics);
  return read;
}

/// The workbook with one sheet of a head `a`, `b` and one more row.
WorkbookBytes one_row(const std::string& cells, const std::string& after = {}) {
  WorkbookBytes book;
  book.sheets["boards"] =
      WorkbookBytes::sheet_of(WorkbookBytes::row(1, {"a", "b"}) + "<row r=\"2\">" + cells + "</row>", after);
  return book;
}

std::string first_message(const ReadWorkbook& read) {
  if (read.diagnostics.empty()) return "none";
  const Diagnostic& first = read.diagnostics.front();
  return std::to_string(first.line) + ":" + std::to_string(first.column) + " " + first.message;
}

std::string replaced(std::vector<std::pair<std::string, std::string>> parts, const std::string& name,
                     const std::string& content) {
  std::vector<std::pair<std::string, std::string>> kept;
  for (auto& part : parts) {
    if (part.first != name) kept.push_back(std::move(part));
  }
  if (!content.empty()) kept.emplace_back(name, content);
  return zip_bytes(kept);
}

}  // namespace

TEST_CASE("cells of every kind are read as what they show") {
  struct Cell {
    const char* label;
    const char* xml;
    const char* text;
  };
  const auto cell = GENERATE(values<Cell>({
      {"shared text", "<c t=\"s\"><v>0</v></c>", "Oak"},
      {"shared text of runs", "<c t=\"s\"><v>1</v></c>", "Spruce"},
      {"inline text", "<c t=\"inlineStr\"><is><t> larch </t></is></c>", "larch"},
      {"whole number", "<c><v>1200000</v></c>", "1200000"},
      {"long article number", "<c><v>4012345678901</v></c>", "4012345678901"},
      {"decimal", "<c><v>0.13000000000000001</v></c>", "0.13"},
      {"logical", "<c t=\"b\"><v>1</v></c>", "true"},
      {"formula with a value", "<c><f>1+1</f><v>2</v></c>", "2"},
      {"formula of a text", "<c t=\"str\"><f>A1</f><v>beech</v></c>", "beech"},
      {"day by a built-in format", "<c s=\"1\"><v>46082</v></c>", "2026-03-01"},
      {"day by a format of its own", "<c s=\"2\"><v>46082.5</v></c>", "2026-03-01T12:00"},
      {"first day", "<c s=\"1\"><v>1</v></c>", "1900-01-01"},
      {"day after the one that never was", "<c s=\"1\"><v>61</v></c>", "1900-03-01"},
      {"day as text", "<c t=\"d\"><v>2026-03-01T00:00:00</v></c>", "2026-03-01"},
      {"percentage", "<c s=\"3\"><v>0.15</v></c>", "15%"},
      {"time of day", "<c s=\"4\"><v>0.5</v></c>", "0.5"},
  }));
  INFO(cell.label);
  const auto read = workbook_table(one_row(cell.xml).bytes());
  REQUIRE(read.table);
  CHECK(read.diagnostics.empty());
  CHECK(read.table->rows[0].cells[0] == cell.text);
}

TEST_CASE("a formula may give an empty text") {
  const auto read = workbook_table(one_row("<c t=\"str\"><f>A1</f><v></v></c><c><v>1</v></c>").bytes());
  REQUIRE(read.table);
  CHECK(read.diagnostics.empty());
  CHECK(read.table->rows[0].cells[0].empty());
}

TEST_CASE("a row of a workbook that begins with # is passed over with a word") {
  WorkbookBytes book;
  book.sheets["boards"] =
      WorkbookBytes::sheet_of(WorkbookBytes::row(1, {"a", "b"}) + WorkbookBytes::row(2, {"#S0-01", "1"}));
  const auto read = workbook_table(book.bytes());
  REQUIRE(read.table);
  CHECK(read.table->rows.empty());
  CHECK(first_message(read) == "2:0 the row begins with '#' and is passed over as a comment; others like it are too");
}

TEST_CASE("serial numbers count from 1904 where the workbook says so") {
  WorkbookBytes book = one_row("<c s=\"1\"><v>44620</v></c>");
  book.from_1904 = true;
  const auto read = workbook_table(book.bytes());
  REQUIRE(read.table);
  CHECK(read.table->rows[0].cells[0] == "2026-03-01");
}

TEST_CASE("a cell that cannot be read is an error at its place") {
  struct BadCell {
    const char* label;
    const char* xml;
    const char* fault;
  };
  const auto bad = GENERATE(values<BadCell>({
      {"error", "<c r=\"B2\" t=\"e\"><v>#N/A</v></c>", "2:2 the cell holds the error '#N/A'"},
      {"formula without a value", "<c r=\"B2\"><f>1+1</f></c>", "2:2 the formula of the cell has no value"},
      {"formula of a text that was never calculated", "<c r=\"A2\" t=\"str\"><f>A1</f></c>",
       "2:1 the formula of the cell has no value"},
      {"no such text", "<c r=\"A2\" t=\"s\"><v>7</v></c>", "2:1 the cell names a text that the workbook does not hold"},
      {"no number", "<c r=\"A2\"><v>abc</v></c>", "2:1 the number 'abc' of the cell cannot be read"},
      {"29 February 1900", "<c r=\"A2\" s=\"1\"><v>60</v></c>",
       "2:1 the cell has the format of a date, but 60 is the number of no day"},
      {"day before all days", "<c r=\"A2\" s=\"1\"><v>-1</v></c>",
       "2:1 the cell has the format of a date, but -1 is the number of no day"},
      {"cells in disorder", "<c r=\"B2\"><v>1</v></c><c r=\"A2\"><v>1</v></c>",
       "2:3 the cells of the row are not in their order"},
      {"column far out", "<c r=\"XFD2\"><v>1</v></c>", "2:16384 a cell stands behind column 400"},
  }));
  INFO(bad.label);
  const auto read = workbook_table(one_row(bad.xml).bytes());
  CHECK_FALSE(read.table);
  CHECK(first_message(read) == bad.fault);
}

TEST_CASE("merged cells of the table are refused, those above its head are not") {
  const std::string merged = "<mergeCells><mergeCell ref=\"A2:B2\"/></mergeCells>";
  const auto refused = workbook_table(one_row("<c><v>1</v></c>", merged).bytes());
  CHECK_FALSE(refused.table);
  CHECK(first_message(refused) == "2:1 the cells A2:B2 are merged");

  WorkbookBytes book;
  book.sheets["boards"] =
      WorkbookBytes::sheet_of(WorkbookBytes::row(1, {"# list of boards"}) + WorkbookBytes::row(2, {"a", "b"}) +
                                  WorkbookBytes::row(3, {"1", "2"}),
                              "<mergeCells><mergeCell ref=\"A1:B1\"/></mergeCells>");
  CHECK(workbook_table(book.bytes()).table);
}

TEST_CASE("the sheet named like the table is read, else the only one") {
  WorkbookBytes book;
  const auto sheet = [](const std::string& word) {
    return WorkbookBytes::sheet_of(WorkbookBytes::row(1, {"a", "b"}) + WorkbookBytes::row(2, {word, "2"}));
  };
  book.sheets["Any"] = sheet("only");
  REQUIRE(workbook_table(book.bytes()).table);
  CHECK(workbook_table(book.bytes()).table->rows[0].cells[0] == "only");
  book.sheets["Boards"] = sheet("named");
  CHECK(workbook_table(book.bytes()).table->rows[0].cells[0] == "named");
  CHECK(workbook_table(book.bytes()).table->sheet == "Boards");
  const auto other = workbook_table(book.bytes(), "fixings");
  CHECK_FALSE(other.table);
  CHECK(first_message(other) == "0:0 the workbook has no sheet 'fixings' but Any, Boards");
  Diagnostics diagnostics;
  CHECK(sheets_of(book.bytes(), "library.xlsx", diagnostics) == std::vector<std::string>{"Any", "Boards"});
}

TEST_CASE("what is no workbook, or half of one, is one error") {
  const std::string sound = one_row("<c><v>1</v></c>").bytes();
  const auto parts = one_row("<c><v>1</v></c>").parts();
  struct BadFile {
    const char* label;
    std::string bytes;
    const char* fault;
  };
  const auto bad = GENERATE_COPY(values<BadFile>({
      {"empty", "", "0:0 this is no .xlsx workbook but another file under that name"},
      {"text", "a,b\n1,2\n", "0:0 this is no .xlsx workbook but another file under that name"},
      {"older form", "\xD0\xCF\x11\xE0 and more",
       "0:0 this is a workbook of the older form .xls, or one under a password"},
      {"cut off", sound.substr(0, sound.size() / 2), "0:0 the workbook cannot be opened: Not a zip archive"},
      {"no workbook inside", zip_bytes({{"_rels/.rels", "<Relationships/>"}}), "0:0 the archive holds no workbook"},
      {"no list of parts", zip_bytes({{"a", "b"}}), "0:0 '_rels/.rels' of the workbook is missing"},
      {"no sheet", replaced(parts, "xl/worksheets/sheet1.xml", ""),
       "0:0 'xl/worksheets/sheet1.xml' of the workbook is missing"},
      {"sheet is no XML", replaced(parts, "xl/worksheets/sheet1.xml", "<worksheet><sheetData>"),
       "0:0 'xl/worksheets/sheet1.xml' of the workbook is no XML in UTF-8"},
      {"bomb", replaced(parts, "xl/worksheets/sheet1.xml", std::string(std::size_t{8} << 20U, ' ')),
       "0:0 'xl/worksheets/sheet1.xml' of the workbook unpacks to more than 250 times its size"},
  }));
  INFO(bad.label);
  const auto read = workbook_table(bad.bytes);
  CHECK_FALSE(read.table);
  REQUIRE(read.diagnostics.size() == 1);
  CHECK(first_message(read) == bad.fault);
}

TEST_CASE("a workbook with bytes turned never ends the program") {
  const std::string sound = one_row("<c><v>1</v></c>").bytes();
  for (std::size_t at = 0; at < sound.size(); at += 7) {
    std::string turned = sound;
    turned[at] = static_cast<char>(turned[at] ^ 0x5A);
    const auto read = workbook_table(turned);
    CHECK((read.table || !read.diagnostics.empty()));
  }
}
