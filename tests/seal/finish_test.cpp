#include "core/seal/finish.h"

#include <catch2/catch.hpp>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>
#include <set>
#include <sstream>

#include "tests/seal/seal_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kFont = "/usr/share/fonts/truetype/dejavu/DejaVuSansCondensed.ttf";
constexpr std::size_t kRoom = 4096;

std::filesystem::path finished(const TemporaryFolder& dir, const std::string& text = "text",
                               const std::string& font = {}) {
  const ResultsDocument document = exported_document();
  const auto file = dir.path() / "finished.pdf";
  finish_dossier(write_pages(dir, text, font), document, attachments_of(document), kRoom, file);
  return file;
}

QPDFObjectHandle composite_font(QPDF& pdf) {
  for (QPDFObjectHandle font : pdf.getAllObjects()) {
    if (font.isDictionaryOfType("/Font", "/Type0")) return font;
  }
  throw std::runtime_error("no composite font");
}

/// The pages with their composite font changed by `change`, as another page writer might have left it.
template <typename Change>
std::filesystem::path with_font(const TemporaryFolder& dir, const Change& change) {
  QPDF pdf;
  pdf.processFile(write_pages(dir, "λ", kFont).c_str());
  change(pdf, composite_font(pdf));
  const auto file = dir.path() / "other.pdf";
  QPDFWriter writer(pdf, file.c_str());
  writer.write();
  return file;
}

}  // namespace

TEST_CASE("Text beyond ASCII is extracted as it was written and without a warning") {
  const TemporaryFolder dir;
  const std::string text = "λ ≤ 0.18 W/(m²·K) – — “quoted” Ω € ψ µ ° ½ ≥ Ž";
  const auto file = finished(dir, text, kFont);
  const auto outcome = run_command("pdftotext '" + file.string() + "' -");
  CHECK(outcome.status == 0);
  CHECK(outcome.text.substr(0, outcome.text.find('\n')) == text);
  CHECK_THAT(outcome.text, !Catch::Contains("Warning"));
}

TEST_CASE("The text map leads every code unit but surrogates to itself, in blocks as ISO 32000-2 9.10.3 wants them") {
  const TemporaryFolder dir;
  QPDF pdf;
  pdf.processFile(finished(dir, "λ", kFont).c_str());
  const auto data = composite_font(pdf).getKey("/ToUnicode").getStreamData();
  std::istringstream map(std::string(reinterpret_cast<const char*>(data->getBuffer()), data->getSize()));
  std::set<unsigned> mapped;
  std::size_t units = 0;
  unsigned left = 0;
  for (std::string line; std::getline(map, line);) {
    unsigned first = 0;
    unsigned last = 0;
    unsigned target = 0;
    if (line.find("beginbfrange") != std::string::npos) {
      left = static_cast<unsigned>(std::stoul(line));
      CHECK((left >= 1 && left <= 100));
    } else if (line == "endbfrange") {
      CHECK(left == 0);
    } else if (std::sscanf(line.c_str(), "<%4X> <%4X> <%4X>", &first, &last, &target) == 3) {
      --left;
      CHECK(target == first);
      CHECK(first / 0x100 == last / 0x100);
      for (unsigned unit = first; unit <= last; ++unit) mapped.insert(unit);
      units += last - first + 1;
    }
  }
  CHECK(mapped.size() == 0x10000 - 0x800);
  CHECK(units == mapped.size());  // none stands twice
  CHECK(mapped.lower_bound(0xd800) == mapped.lower_bound(0xe000));
}

TEST_CASE("A font is mended only if its map is the known one and its glyphs are numbered by code unit") {
  const TemporaryFolder dir;
  const auto file = dir.path() / "labels.pdf";
  const auto refused = Catch::Contains("no text map that can be mended");
  const auto other_numbers = [](QPDF&, QPDFObjectHandle font) {
    auto descendant = font.getKey("/DescendantFonts").getArrayItem(0);
    descendant.replaceKey("/CIDToGIDMap", QPDFObjectHandle::newName("/Identity"));
  };
  CHECK_THROWS_WITH(finish_working_pages(with_font(dir, other_numbers), file), refused);
  const auto other_map = [](QPDF& pdf, QPDFObjectHandle font) {
    font.replaceKey("/ToUnicode", pdf.newStream("1 begincidrange\n<0000> <00FF> 7\nendcidrange"));
  };
  CHECK_THROWS_WITH(finish_working_pages(with_font(dir, other_map), file), refused);
  CHECK_THROWS_WITH(
      finish_working_pages(with_font(dir, [](QPDF&, QPDFObjectHandle font) { font.removeKey("/ToUnicode"); }), file),
      refused);
  CHECK_NOTHROW(finish_working_pages(with_font(dir, [](QPDF&, const QPDFObjectHandle&) {}), file));
}

TEST_CASE("Labels are finished with their text alone") {
  const TemporaryFolder dir;
  const auto file = dir.path() / "labels.pdf";
  finish_working_pages(write_pages(dir, "45 × 220 mm", kFont), file);
  const auto outcome = run_command("pdftotext '" + file.string() + "' -");
  CHECK(outcome.status == 0);
  CHECK_THAT(outcome.text, Catch::Contains("45 × 220 mm") && !Catch::Contains("Warning"));
  CHECK_THROWS_WITH(finish_working_pages(dir.path() / "none.pdf", file), Catch::Contains("cannot finish"));
}

TEST_CASE("The pages before finishing do draw the warning that finishing mends") {
  const TemporaryFolder dir;
  const auto pages = write_pages(dir, "λ", kFont);
  CHECK_THAT(run_command("pdftotext '" + pages.string() + "' -").text, Catch::Contains("Warning"));
}

