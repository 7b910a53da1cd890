// The structure behind the pages: whole at any size, in a file of one revision.
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

#include "core/dossier/layout/pdf_document.h"
#include "core/seal/pages/appended_objects.h"
#include "core/seal/revision/increment.h"
#include "tests/dossier/synthetic_project.h"
#include "tests/seal/seal_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// Pages with so many paragraphs of one letter, a heading over a table of an empty and a full cell, and a link.
std::filesystem::path structured_pages(const TemporaryFolder& folder, std::size_t paragraphs) {
  constexpr std::size_t kParagraphsPerPage = 5000;
  const TextStyle style = type::kBody;
  PdfDocument pdf(test::installed_fonts());
  for (std::size_t i = 0; i < paragraphs; ++i) {
    if (i % kParagraphsPerPage == 0) pdf.add_page();
    const Tagged paragraph(pdf, Tag::paragraph);
    pdf.text(pdf.page_count() - 1, {100.0, 100.0}, "x", style);
  }
  {
    const Tagged table(pdf, Tag::table);
    const Tagged row(pdf, Tag::row);
    const Tagged empty(pdf, pdf.add_element(Tag::cell));
  }
  pdf.anchor("top", 0, 800.0);
  pdf.link(0, {10.0, 10.0, 20.0, 20.0}, "top");
  auto file = folder.path() / "structured-pages.pdf";
  pdf.save(file);
  return file;
}

std::filesystem::path finished(const TemporaryFolder& folder, const std::filesystem::path& pages) {
  auto file = folder.path() / "structured.pdf";
  finish_working_pages(pages, file);
  return file;
}

std::string bytes_of_file(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

void open_strictly(QPDF& pdf, const std::filesystem::path& file) {
  pdf.setAttemptRecovery(false);
  pdf.setSuppressWarnings(true);
  pdf.processFile(file.c_str());
}

}  // namespace

TEST_CASE("A document may hold more elements than the library of pages has room for in an array", "[plain]") {
  constexpr std::size_t kMany = 33000;
  const TemporaryFolder folder;
  const auto file = finished(folder, structured_pages(folder, kMany));
  QPDF pdf;
  open_strictly(pdf, file);
  QPDFObjectHandle document = pdf.getRoot().getKey("/StructTreeRoot").getKey("/K").getArrayItem(0);
  REQUIRE(document.getKey("/K").getArrayNItems() == static_cast<int>(kMany) + 2);
  QPDFObjectHandle last = document.getKey("/K").getArrayItem(static_cast<int>(kMany) - 1);
  CHECK(last.getKey("/S").isNameAndEquals("/P"));
  CHECK(last.getKey("/K").getIntValue() == 2999);
  CHECK(last.getKey("/P").getObjGen() == document.getObjGen());
}

TEST_CASE("With the structure behind its pages a file is of one revision, and every object of its table can be read") {
  const TemporaryFolder folder;
  const auto file = finished(folder, structured_pages(folder, 450));
  CHECK(revision_sizes(bytes_of_file(file)).size() == 1);
  QPDF pdf;
  open_strictly(pdf, file);
  CHECK_FALSE(pdf.getRoot().hasKey("/WaitingStructure"));
  CHECK(pdf.getTrailer().getKey("/ID").isArray());
  for (const auto& [object, entry] : pdf.getXRefTable()) {
    INFO("object " << object.getObj());
    CHECK_FALSE(pdf.getObject(object).isNull());
  }
  CHECK(pdf.getWarnings().empty());
}

TEST_CASE("The structure is the same when it comes back from its bytes, and others are refused") {
  StructureTree tree;
  const ElementId table = tree.add(Tag::table, 0);
  const ElementId figure = tree.add(Tag::figure, table, "a plan");
  tree.mark(figure, 3);
  tree.annotate(figure, 3);
  const std::string bytes = tree.bytes();
  const StructureTree back = StructureTree::from(bytes);
  CHECK(back.bytes() == bytes);
  CHECK(back.alternate(figure) == "a plan");
  CHECK(back.owners(3) == std::vector<ElementId>{figure});
  CHECK(back.elements()[table].kids.front().number == figure);
  CHECK_THROWS_WITH(StructureTree::from(bytes.substr(1)), Catch::Contains("broken"));
  CHECK_THROWS_WITH(StructureTree::from(bytes + "x"), Catch::Contains("after its end"));
}

TEST_CASE("No more objects are appended than a file may hold, and none to a file that another program wrote") {
  const TemporaryFolder folder;
  const auto file = folder.path() / "file.pdf";
  const auto write = [&](QPDF& pdf, QPDFWriter& writer, qpdf_object_stream_e streams) {
    pdf.emptyPDF();
    writer.setObjectStreamMode(streams);
    writer.setStaticID(true);
    writer.write();
  };
  {
    QPDF pdf;
    QPDFWriter writer(pdf, file.c_str());
    write(pdf, writer, qpdf_o_generate);
    AppendedObjects objects(file, writer);
    CHECK_THROWS_WITH(objects.reserve(8388607), Catch::Contains("dossier.volume_panels"));
    const int number = objects.reserve(1);
    objects.add(number, "[ 1 2 ]");
    objects.finish();
    QPDF read;
    open_strictly(read, file);
    CHECK(read.getObjectByID(number, 0).unparseResolved() == "[ 1 2 ]");
  }
  QPDF pdf;
  QPDFWriter writer(pdf, file.c_str());
  write(pdf, writer, qpdf_o_disable);
  CHECK_THROWS_WITH(AppendedObjects(file, writer), Catch::Contains("table of its objects"));
}
