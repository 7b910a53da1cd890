// Documents as records: what the export and the register say of them, and what their files hold.
#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "core/intake/document/sha256.h"
#include "core/intake/evidence/evidence_content.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using namespace intake_test;

constexpr const char* kReport = "Fire resistance test report\nDocument: T-1\n";

/// A project of one document in a folder of its own.
class OneDocument {
 public:
  OneDocument() { write("evidence/fire-test.txt", kReport); }

  void write(const std::string& name, const std::string& text) { folder_.write(name, text); }

  void write_register(const std::string& rows) { write("evidence/evidence.csv", rows); }

  IntakeResult read(const std::string& export_text = file_text("hall-ifc2x3.ifcxml")) const {
    IntakeOptions reading = options();
    reading.project_dir = folder_.path();
    return read_export(export_text, "hall.ifcxml", reading);
  }

  Evidence document(const std::string& export_text = file_text("hall-ifc2x3.ifcxml")) const {
    const IntakeResult result = read(export_text);
    INFO(all_of(result.diagnostics));
    REQUIRE(result.project);
    REQUIRE(result.project->evidence.size() == 1);
    return result.project->evidence.front();
  }

 private:
  testing::TemporaryFolder folder_;
};

EvidenceStatus status_of(std::string_view bytes, std::string_view extension = ".txt") {
  return evidence_content(bytes, extension, "T-1").status;
}

std::string fault_of(const Evidence& document, EvidenceKind kind = EvidenceKind::fire_test_report) {
  return evidence_fault(document, {kind}, "2026-06-01");
}

TEST_CASE("a file counts for what it holds", "[intake]") {
  CHECK(status_of("") == EvidenceStatus::empty);
  CHECK(status_of(" \n\t\n") == EvidenceStatus::empty);
  CHECK(status_of("hello") == EvidenceStatus::unnamed);
  CHECK(status_of("report T-1") == EvidenceStatus::present);
  CHECK(status_of("report t-1") == EvidenceStatus::present);
  CHECK(status_of("report T-10, AT-1") == EvidenceStatus::unnamed);
  CHECK(status_of("T-1 \xFF\xFE") == EvidenceStatus::unreadable);
  CHECK(status_of(std::string("T-1\0T-1", 7)) == EvidenceStatus::unreadable);
  CHECK(status_of("report T-1", ".pdf") == EvidenceStatus::unreadable);
  CHECK(status_of("%PDF-1.7", ".pdf") == EvidenceStatus::unreadable);
  CHECK(status_of("%PDF-1.7\n...\nstartxref\n9\n%%EOF", ".pdf") == EvidenceStatus::unreadable);
  CHECK(status_of("\x89PNG\r\n\x1A\n", ".png") == EvidenceStatus::unreadable);
  CHECK(status_of("\x89PNG\r\n\x1A\n" + std::string(64, 'x'), ".png") == EvidenceStatus::present);
}

TEST_CASE("white space in a number is that of its text", "[intake]") {
  CHECK(evidence_content("Report no. 23 -\n 4711 of a test", ".txt", "23 - 4711").status == EvidenceStatus::present);
}

TEST_CASE("a text says what it is by its heading", "[intake]") {
  const auto kinds = [](std::string_view text) { return evidence_content(text, ".txt", "T-1").kinds; };
  using Kinds = std::vector<EvidenceKind>;
  CHECK(kinds(kReport) == Kinds{EvidenceKind::fire_test_report});
  CHECK(kinds("Environmental product declaration T-1") == Kinds{EvidenceKind::environmental_declaration});
  CHECK(kinds("Product declaration T-1") == Kinds{EvidenceKind::product_declaration});
  CHECK(kinds("Chain of custody certificate; factory production control") ==
        Kinds{EvidenceKind::chain_of_custody_certificate, EvidenceKind::factory_production_control});
  CHECK(kinds("hello").empty());
}

