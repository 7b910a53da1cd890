#include <catch2/catch.hpp>

#include "core/api/finding/roles.h"
#include "core/dossier/dossier.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

std::string text_of(const test::SyntheticDossier& made, const std::string& name) {
  const auto file = test::temporary_file(name);
  write_dossier(made.content(), test::installed_fonts(), file);
  return test::output_of("pdftotext -layout '" + file.string() + "' - 2>/dev/null");
}

std::vector<std::string> pages_with(const std::string& text, const std::string& words) {
  std::vector<std::string> pages;
  std::istringstream stream(text);
  for (std::string page; std::getline(stream, page, '\f');) {
    if (page.find(words) != std::string::npos) pages.push_back(page);
  }
  return pages;
}

}  // namespace

TEST_CASE("the upkeep and safety pages forbid the reuse of erection loops without a certificate") {
  const std::string text = text_of(test::synthetic_dossier(1, 5), "loops.pdf");
  for (const char* part : {"6 Operation and maintenance", "7 Health and safety file"}) {
    INFO(part);
    std::string pages;
    for (const std::string& page : pages_with(text, part)) pages += page;
    CHECK_THAT(pages, Contains("Do not reuse erection loops unless their certificate allows it"));
  }
  CHECK_THAT(text, !Contains("with their lifting points"));
}

TEST_CASE("lifting findings are spoken of only where there are some") {
  auto made = test::synthetic_dossier(1, 5);
  CHECK_THAT(text_of(made, "no_lifting.pdf"), Contains("holds no check of lifting points"));
  test::claim(made.results.build, role::kLifting, made.results.panels[0].findings[0].check);
  CHECK_THAT(text_of(made, "lifting.pdf"), Contains("The lifting findings on the page of each panel"));
}

TEST_CASE("weights for lifting give the centre of gravity by axis and datum") {
  auto made = test::synthetic_dossier(1, 1);
  RecordedFinding& recorded = made.results.panels[0].findings[0];
  Finding finding = whole_finding(recorded);
  test::claim(made.results.build, role::kCentreOfGravity, finding.check);
  finding.values = {{"from_left_edge", 1.2345, "m"}, {"from_inner_face", 0.1114, "m"}, {"from_foot", 1.6789, "m"}};
  recorded = FindingRecorder().record(finding);
  const auto pages = pages_with(text_of(made, "centre.pdf"), "Weights for lifting");
  REQUIRE(pages.size() == 1);
  CHECK_THAT(pages[0], Contains("x from its left edge, y from its inner face, z from its foot") ||
                           Contains("x from its left edge, y from its inner"));
  for (const char* value : {"1.234", "0.111", "1.679"}) CHECK_THAT(pages[0], Contains(value));
}

TEST_CASE("every page of a panel says where the cautions stand, and its part begins with them in full") {
  auto made = test::synthetic_dossier(1, 25);
  made.results.build.plugins[1].caution = "Short warning. The longer part of the warning.";
  const std::string text = text_of(made, "cautions.pdf");
  const auto pages = pages_with(text, "5 Panels: P-1");
  REQUIRE(pages.size() == 2);
  for (const std::string& page : pages) CHECK_THAT(page, Contains("All cautions in full: part 7"));
  const auto first = pages_with(text, "Two pages a panel");
  REQUIRE(first.size() == 1);
  CHECK_THAT(first[0], Contains("Short warning. The longer part of"));
}

TEST_CASE("a project without cautions has no caution boxes") {
  auto made = test::synthetic_dossier(1, 5);
  for (PluginSummary& plugin : made.results.build.plugins) plugin.caution.clear();
  CHECK_THAT(text_of(made, "no_cautions.pdf"), !Contains("All cautions in full"));
}