TEST_CASE("A finished dossier is a sound PDF") {
  const TemporaryFolder dir;
  const auto outcome = run_command("qpdf --check '" + finished(dir, "λ", kFont).string() + "'");
  INFO(outcome.text);
  CHECK(outcome.status == 0);
}

TEST_CASE("The same input gives the same bytes") {
  const TemporaryFolder first;
  const TemporaryFolder second;
  CHECK(bytes_of(finished(first, "λ", kFont)) == bytes_of(finished(second, "λ", kFont)));
}

TEST_CASE("Metadata say title, time, language and the root of the hash tree") {
  const TemporaryFolder dir;
  QPDF pdf;
  pdf.processFile(finished(dir).c_str());
  const auto data = pdf.getRoot().getKey("/Metadata").getStreamData();
  const std::string xmp(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
  CHECK_THAT(xmp, Catch::Contains(exported_document().build.hash_tree_root));
  CHECK_THAT(xmp, Catch::Contains("Panel dossier: Prüfhaus – ≤ 3 storeys"));
  CHECK_THAT(xmp, Catch::Contains("<xmp:CreateDate>2026-11-25T02:00:00Z</xmp:CreateDate>"));
  CHECK(pdf.getRoot().getKey("/Lang").getStringValue() == "en-GB");
  CHECK(pdf.getRoot().getKey("/ViewerPreferences").getKey("/DisplayDocTitle").getBoolValue());
  auto information = pdf.getTrailer().getKey("/Info");
  CHECK(information.getKey("/Title").getUTF8Value() == "Panel dossier: Prüfhaus – ≤ 3 storeys");
  CHECK(information.getKey("/CreationDate").getStringValue() == "D:20261125020000Z");
}

TEST_CASE("Markup in a project's name stays text in the metadata") {
  const TemporaryFolder dir;
  ResultsDocument document = exported_document();
  document.project.name = "A & B <pd:hashTreeRoot>forged</pd:hashTreeRoot>";
  const auto signed_file = write_signed(dir, document, attachments_of(document), demonstration_signer());
  const auto verification = verify_dossier(signed_file, kSchemaDir);
  INFO(steps_text(verification));
  CHECK(verification.holds());
}

TEST_CASE("A file is attached as its bytes are, and one that is not there is named") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  auto attachments = attachments_of(document);
  const auto pages = write_pages(dir, "text");
  finish_dossier(pages, document, attachments, kRoom, dir.path() / "of-bytes.pdf");
  attachments[0].file = dir.write("results.json", attachments[0].bytes);
  attachments[0].bytes.clear();
  finish_dossier(pages, document, attachments, kRoom, dir.path() / "of-file.pdf");
  CHECK(bytes_of(dir.path() / "of-file.pdf") == bytes_of(dir.path() / "of-bytes.pdf"));
  attachments[0].file = dir.path() / "absent.json";
  CHECK_THROWS_WITH(finish_dossier(pages, document, attachments, kRoom, dir.path() / "none.pdf"),
                    Catch::Contains("absent.json"));
}

TEST_CASE("Attachments carry name, type, relationship, size and checksum") {
  const TemporaryFolder dir;
  QPDF pdf;
  pdf.processFile(finished(dir).c_str());
  QPDFEmbeddedFileDocumentHelper embedded(pdf);
  REQUIRE(embedded.getEmbeddedFiles().size() == 4);
  const auto file = embedded.getEmbeddedFile("project.xml");
  REQUIRE(file);
  CHECK(file->getObjectHandle().getKey("/AFRelationship").getName() == "/Source");
  QPDFEFStreamObjectHelper stream(file->getEmbeddedFileStream());
  CHECK(stream.getSubtype() == "application/xml");
  CHECK(stream.getSize() == std::string(kExport).size());
  CHECK(stream.getChecksum().size() == 16);
  CHECK(stream.getCreationDate() == "D:20261125020000Z");
  CHECK(pdf.getRoot().getKey("/AF").getArrayNItems() == 4);
}

TEST_CASE("The signature field is invisible, locked and still empty") {
  const TemporaryFolder dir;
  const auto file = finished(dir);
  QPDF pdf;
  pdf.processFile(file.c_str());
  auto form = pdf.getRoot().getKey("/AcroForm");
  CHECK(form.getKey("/SigFlags").getIntValue() == 3);
  auto field = form.getKey("/Fields").getArrayItem(0);
  CHECK(field.getKey("/F").getIntValue() == 132);
  CHECK(field.getKey("/V").getKey("/SubFilter").getName() == "/ETSI.CAdES.detached");
  CHECK(field.getKey("/V").getKey("/Contents").getStringValue() == std::string(kRoom, '\0'));
  CHECK_FALSE(verify_dossier(file, kSchemaDir).holds());
}

TEST_CASE("What cannot be finished is refused by name") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  const auto file = dir.path() / "finished.pdf";
  CHECK_THROWS_WITH(finish_dossier(dir.path() / "absent.pdf", document, {}, kRoom, file),
                    Catch::Contains("absent.pdf"));
  CHECK_THROWS_WITH(finish_dossier(dir.write("no.pdf", "not a PDF"), document, {}, kRoom, file),
                    Catch::Contains("no.pdf"));
  auto attachments = attachments_of(document);
  attachments.push_back(attachments.front());
  CHECK_THROWS_WITH(finish_dossier(write_pages(dir, "text"), document, attachments, kRoom, file),
                    Catch::Contains("two attachments are named 'results.json'"));
  ResultsDocument no_time = document;
  no_time.build.time_utc = "yesterday";
  CHECK_THROWS_WITH(finish_dossier(write_pages(dir, "text"), no_time, {}, kRoom, file), Catch::Contains("'yesterday'"));
}
