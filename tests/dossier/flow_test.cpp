#include "core/dossier/layout/flow.h"

#include <catch2/catch.hpp>
#include <string>

#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

/// Pages with nothing on them, and a cursor that can be moved near their end.
struct EmptyPages {
  PdfDocument pdf{test::installed_fonts()};
  Flow flow{pdf};

  EmptyPages() { flow.start_page({"Part"}); }

  void leave(double height) { flow.skip(flow.room() - height); }
  std::string text_of_page(std::size_t number) {
    const auto file = test::temporary_file("flow.pdf");
    pdf.information("Flow", "", "2026-06-01T02:00:00Z");
    pdf.save(file);
    const std::string page = std::to_string(number);
    return test::output_of("pdftotext -f " + page + " -l " + page + " '" + file.string() + "' - 2>/dev/null");
  }
  double width_of(const std::string& text) const { return pdf.text_width(text, type::kBody.face, type::kBody.size); }
  /// Words that are just wider than that.
  std::string just_wider_than(double width) const {
    std::string text = "word";
    while (width_of(text) <= width) text += " i";
    return text;
  }
};

}  // namespace

TEST_CASE("an item whose second line does not fit goes to the next page with its dash") {
  EmptyPages pages;
  const std::string two_lines = pages.just_wider_than(grid::kWidth - 11.0);
  REQUIRE(pages.width_of(two_lines) < grid::kWidth);
  pages.leave(type::kBody.leading * 1.5);
  pages.flow.item(two_lines);
  CHECK(pages.flow.page() == 1);
  CHECK_THAT(pages.text_of_page(1), !Contains("–"));
  CHECK_THAT(pages.text_of_page(2), Contains("–") && Contains("word"));
}