TEST_CASE("without a register a document is what its text says", "[intake]") {
  const Evidence document = OneDocument().document();
  CHECK(document.status == EvidenceStatus::present);
  CHECK(document.kind == EvidenceKind::fire_test_report);
  CHECK(document.number == "T-1");
  CHECK(fault_of(document).empty());
  CHECK(fault_of(document, EvidenceKind::air_test_report) ==
        "document 'T-1' is of the kind 'fire test report'; needed: air test report");
}

TEST_CASE("the register completes a document", "[intake]") {
  OneDocument one;
  one.write_register(
      "# by hand\nid,kind,number,issuer,standard,issued,expires,subject,scope,sha256\n"
      "T-1,Fire Test Report,T-1,Laboratory,EN 1365-1:2012,2025-10-14,2030-10-13,\"wall, closed\",up to 3.6 m," +
      to_hex(sha256(kReport)) + "\n");
  const Evidence document = one.document();
  CHECK(document.kind == EvidenceKind::fire_test_report);
  CHECK(document.issuer == "Laboratory");
  CHECK(document.standard == "EN 1365-1:2012");
  CHECK(document.issued == "2025-10-14");
  CHECK(document.expires == "2030-10-13");
  CHECK(document.subject == "wall, closed");
  CHECK(document.scope == "up to 3.6 m");
  CHECK(document.faults.empty());
  CHECK(fault_of(document).empty());
}

TEST_CASE("the register says who had a report made, who may use it and where", "[intake]") {
  OneDocument one;
  one.write_register("id,scope,sponsor,permission,countries\nT-1,up to 3.6 m,Works A,PL-1,\"England, Wales\"\n");
  const Evidence document = one.document();
  CHECK(document.scope == "up to 3.6 m");
  CHECK(document.sponsor == "Works A");
  CHECK(document.permission == "PL-1");
  CHECK(document.countries == "England, Wales");
  CHECK(document.faults.empty());
}

TEST_CASE("what is said of a document must hold", "[intake]") {
  const std::vector<std::pair<std::string, std::string>> cases{
      {"id,kind\nT-1,environmental declaration\n",
       "document 'T-1': its kind is stated as 'environmental declaration', and its text says 'fire test report'"},
      {"id,kind\nT-1,fire paper\n",
       "document 'T-1': 'fire paper' is no kind of document (evidence/evidence.csv line 2)"},
      {"id,expires\nT-1,2026-02-30\n",
       "document 'T-1': its day 'expires' '2026-02-30' is no day YYYY-MM-DD (evidence/evidence.csv line 2)"},
      {"id,issued,expires\nT-1,2026-01-01,2025-01-01\n",
       "document 'T-1': it expires on 2025-01-01, before it was issued on 2026-01-01"},
      {"id,expires\nT-1,2026-05-31\n",
       "document 'T-1' has expired on the assessment date 2026-06-01 (project.assessment_date): it was valid until "
       "2026-05-31"},
      {"id,number\nT-1,23-4711\n",
       "document 'T-1': the text does not name its number '23-4711' ('evidence/fire-test.txt')"},
      {"id,sha256\nT-1,abc\n",
       "document 'T-1': its sha256 is not of 64 hexadecimal digits (evidence/evidence.csv line 2)"},
      {"id,sha256\nT-1," + to_hex(sha256("another")) + "\n", "document 'T-1': the SHA-256 of its file is " +
                                                                 to_hex(sha256(kReport)) + ", and the register says " +
                                                                 to_hex(sha256("another"))}};
  for (const auto& [text, fault] : cases) {
    OneDocument one;
    one.write_register(text);
    INFO(text);
    CHECK(fault_of(one.document()) == fault);
  }
}

TEST_CASE("an emptied or missing file proves nothing", "[intake]") {
  OneDocument one;
  one.write("evidence/fire-test.txt", "");
  CHECK(fault_of(one.document()) == "document 'T-1': the file is empty ('evidence/fire-test.txt')");
  one.write("evidence/fire-test.txt", "hello");
  CHECK(fault_of(one.document()) ==
        "document 'T-1': the text does not name its number 'T-1' ('evidence/fire-test.txt')");
}

