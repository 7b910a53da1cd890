#include "plugins/fire/evidence/documents.h"

#include <catch2/catch.hpp>
#include <string>

#include "tests/fire/tested_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// What is wrong with the documents behind the class of the panel's gypsum.
std::string class_fault(const Project& project) {
  return fire::missing_class_documents(project.panels.front(), project, fire_settings(), {kGypsum});
}

}  // namespace

TEST_CASE("A report of fire resistance names a standard that leads to a European class") {
  Project project = tested_panel();
  Evidence& report = project.evidence.front();
  for (const char* standard : {"", "EN 1364-1:2015", "EN 1365-1:2012+AC", "BS EN 13501-2:2016", "DIN EN 1363-1"}) {
    INFO(standard);
    report.standard = standard;
    CHECK(fire::resistance_report_fault(report, "2026-06-01").empty());
  }
  for (const char* standard : {"BS 476-22:1987", "EN 13501-1:2018", "ASTM E119"}) {
    INFO(standard);
    report.standard = standard;
    CHECK(fire::resistance_report_fault(report, "2026-06-01").starts_with("document 'FT-1' is to '"));
  }
}

TEST_CASE("A classification report of fire resistance serves as well as the test's own") {
  Project project = tested_panel();
  project.evidence.front().kind = EvidenceKind::classification_report;
  CHECK(fire::resistance_report_fault(project.evidence.front(), "2026-06-01").empty());
}

TEST_CASE("A file that is another than it should be may have been the classification report") {
  Project project = classified_panel();
  CHECK(class_fault(project).empty());
  project.evidence.front().status = EvidenceStatus::unnamed;
  project.evidence.front().kind = EvidenceKind::chain_of_custody_certificate;
  CHECK(class_fault(project) == "document 'RF-1': the text does not name its number 'RF-1' ('evidence/RF-1.txt')");
  project.evidence.front().status = EvidenceStatus::empty;
  project.evidence.front().kind = EvidenceKind::not_stated;
  CHECK(class_fault(project) == "document 'RF-1': the file is empty ('evidence/RF-1.txt')");
}

TEST_CASE("One document that serves is enough") {
  Project project = classified_panel();
  project.evidence.front().expires = "2026-05-31";
  CHECK_FALSE(class_fault(project).empty());
  add_document(project, "DoP-1", EvidenceKind::product_declaration);
  CHECK(class_fault(project).empty());
}
