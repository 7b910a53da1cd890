// What a PDF behind a document holds: pages, words on them, and its own number among the words.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "core/intake/document/sha256.h"
#include "core/intake/evidence/evidence_content.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using namespace intake_test;

std::string stream_of(const std::string& bytes, const std::string& entries = "") {
  return "<< /Length " + std::to_string(bytes.size()) + entries + " >>\nstream\n" + bytes + "\nendstream";
}

/// A PDF of these objects, the first of them its catalogue. Without a table of objects, which a reader makes anew.
std::string pdf_of(const std::vector<std::string>& objects) {
  std::string bytes = "%PDF-1.7\n";
  for (std::size_t i = 0; i < objects.size(); ++i) {
    bytes += std::to_string(i + 1) + " 0 obj\n" + objects[i] + "\nendobj\n";
  }
  return bytes + "trailer\n<< /Root 1 0 R /Size " + std::to_string(objects.size() + 1) + " >>\nstartxref\n0\n%%EOF\n";
}

/// One page with this drawing; `further` begins with object 6, and `resources` may name them.
std::string page_of(const std::string& drawing, const std::string& resources = "",
                    const std::vector<std::string>& further = {}) {
  std::vector<std::string> objects{"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
                                   "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R "
                                   "/Resources << /Font << /F1 5 0 R >> " +
                                       resources + " >> >>",
                                   stream_of(drawing), "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"};
  objects.insert(objects.end(), further.begin(), further.end());
  return pdf_of(objects);
}

std::string words(const std::string& shown) {
  return "BT /F1 12 Tf 50 800 Td " + shown + " ET";
}

EvidenceContent content_of(const std::string& pdf) {
  return evidence_content(pdf, ".pdf", "T-1");
}

constexpr const char* kScan = "q 595 0 0 842 0 0 cm BI /W 1 /H 1 /BPC 8 /CS /G ID x\nEI Q";

TEST_CASE("a PDF that names its number is there, and says what it is", "[intake]") {
  const EvidenceContent content = content_of(page_of(words("(Fire resistance test report, number T-1) Tj")));
  CHECK(content.status == EvidenceStatus::present);
  CHECK(content.number_is_read);
  CHECK(content.kinds == std::vector<EvidenceKind>{EvidenceKind::fire_test_report});
}

TEST_CASE("a PDF that names another number is another document", "[intake]") {
  for (const char* text : {"(hello) Tj", "(report T-10) Tj", "(report AT-1) Tj", "[(report T-1) (0)] TJ"}) {
    INFO(text);
    const EvidenceContent content = content_of(page_of(words(text)));
    CHECK(content.status == EvidenceStatus::unnamed);
    CHECK(content.number_is_read);
  }
}

TEST_CASE("a number that is set in pieces is read", "[intake]") {
  for (const char* text : {"[(repo) 20 (rt T) -15 (-) -30 (1)] TJ", "[(report) -300 (T-1)] TJ", "(T) Tj 6 0 Td (-1) Tj",
                           "(report) ' (T-1) '", "<7265706f727420542d31> Tj", "(report T\\0551) Tj"}) {
    INFO(text);
    CHECK(content_of(page_of(words(text))).status == EvidenceStatus::present);
  }
}

TEST_CASE("the words of a form on the page count", "[intake]") {
  const std::string form = stream_of("BT /F1 9 Tf (T-1) Tj ET", " /Type /XObject /Subtype /Form /BBox [0 0 9 9]");
  CHECK(content_of(page_of("/X1 Do", "/XObject << /X1 6 0 R >>", {form})).status == EvidenceStatus::present);
  const std::string itself = stream_of("/X1 Do", " /Type /XObject /Subtype /Form /BBox [0 0 9 9]");
  CHECK(content_of(page_of("/X1 Do", "/XObject << /X1 6 0 R >>", {itself})).status == EvidenceStatus::unreadable);
}

