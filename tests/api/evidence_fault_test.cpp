// Why a document proves nothing.
#include <catch2/catch.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/model/project.h"

using namespace panel_dossier;

namespace {

Evidence air_report() {
  Evidence document;
  document.id = "AIR-1";
  document.number = "N 7";
  document.location = "evidence/air.pdf";
  document.status = EvidenceStatus::present;
  document.kind = EvidenceKind::air_test_report;
  document.issued = "2026-03-02";
  document.expires = "2027-03-01";
  return document;
}

std::string fault_on(const Evidence& document, std::string_view day) {
  return evidence_fault(document, {EvidenceKind::air_test_report}, day);
}

}  // namespace

TEST_CASE("a document counts from the day of its issue to the last of its validity") {
  for (const char* day : {"2026-03-02", "2026-08-01", "2027-03-01"}) CHECK(fault_on(air_report(), day).empty());
  CHECK(fault_on(air_report(), "2026-03-01") ==
        "document 'AIR-1' is not issued on the assessment date 2026-03-01 (project.assessment_date): its day is "
        "2026-03-02");
  CHECK(fault_on(air_report(), "2027-03-02") ==
        "document 'AIR-1' has expired on the assessment date 2027-03-02 (project.assessment_date): it was valid until "
        "2027-03-01");
  CHECK(fault_on(air_report(), "") ==
        "document 'AIR-1' is valid until 2027-03-01; set the day that counts (setting project.assessment_date)");
  Evidence lasting = air_report();
  lasting.expires.clear();
  CHECK(fault_on(lasting, "").empty());
  CHECK(fault_on(lasting, "2090-01-01").empty());
}

TEST_CASE("a document that is not there, not readable or of another number says so with its place") {
  for (const auto& [status, words] :
       {std::pair{EvidenceStatus::missing, "missing: no file at that place ('evidence/air.pdf')"},
        {EvidenceStatus::refused, "refused: the place lies outside the project folder ('evidence/air.pdf')"},
        {EvidenceStatus::empty, "the file is empty ('evidence/air.pdf')"},
        {EvidenceStatus::unreadable, "the file holds neither text nor pages that can be read ('evidence/air.pdf')"},
        {EvidenceStatus::unnamed, "the text does not name its number 'N 7' ('evidence/air.pdf')"}}) {
    Evidence document = air_report();
    document.status = status;
    CHECK(fault_on(document, "2026-08-01") == std::string("document 'AIR-1': ") + words);
  }
}

TEST_CASE("a document of another kind, or with faults of its own, proves nothing") {
  const std::vector<EvidenceKind> fire{EvidenceKind::fire_test_report, EvidenceKind::classification_report};
  CHECK(evidence_fault(air_report(), fire, "2026-08-01") ==
        "document 'AIR-1' is of the kind 'air test report'; needed: fire test report or classification report");
  Evidence document = air_report();
  document.kind = EvidenceKind::not_stated;
  CHECK(fault_on(document, "2026-08-01") ==
        "document 'AIR-1' is of no stated kind; needed: air test report (evidence/evidence.csv, column kind)");
  document.faults = {"first", "second"};
  CHECK(fault_on(document, "2026-08-01") == "document 'AIR-1': first; second");
}

TEST_CASE("a kind of document is read from its words, in any case and between blanks") {
  CHECK(parse_evidence_kind(" Fire test REPORT ") == EvidenceKind::fire_test_report);
  CHECK(parse_evidence_kind("other") == EvidenceKind::other);
  CHECK(parse_evidence_kind("lifting certificate") == EvidenceKind::lifting_certificate);
  CHECK_FALSE(parse_evidence_kind("document of no stated kind"));
  CHECK_FALSE(parse_evidence_kind("fire"));
  CHECK_FALSE(parse_evidence_kind(""));
  CHECK(to_string(EvidenceKind::other) == "other");
  CHECK(to_string(EvidenceKind::not_stated) == "document of no stated kind");
}
