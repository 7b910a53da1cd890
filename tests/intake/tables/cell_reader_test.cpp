#include "core/intake/tables/cell_reader.h"

#include <catch2/catch.hpp>
#include <optional>
#include <string>
#include <vector>

using namespace panel_dossier;

namespace {

/// A table of one column of cells; separated by semicolons where it takes decimal commas.
InputTable cells_of(std::vector<std::string> cells, bool takes_decimal_comma = false) {
  InputTable table;
  table.file = "boards.csv";
  table.takes_decimal_comma = takes_decimal_comma;
  table.columns = {{"Width", "mm", 1}};
  for (std::string& cell : cells) {
    table.rows.push_back({static_cast<std::uint32_t>(table.rows.size() + 2), {std::move(cell)}});
  }
  return table;
}

struct ReadNumber {
  std::optional<double> value;
  Diagnostics diagnostics;
};

ReadNumber number_of(const InputTable& table, std::size_t row) {
  Reporter report(table.file);
  ReadNumber read;
  read.value = CellReader(table, report).number(table.rows[row], 0);
  read.diagnostics = report.take();
  return read;
}

}  // namespace

TEST_CASE("a number has a decimal point, and an empty cell is none without an error") {
  const InputTable table = cells_of({"12.5", "-3", "1e-3", ""});
  CHECK(number_of(table, 0).value == 12.5);
  CHECK(number_of(table, 1).value == -3.0);
  CHECK(number_of(table, 2).value == 0.001);
  CHECK_FALSE(number_of(table, 3).value);
  CHECK(number_of(table, 3).diagnostics.empty());
}

TEST_CASE("what is no number is an error at its cell") {
  const std::string cell =
      GENERATE("12 mm", "1'250", "1 250", "1,234,567", "1.234,5", "nan", "inf", "0x1F", "4O0", "15%");
  INFO(cell);
  const auto read = number_of(cells_of({cell}, true), 0);
  CHECK_FALSE(read.value);
  REQUIRE(read.diagnostics.size() == 1);
  CHECK(read.diagnostics[0].severity == Severity::error);
  CHECK(read.diagnostics[0].line == 2);
  CHECK(read.diagnostics[0].column == 1);
  CHECK(read.diagnostics[0].message.starts_with("column 'Width': '" + cell + "' "));
}

TEST_CASE("a decimal comma is taken where no comma separates, and told of once") {
  const InputTable table = cells_of({"0,13", "12,5"}, true);
  Reporter report(table.file);
  CellReader cells(table, report);
  CHECK(cells.number(table.rows[0], 0) == 0.13);
  CHECK(cells.number(table.rows[1], 0) == 12.5);
  const Diagnostics told = report.take();
  REQUIRE(told.size() == 1);
  CHECK(told[0].severity == Severity::warning);

  const auto refused = number_of(cells_of({"0,13"}), 0);
  CHECK_FALSE(refused.value);
  CHECK(refused.diagnostics[0].message == "column 'Width': '0,13' has a comma where commas separate the fields");
}

TEST_CASE("a comma before three digits is a decimal one only where another cell shows it") {
  CHECK_FALSE(number_of(cells_of({"1,250"}, true), 0).value);
  CHECK(number_of(cells_of({"1,250"}, true), 0).diagnostics[0].message ==
        "column 'Width': '1,250' may be a number of thousands or one with three decimals");
  CHECK(number_of(cells_of({"1,250", "0,5"}, true), 0).value == 1.25);
  CHECK(number_of(cells_of({"0,250"}, true), 0).value == 0.25);
}

TEST_CASE("a point beside decimal commas may separate thousands and is refused") {
  const auto read = number_of(cells_of({"1.250", "0,5"}, true), 0);
  CHECK_FALSE(read.value);
  REQUIRE(read.diagnostics.size() == 1);
  CHECK(read.diagnostics[0].message ==
        "column 'Width': '1.250' has a point where other cells of the file have a decimal comma");
}

TEST_CASE("a day is a day of the calendar, a time behind it left out") {
  const InputTable table = cells_of({"2026-03-01", "2026-03-01T14:30", "2026-02-30", "01.03.2026", "46082",
                                     "2026-03-01x", "2026-03-01Tgarbage", "2026-03-01T14:30+", ""});
  Reporter report(table.file);
  CellReader cells(table, report);
  CHECK(cells.day(table.rows[0], 0) == "2026-03-01");
  CHECK(cells.day(table.rows[1], 0) == "2026-03-01");
  for (std::size_t i = 2; i < table.rows.size(); ++i) CHECK_FALSE(cells.day(table.rows[i], 0));
  const Diagnostics told = report.take();
  REQUIRE(told.size() == 6);
  CHECK(told[0].message == "column 'Width': '2026-02-30' is no day YYYY-MM-DD");
  CHECK(told[2].message == "column 'Width': '46082' is a number and no day");
}

TEST_CASE("a time of day has minutes, and may have seconds and a zone") {
  const InputTable table = cells_of({"2026-03-01T14:30:05", "2026-03-01T14:30:05.250Z", "2026-03-01T14:30+02:00"});
  Reporter report(table.file);
  CellReader cells(table, report);
  for (const TableRow& row : table.rows) CHECK(cells.day(row, 0) == "2026-03-01");
  CHECK(report.take().empty());
}

TEST_CASE("a logical value is yes or no in few words") {
  const InputTable table = cells_of({"Yes", "FALSE", "1", "no", "maybe", ""});
  Reporter report(table.file);
  CellReader cells(table, report);
  CHECK(cells.logical(table.rows[0], 0) == true);
  CHECK(cells.logical(table.rows[1], 0) == false);
  CHECK(cells.logical(table.rows[2], 0) == true);
  CHECK(cells.logical(table.rows[3], 0) == false);
  CHECK_FALSE(cells.logical(table.rows[4], 0));
  CHECK_FALSE(cells.logical(table.rows[5], 0));
  CHECK(report.take().size() == 1);
}
