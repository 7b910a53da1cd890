#include "core/dossier/layout/table.h"

#include <catch2/catch.hpp>
#include <numeric>

#include "core/dossier/layout/pdf_document.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;

namespace {

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

TableSpec long_table(std::size_t rows) {
  TableSpec table;
  table.columns = {{"mark"}, {"value", true}};
  for (std::size_t i = 0; i < rows; ++i) table.rows.push_back({"row " + std::to_string(i), std::to_string(i) + ".5"});
  return table;
}

}  // namespace

TEST_CASE("columns of a page are equally wide, a gap apart, and fill it from edge to edge") {
  for (const int count : {1, 2, 3, 4}) {
    INFO(count);
    CHECK(column_span(0, count).left == Approx(grid::kLeft));
    CHECK(column_span(count - 1, count).right == Approx(grid::kRight));
    for (int i = 1; i < count; ++i) {
      const Rect before = column_span(i - 1, count);
      const Rect span = column_span(i, count);
      CHECK(span.left - before.right == Approx(grid::kColumnGap));
      CHECK(span.right - span.left == Approx(before.right - before.left));
    }
  }
}

TEST_CASE("columns keep their natural width where it fits and share the rest when asked") {
  CHECK(fit_columns({50, 100}, {20, 20}, 300, false) == std::vector<double>{50, 100});
  CHECK(fit_columns({50, 100}, {20, 20}, 300, true) == std::vector<double>{100, 200});
}

TEST_CASE("the widest column gives way first") {
  const auto widths = fit_columns({40, 400}, {40, 60}, 200, true);
  CHECK(widths[0] == Approx(40.0));
  CHECK(sum(widths) == Approx(200.0));
}

TEST_CASE("no column falls below its minimum while the minima fit") {
  const auto widths = fit_columns({300, 300, 90}, {80, 20, 90}, 220, true);
  CHECK(widths[0] >= 80.0 - 1e-9);
  CHECK(widths[2] == Approx(90.0));
  CHECK(sum(widths) == Approx(220.0));
}

TEST_CASE("minima that do not fit are cut in proportion") {
  const auto widths = fit_columns({300, 600}, {200, 400}, 300, true);
  CHECK(widths[0] == Approx(100.0));
  CHECK(widths[1] == Approx(200.0));
}

TEST_CASE("one endless word leaves the other columns readable") {
  PdfDocument pdf(test::installed_fonts());
  TableSpec table;
  table.columns = {{"mark"}, {"reason"}};
  table.rows = {{std::string(300, 'W'), "a reason of several ordinary words"}};
  const TableLayout layout(pdf, table, grid::kWidth, true);
  CHECK(layout.width() == Approx(grid::kWidth));
  CHECK(layout.row_lines(0) <= 300 * 7 / 200);
}

TEST_CASE("figures are recognised with relation signs, minus signs and units") {
  CHECK(looks_numeric("≤ 0.26 W/(m²·K)"));
  CHECK(looks_numeric("\u22123.5"));
  CHECK_FALSE(looks_numeric("EI 60"));
  CHECK_FALSE(looks_numeric("–"));
}

TEST_CASE("a table of 500 rows repeats its head on every page and keeps every row") {
  PdfDocument pdf(test::installed_fonts());
  Flow flow(pdf);
  flow.start_page({"Rows", "", false});
  set_table(flow, long_table(500));
  const auto file = test::temporary_file("rows.pdf");
  pdf.save(file);
  const std::string text = test::output_of("pdftotext -layout '" + file.string() + "' - 2>/dev/null");
  std::size_t heads = 0;
  for (auto at = text.find("mark"); at != std::string::npos; at = text.find("mark", at + 1)) ++heads;
  CHECK(pdf.page_count() > 5);
  CHECK(heads == pdf.page_count());
  for (const char* row : {"row 0 ", "row 250 ", "row 499 "}) CHECK(text.find(row) != std::string::npos);
}

TEST_CASE("a row higher than a page goes on over pages instead of being lost") {
  PdfDocument pdf(test::installed_fonts());
  Flow flow(pdf);
  flow.start_page({"High row", "", false});
  TableSpec table;
  table.columns = {{"a"}, {"b"}};
  std::string words;
  for (int i = 0; i < 9000; ++i) words += "word" + std::to_string(i) + " ";
  table.rows.push_back({"x", words});
  set_table(flow, std::move(table));
  const auto file = test::temporary_file("high_row.pdf");
  pdf.save(file);
  CHECK(test::output_of("pdftotext '" + file.string() + "' - 2>/dev/null").find("word8999") != std::string::npos);
}

TEST_CASE("a table set in columns keeps every row") {
  PdfDocument pdf(test::installed_fonts());
  Flow flow(pdf);
  flow.start_page({"Columns", "", false});
  set_table_in_columns(flow, long_table(301), 2);
  const auto file = test::temporary_file("columns.pdf");
  pdf.save(file);
  const std::string text = test::output_of("pdftotext -layout '" + file.string() + "' - 2>/dev/null");
  for (int row = 0; row < 301; ++row) CHECK(text.find("row " + std::to_string(row)) != std::string::npos);
}
