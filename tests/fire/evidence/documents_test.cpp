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

/// What is wrong with the report behind the panel's fire resistance.
std::string report_fault(const Project& project, const Settings& settings = fire_settings()) {
  return fire::resistance_report_fault(project.evidence.front(), project,
                                       fire::document_use(project.panels.front(), settings));
}

}  // namespace

TEST_CASE("A report of fire resistance names a standard with its edition that leads to a European class") {
  Project project = tested_panel();
  Evidence& report = project.evidence.front();
  for (const char* standard : {"EN 1364-1:2015", "EN 1365-1:2012+AC", "BS EN 13501-2:2016", "DIN EN 1363-1:2020",
                               "EN 1364-1; classification to EN 13501-2:2016"}) {
    INFO(standard);
    report.standard = standard;
    CHECK(report_fault(project).empty());
  }
  for (const char* standard : {"BS 476-22:1987", "EN 13501-1:2018", "ASTM E119"}) {
    INFO(standard);
    report.standard = standard;
    CHECK(report_fault(project) ==
          "document 'FT-1' is to '" + report.standard + "', which gives no class of EN 13501-2");
  }
  for (const char* standard : {"EN 1364-1", "EN 1364-1: third edition", "EN 1365-1:12", "EN 1365-1:201",
                               "EN 1364-1 2015", "EN 13501-2:9999"}) {
    INFO(standard);
    report.standard = standard;
    CHECK(report_fault(project) ==
          "document 'FT-1' is to '" + report.standard + "' without its edition (as in EN 13501-2:2016)");
  }
  report.standard = "EN 1364-1:2026";
  CHECK(report_fault(project) ==
        "document 'FT-1' is to 'EN 1364-1:2026', an edition later than its day of issue, 2025-10-14");
}

TEST_CASE("The record of a report of fire resistance says who made it, to what, when and for whom") {
  Project project = tested_panel();
  Evidence& report = project.evidence.front();
  report.issuer.clear();
  CHECK(report_fault(project) == "document 'FT-1': its record states no issuer (laboratory) (evidence/evidence.csv)");
  report.standard.clear();
  report.issued.clear();
  report.sponsor.clear();
  report.countries.clear();
  CHECK(report_fault(project) ==
        "document 'FT-1': its record states no issuer (laboratory), no standard, no day of issue, no sponsor, no "
        "countries for its use (evidence/evidence.csv)");
}

TEST_CASE("A report made for another counts with a permission to use it") {
  Project project = tested_panel();
  Evidence& report = project.evidence.front();
  report.sponsor = "another works";
  CHECK(report_fault(project) ==
        "document 'FT-1' was made for 'another works' (its record), and the panel is made by 'panel works' "
        "(Pset_ManufacturerTypeInformation.Manufacturer): a permission to use it is not stated "
        "(evidence/evidence.csv, column permission: the id of a document of the export)");
  remove(properties_of(project), "Pset_ManufacturerTypeInformation.Manufacturer");
  CHECK(report_fault(project) ==
        "document 'FT-1' was made for 'another works' (its record), and who makes the panel is not given "
        "(Pset_ManufacturerTypeInformation.Manufacturer): a permission to use it is not stated "
        "(evidence/evidence.csv, column permission: the id of a document of the export)");
  // Words are no permission: it is a document that is there and valid.
  for (const char* words : {"none", "pending", "letter of 2025-11-03 to the panel works", "PL-1", "FT-1"}) {
    INFO(words);
    report.permission = words;
    CHECK_FALSE(report_fault(project).empty());
  }
  add_document(project, "PL-1", EvidenceKind::other);
  project.evidence.front().permission = "PL-1";
  CHECK(report_fault(project).empty());
  project.evidence.back().status = EvidenceStatus::missing;
  CHECK_FALSE(report_fault(project).empty());
}

TEST_CASE("A report that names countries counts in those alone") {
  Project project = tested_panel();
  Evidence& report = project.evidence.front();
  for (const char* countries : {"England", "Wales, England", "united kingdom", "Great Britain"}) {
    INFO(countries);
    report.countries = countries;
    CHECK(report_fault(project).empty());
  }
  report.countries = "Germany, Austria";
  CHECK(report_fault(project) ==
        "document 'FT-1' may be used in Germany, Austria (its record), and the project is in England (setting "
        "project.jurisdiction)");
  CHECK(report_fault(project, without(fire_settings(), "project.jurisdiction")) ==
        "document 'FT-1' may be used in Germany, Austria (its record), and where the project is, is not given "
        "(setting project.jurisdiction)");
}

TEST_CASE("A classification report of fire resistance serves as well as the test's own") {
  Project project = tested_panel();
  project.evidence.front().kind = EvidenceKind::classification_report;
  CHECK(report_fault(project).empty());
}

TEST_CASE("A fire strategy is a document of its own kind") {
  Project project;
  project.panels.emplace_back();
  add_document(project, "FS-1", EvidenceKind::fire_strategy);
  Evidence& strategy = project.evidence.front();
  CHECK(fire::strategy_fault(strategy, "2026-06-01").empty());
  strategy.issuer.clear();
  CHECK(fire::strategy_fault(strategy, "2026-06-01") ==
        "document 'FS-1': its record states no issuer (evidence/evidence.csv)");
  strategy.kind = EvidenceKind::other;
  CHECK(fire::strategy_fault(strategy, "2026-06-01") ==
        "document 'FS-1' is of the kind 'other'; needed: fire strategy");
}

TEST_CASE("A classification of reaction to fire says who made it, to what and when") {
  Project project = classified_panel();
  Evidence& report = project.evidence.front();
  CHECK(class_fault(project).empty());
  report.issuer.clear();
  report.issued.clear();
  CHECK(class_fault(project) ==
        "document 'RF-1': its record states no issuer (laboratory), no day of issue (evidence/evidence.csv)");
  report = classified_panel().evidence.front();
  report.standard = "EN 13501-1";
  CHECK(class_fault(project) == "document 'RF-1' is to 'EN 13501-1' without its edition (as in EN 13501-2:2016)");
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
