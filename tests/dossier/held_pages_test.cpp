// The pages of a small dossier, held page by page: what their operators write and draw, where their links lie, and the
// bookmarks.
#include <catch2/catch.hpp>
#include <map>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageLabelDocumentHelper.hh>
#include <string>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/dossier/dossier.h"
#include "tests/dossier/furnished_project.h"
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

/// Pages by the number of their object, counted from 1.
std::map<QPDFObjGen, std::size_t> numbers_of(std::vector<QPDFPageObjectHelper>& pages) {
  std::map<QPDFObjGen, std::size_t> numbers;
  for (QPDFPageObjectHelper& page : pages) numbers.emplace(page.getObjectHandle().getObjGen(), numbers.size() + 1);
  return numbers;
}

/// The page and the height that a link or bookmark leads to, without the numbers of objects.
std::string place_of(QPDFObjectHandle destination, const std::map<QPDFObjGen, std::size_t>& numbers) {
  if (!destination.isArray() || destination.getArrayNItems() == 0) return "nowhere";
  std::string text = "page " + std::to_string(numbers.at(destination.getArrayItem(0).getObjGen()));
  for (int i = 1; i < destination.getArrayNItems(); ++i) {
    text += " " + destination.getArrayItem(i).unparseResolved();
  }
  return text;
}

/// Where links lie and where they lead.
std::string links_of(QPDFPageObjectHelper& page, const std::map<QPDFObjGen, std::size_t>& numbers) {
  std::string text;
  for (QPDFAnnotationObjectHelper& annotation : page.getAnnotations()) {
    QPDFObjectHandle link = annotation.getObjectHandle();
    text += link.getKey("/Rect").unparseResolved() + " to " + place_of(link.getKey("/Dest"), numbers) + "\n";
  }
  return text;
}

std::string bookmarks_of(const std::vector<QPDFOutlineObjectHelper>& bookmarks, std::size_t depth,
                         const std::map<QPDFObjGen, std::size_t>& numbers) {
  std::string text;
  for (QPDFOutlineObjectHelper bookmark : bookmarks) {
    text += std::string(depth, ' ') + bookmark.getTitle() + " on " + place_of(bookmark.getDest(), numbers) + "\n" +
            bookmarks_of(bookmark.getKids(), depth + 1, numbers);
  }
  return text;
}

/// Holds the pages of a file, the bookmarks and the labels of the pages.
void hold_pages(testing::HeldFile& held, const std::string& name, const std::filesystem::path& file) {
  QPDF pdf;
  pdf.processFile(file.c_str());
  std::vector<QPDFPageObjectHelper> pages = QPDFPageDocumentHelper(pdf).getAllPages();
  const std::map<QPDFObjGen, std::size_t> numbers = numbers_of(pages);
  std::size_t number = 0;
  for (QPDFPageObjectHelper& page : pages) {
    held.add({name, "page " + std::to_string(++number), operators_of(page), links_of(page, numbers)});
  }
  QPDFOutlineDocumentHelper outlines(pdf);
  held.add({name, "bookmarks", bookmarks_of(outlines.getTopLevelOutlines(), 0, numbers), {}});
  std::vector<QPDFObjectHandle> labels;
  QPDFPageLabelDocumentHelper(pdf).getLabelsForPageRange(0, static_cast<long long>(number) - 1, 0, labels);
  std::string ranges;
  for (QPDFObjectHandle& label : labels) ranges += label.unparseResolved() + "\n";
  held.add({name, "labels", ranges, {}});
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

testing::HeldFile held_pages(const std::string& name) {
  return testing::HeldFile(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "tests/dossier" / name,
                           {"dossier", "page"}, {}, {"operators", "links"});
}

void hold_dossier(testing::HeldFile& held, const std::string& name, const DossierContent& content) {
  const auto file = test::temporary_file("held_" + name + ".pdf");
  write_dossier(content, test::installed_fonts(), file);
  hold_pages(held, name, file);
}

void check_held(const testing::HeldFile& held) {
  for (const std::string& fault : held.faults("dossier")) FAIL_CHECK(fault);
}

}  // namespace

TEST_CASE("The pages of a small dossier are what they were", "[held]") {
  testing::HeldFile held = held_pages("held_pages.csv");
  const test::SyntheticDossier made = full_dossier();
  DossierContent content = made.content();
  content.comparisons = {test::synthetic_comparison()};
  content.history = test::synthetic_history(5);
  hold_dossier(held, "full", content);
  check_held(held);
}

TEST_CASE("The pages of panels with all that can be said of them are what they were", "[held]") {
  testing::HeldFile held = held_pages("held_furnished_pages.csv");
  test::SyntheticDossier made = test::furnished_dossier(5, 2);
  DossierContent content = made.content();
  content.comparisons = {test::synthetic_comparison(), test::furnished_comparison()};
  content.history = test::furnished_history();
  content.property_titles = {{"Panel_AsBuilt.LiningClosed", "lining closed"}};
  hold_dossier(held, "furnished", content);
  const auto workshop = test::temporary_file("held_workshop.pdf");
  write_workshop(content, test::installed_fonts(), workshop);
  hold_pages(held, "workshop", workshop);
  check_held(held);
}

TEST_CASE("The pages of many panels, and of a project that says little, are what they were", "[held]") {
  testing::HeldFile held = held_pages("held_sparse_pages.csv");
  hold_dossier(held, "many", test::many_panels().content());
  test::SyntheticDossier bare = test::synthetic_dossier(2, 0);
  test::strip(bare);
  hold_dossier(held, "bare", bare.content());
  check_held(held);
}
