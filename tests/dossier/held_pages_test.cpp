// The pages of a small dossier, held page by page: what their operators write and draw, where their links lie, and the
// bookmarks.
#include <catch2/catch.hpp>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <string>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/dossier/dossier.h"
#include "tests/dossier/synthetic_project.h"
#include "tests/support/held_file.h"

using namespace panel_dossier;

namespace {

std::string operators_of(QPDFPageObjectHelper& page) {
  std::string text;
  for (QPDFObjectHandle& stream : page.getPageContents()) {
    const auto data = stream.getStreamData(qpdf_dl_generalized);
    text.append(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
  }
  return text;
}

/// Where links lie and where they lead, without the numbers of objects.
std::string links_of(QPDFPageObjectHelper& page) {
  std::string text;
  for (QPDFAnnotationObjectHelper& annotation : page.getAnnotations()) {
    text += annotation.getObjectHandle().getKey("/Rect").unparseResolved() + "\n";
  }
  return text;
}

std::string bookmarks_of(const std::vector<QPDFOutlineObjectHelper>& bookmarks, std::size_t depth) {
  std::string text;
  for (QPDFOutlineObjectHelper bookmark : bookmarks) {
    text += std::string(depth, ' ') + bookmark.getTitle() + "\n" + bookmarks_of(bookmark.getKids(), depth + 1);
  }
  return text;
}

void hold_pages(testing::HeldFile& held, const std::string& name, const DossierContent& content) {
  const auto file = test::temporary_file("held.pdf");
  write_dossier(content, test::installed_fonts(), file);
  QPDF pdf;
  pdf.processFile(file.c_str());
  std::size_t number = 0;
  for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf).getAllPages()) {
    held.add({name, "page " + std::to_string(++number), operators_of(page), links_of(page)});
  }
  QPDFOutlineDocumentHelper outlines(pdf);
  held.add({name, "bookmarks", bookmarks_of(outlines.getTopLevelOutlines(), 0), {}});
}

/// With what the sheets, the fire part and the safety file ask for by role, with a failure and with changes.
test::SyntheticDossier full_dossier() {
  test::SyntheticDossier made = test::synthetic_dossier(4, 12);
  test::claim(made.results.build, role::kMass, "quantities.check_4");
  test::claim(made.results.build, role::kArea, "quantities.check_9");
  test::claim(made.results.build, role::kFireSafety, "fire.check_2");
  test::claim(made.results.build, role::kLifting, "structural.check_1");
  made.results.build.withheld = {"a thousandfold density"};
  made.results.build.confirmed = {"a high density, confirmed by the engineer"};
  made.results.build.unconfirmed = {"limits.csv row 'x'"};
  made.results.build.incomplete = true;
  made.results.build.failures = {"plugin 'fire' stopped: data table is missing"};
  return made;
}

}  // namespace

TEST_CASE("The pages of a small dossier are what they were", "[held]") {
  testing::HeldFile held(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "tests/dossier/held_pages.csv",
                         {"dossier", "page"}, {}, {"operators", "links"});
  const test::SyntheticDossier made = full_dossier();
  DossierContent content = made.content();
  content.comparisons = {test::synthetic_comparison()};
  content.history = test::synthetic_history(5);
  hold_pages(held, "full", content);
  for (const std::string& fault : held.faults("dossier")) FAIL_CHECK(fault);
}