TEST_CASE("a font with codes of its own is read by its map, or not at all", "[intake]") {
  const std::string font = "<< /Type /Font /Subtype /Type0 /BaseFont /A /Encoding /Identity-H";
  const std::string map = stream_of(
      "1 begincodespacerange <0000> <ffff> endcodespacerange\n"
      "1 beginbfchar <0005> <2011> endbfchar\n"
      "2 beginbfrange <0001> <0002> <0054> <0010> <0011> [<0030> <0031>] endbfrange");
  const auto status = [&](const std::string& fonts, const std::string& shown) {
    return content_of(page_of("BT /F2 9 Tf " + shown + " Tj ET", "/Font << /F2 6 0 R >>", {fonts, map}));
  };
  // T, a hyphen that does not break, 1
  CHECK(status(font + " /ToUnicode 7 0 R >>", "<000100050011>").status == EvidenceStatus::present);
  CHECK(status(font + " /ToUnicode 7 0 R >>", "<000200050011>").status == EvidenceStatus::unnamed);
  const EvidenceContent unread = status(font + " >>", "<000100050011>");
  CHECK(unread.status == EvidenceStatus::present);
  CHECK_FALSE(unread.number_is_read);
  const std::string named =
      "<< /Type /Font /Subtype /Type1 /BaseFont /B /Encoding << /Differences [1 /T /hyphen /one] >> >>";
  CHECK(status(named, "<010203>").status == EvidenceStatus::present);
}

TEST_CASE("every range of a font's map is read from where the one before it ends", "[intake]") {
  const std::string font = "<< /Type /Font /Subtype /Type0 /BaseFont /A /Encoding /Identity-H /ToUnicode 7 0 R >>";
  for (const char* ranges : {"<0001> <0001> <0054> <0002> <0002> <002D> <0003> <0004> <0031>",
                             "<0001> <0002> [<0054> <002D>] <0003> <0004> <0031>"}) {
    INFO(ranges);
    const std::string map = stream_of("1 begincodespacerange <0000> <ffff> endcodespacerange\n3 beginbfrange " +
                                      std::string(ranges) + " endbfrange");
    const auto status = [&](const std::string& shown) {
      return content_of(page_of("BT /F2 9 Tf " + shown + " Tj ET", "/Font << /F2 6 0 R >>", {font, map})).status;
    };
    CHECK(status("<000100020003>") == EvidenceStatus::present);  // T-1
    CHECK(status("<000100020004>") == EvidenceStatus::unnamed);  // T-2
  }
}

TEST_CASE("a PDF without pages, or with nothing on them, holds nothing", "[intake]") {
  CHECK(content_of(pdf_of({"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [] /Count 0 >>"})).status ==
        EvidenceStatus::unreadable);
  CHECK(content_of(page_of("")).status == EvidenceStatus::unreadable);
  CHECK(content_of(page_of("BT /F1 12 Tf () Tj ET")).status == EvidenceStatus::unreadable);
  CHECK(content_of("%PDF-1.7\nT-1\nstartxref\n0\n%%EOF").status == EvidenceStatus::unreadable);
}

TEST_CASE("a scan is there, and whether it names its number is not seen", "[intake]") {
  const EvidenceContent content = content_of(page_of(kScan));
  CHECK(content.status == EvidenceStatus::present);
  CHECK_FALSE(content.number_is_read);
  CHECK(content.kinds.empty());
}

TEST_CASE("a scan proves something once its file is vouched for in the register", "[intake]") {
  const testing::TemporaryFolder folder;
  const std::string scan = page_of(kScan);
  folder.write("evidence/fire-test.txt", scan);
  const auto fault = [&](const std::string& rows) {
    folder.write("evidence/evidence.csv", rows);
    IntakeOptions reading = options();
    reading.project_dir = folder.path();
    const IntakeResult result = read_export(file_text("hall-ifc2x3.ifcxml"), "hall.ifcxml", reading);
    REQUIRE(result.project);
    return evidence_fault(result.project->evidence.front(), {EvidenceKind::fire_test_report}, "2026-06-01");
  };
  CHECK(fault("id,kind\nT-1,fire test report\n") ==
        "document 'T-1': its pages hold no words that can be read, so that they name number 'T-1' is not seen: who has "
        "read them gives the file's sha256 (evidence/evidence.csv)");
  CHECK(fault("id,kind,sha256\nT-1,fire test report," + to_hex(sha256(scan)) + "\n").empty());
  CHECK_FALSE(fault("id,kind,sha256\nT-1,fire test report," + to_hex(sha256("another")) + "\n").empty());
}

}  // namespace
}  // namespace panel_dossier