TEST_CASE("a register that is no table is refused", "[intake]") {
  const std::vector<std::pair<std::string, std::string>> cases{
      {"kind,number\nother,1\n", "line 1: the column 'id' is missing"},
      {"id,colour\nT-1,red\n", "line 1: 'colour' is no column of the register"},
      {"id,kind,id\nT-1,other,T-1\n", "line 1: the title 'id' stands over columns 1 and 3"},
      {"id,kind\nT-2,other\nT-1\n", "line 3: the row has 1 field and the head row 2"},
      {"id,kind\nT-1,\"other\n", "line 2: a quoted field is not closed"},
      {"id,kind\n,other\n", "line 2: names no document"},
      {"id,kind\nT-1,other\nT-1,other\n", "line 3: the document 'T-1' stands twice"}};
  for (const auto& [text, message] : cases) {
    OneDocument one;
    one.write_register(text);
    const IntakeResult result = one.read();
    INFO(text);
    CHECK_FALSE(result.project);
    CHECK(all_of(result.diagnostics).find("evidence/evidence.csv " + message) != std::string::npos);
  }
}

TEST_CASE("a line of the register without a document is warned of", "[intake]") {
  OneDocument one;
  one.write_register("id,kind\nT-9,other\n");
  const IntakeResult result = one.read();
  CHECK(result.project);
  CHECK(all_of(result.diagnostics).find("the export has no document 'T-9'") != std::string::npos);
}

TEST_CASE("the export's own record of a document is read", "[intake]") {
  const std::string ifc4 = edited(
      file_text("hall-ifc4-flat-metres.ifcxml"), "<IfcDocumentReference id=\"i238\"", "Name=\"Fire test of W165\"/>",
      "Name=\"Fire test of W165\"><ReferencedDocument xsi:type=\"IfcDocumentInformation\" id=\"i9001\" "
      "Identification=\"T-1\" Name=\"Report\" Description=\"wall\" Purpose=\"fire test report\" Scope=\"up to 3 m\" "
      "ValidFrom=\"2025-10-14\" ValidUntil=\"2026-05-31\"/></IfcDocumentReference>");
  OneDocument one;
  const Evidence document = one.document(ifc4);
  CHECK(document.number == "T-1");
  CHECK(document.subject == "wall");
  CHECK(document.scope == "up to 3 m");
  CHECK(document.issued == "2025-10-14");
  CHECK(fault_of(document) ==
        "document 'T-1' has expired on the assessment date 2026-06-01 (project.assessment_date): it was valid until "
        "2026-05-31");
  one.write_register("id,expires\nT-1,2031-05-31\n");
  CHECK(
      fault_of(one.document(ifc4)) ==
      "document 'T-1': its day 'expires' is '2026-05-31' in the export and '2031-05-31' in evidence/evidence.csv line "
      "2");
}

TEST_CASE("the record of an export in IFC2x3 names its reference", "[intake]") {
  const std::string ifc2x3 = edited(
      file_text("hall-ifc2x3.ifcxml"), "<Name>Fire test of W165</Name>", "</IfcDocumentReference>",
      "</IfcDocumentReference>\n<IfcDocumentInformation id=\"i9001\"><DocumentId>T-1</DocumentId><Name>Report</Name>"
      "<DocumentReferences ex:cType=\"set\"><IfcDocumentReference ex:pos=\"0\" xsi:nil=\"true\" ref=\"i240\"/>"
      "</DocumentReferences><Purpose>fire test report</Purpose><ValidUntil><IfcCalendarDate id=\"i9002\">"
      "<DayComponent>5</DayComponent><MonthComponent>7</MonthComponent><YearComponent>2031</YearComponent>"
      "</IfcCalendarDate></ValidUntil></IfcDocumentInformation>");
  const Evidence document = OneDocument().document(ifc2x3);
  CHECK(document.kind == EvidenceKind::fire_test_report);
  CHECK(document.expires == "2031-07-05");
}

}  // namespace
}  // namespace panel_dossier
