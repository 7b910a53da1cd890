// What is told of a small build, held text by text: its record, where its figures come from, what is open, and what has
// changed against builds that differ in many things.
#include <catch2/catch.hpp>
#include <string>

#include "core/trace/canonical.h"
#include "core/trace/comparison_text.h"
#include "core/trace/open_points.h"
#include "core/trace/panel_text.h"
#include "core/trace/results_document.h"
#include "core/trace/results_reader.h"
#include "tests/support/held_file.h"
#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// The small document with something of every kind that may change between two builds.
ResultsDocument changed_document() {
  ResultsDocument document = sample_document();
  document.build.export_sha256 = std::string(64, '1');
  document.build.settings_sha256 = std::string(64, '2');
  document.build.settings_files = {{"rates.csv", "", std::string(64, '3')}};
  document.build.evidence = {{"evidence/other.txt", "E-2", std::string(64, '4')}};
  document.build.incomplete = true;
  document.build.failures = {"plugin 'sound' failed"};
  document.build.withheld = {"a thousandfold density"};
  document.build.confirmed = {"a high density"};
  document.build.unconfirmed = {"limits.csv row 'x'"};
  document.panels[0].data_hash = std::string(64, 'a');
  document.panels[0].findings[0].verdict = Verdict::fail;
  document.panels[0].findings[0].reason = "class B-s1,d0 is too low; take another lining";
  document.panels[0].findings[1].value = 0.2;
  document.panels[1].findings[1].verdict = Verdict::evidence_needed;
  document.panels[1].findings[1].reason = "the report of 12 mm boards is absent; add it";
  document.panels[1].findings[0].verdict = Verdict::not_assessed;
  document.panels[1].findings[0].reason = "the export has no layer of 12 mm; add it";
  document.panels[1].not_applicable = {{"thermal.heat_loss", "the panel has no outer face"}};
  document.panels[2].mark = "P-04";
  document.panels[2].global_id = "id-of-P-04";
  document.panels[2].findings.pop_back();
  document.project_findings[0].value = 1300.0;
  return document;
}

std::string changes_of(const ResultsDocument& before, const ResultsDocument& after) {
  const Comparison comparison = compare(before, after);
  return comparison_text(comparison) + comparison_json(comparison);
}

std::string subjects_of(const ResultsDocument& document) {
  std::string text;
  for (const OpenPoint& point : open_points(document)) {
    text += held_line({std::string(to_string(point.verdict)), point.check, point.title, point.what, point.who,
                       subject_of(point), point.first_panel}) +
            "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("What is told of a small build is what was told", "[held]") {
  HeldFile held(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "tests/trace/held_documents.csv",
                {"document", "text"}, {}, {"digest"});
  const ResultsDocument before = sample_document();
  const ResultsDocument after = changed_document();
  held.add({"small", "results.json", to_json(before)});
  held.add({"changed", "results.json", to_json(after)});
  held.add({"changed", "results.json read and written", to_json(results_from_json(to_json(after)))});
  held.add({"small", "derivation", panel_text(before, "P-02")});
  held.add({"changed", "derivation", panel_text(after, "P-02")});
  held.add({"small", "open points", open_points_csv(open_points(before)) + subjects_of(before)});
  held.add({"changed", "open points", open_points_csv(open_points(after)) + subjects_of(after)});
  held.add({"small", "changes", changes_of(before, after)});
  held.add({"changed", "changes", changes_of(after, before)});
  const Project project = sample_project();
  held.add({"small", "canonical panel", canonical_panel(project.panels.front(), project)});
  for (const std::string& fault : held.faults("trace")) FAIL_CHECK(fault);
}
