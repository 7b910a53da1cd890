#include "core/trace/batch_text.h"

#include <catch2/catch.hpp>

#include "core/trace/panel_text.h"
#include "core/trace/results_reader.h"
#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// B1 of two materials, in all and in the last of three panels.
ResultsDocument document_with_batches() {
  ResultsDocument document = sample_document();
  document.batches = {{"B1", "softwood", {"rail", "stud"}, {"D-1", "D-2"}, {"P-01", "P-02", "P-03"}},
                      {"B1", "wood fibre", {}, {}, {"P-03"}}};
  return document;
}

}  // namespace

TEST_CASE("From a batch to its panels: every material of that reference, every panel") {
  CHECK(batch_text(document_with_batches(), "B1") ==
        "batch 'B1' of 'softwood': rail, stud; delivered with D-1, D-2; in 3 of 3 panels\n"
        "  panel 'P-01', id-of-P-01, storey 'ground floor'\n"
        "  panel 'P-02', id-of-P-02, storey 'ground floor'\n"
        "  panel 'P-03', id-of-P-03, storey 'ground floor'\n"
        "batch 'B1' of 'wood fibre'; in 1 of 3 panels\n"
        "  panel 'P-03', id-of-P-03, storey 'ground floor'\n");
  CHECK(batch_text(document_with_batches(), "B2").empty());
}

TEST_CASE("From a panel to its batches") {
  const ResultsDocument document = document_with_batches();
  CHECK(batches_of_panel_text(document, "P-02") == "batch 'B1' of 'softwood': rail, stud; delivered with D-1, D-2\n");
  CHECK_THAT(panel_text(document, "P-02"), Catch::Contains("batch 'B1' of 'softwood'"));
  CHECK_THAT(panel_text(document, "P-02"), !Catch::Contains("wood fibre"));
}

TEST_CASE("A name is that of a panel by mark or GlobalId") {
  CHECK(names_panel(sample_document(), "P-02"));
  CHECK(names_panel(sample_document(), "id-of-P-02"));
  CHECK_FALSE(names_panel(sample_document(), "B1"));
}

TEST_CASE("Batches are written to results.json and read back") {
  const ResultsDocument document = document_with_batches();
  const std::string text = to_json(document);
  const ResultsDocument again = results_from_json(text);
  REQUIRE(again.batches.size() == 2);
  CHECK(to_json(again) == text);
  CHECK(again.batches[0].deliveries == std::vector<std::string>{"D-1", "D-2"});
}

TEST_CASE("The batches of the project's register are told by marks") {
  Project project = sample_project();
  project.batches = {{"B7", "softwood", {"stud"}, {"D-1"}, {0, 2}}};
  const ResultsDocument document = make_results_document(project, sample_results(project), sample_facts());
  REQUIRE(document.batches.size() == 1);
  CHECK(document.batches[0].marks == std::vector<std::string>{"P-01", "P-03"});
}

TEST_CASE("A panel's hash is of what the export states of it: records leave it as it is") {
  Project project = sample_project();
  PanelRecord record;
  record.table = "inspections";
  record.day = "2026-03-02";
  record.values = {{"result", std::string("REJECTED"), ""}};
  project.panels[0].records = {record};
  const auto document = make_results_document(project, sample_results(project), sample_facts());
  CHECK(document.panels[0].data_hash == sample_document().panels[0].data_hash);
}
