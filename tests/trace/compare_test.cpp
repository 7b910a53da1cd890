#include "core/trace/compare.h"

#include <catch2/catch.hpp>

#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

TEST_CASE("Equal builds have no changes, whatever their time") {
  auto later = sample_document();
  later.build.time_utc = "2026-11-26T02:00:00Z";
  CHECK(compare(sample_document(), later).empty());
}

TEST_CASE("A verdict that moves from pass to fail is worse and comes first") {
  auto after = sample_document();
  after.panels[2].findings[0].verdict = Verdict::fail;
  after.panels[0].findings[1].verdict = Verdict::pass;
  after.panels[0].data_hash = std::string(64, 'a');
  const auto changes = compare(sample_document(), after);
  REQUIRE(changes.size() == 3);
  CHECK(to_string(changes[0]) ==
        "WORSE verdict moved, panel 'P-03', fire.reaction_to_fire: B-s1,d0, pass -> B-s1,d0, fail");
  CHECK(changes[1].kind == ChangeKind::panel_data_changed);
  CHECK(to_string(changes[2]) ==
        "verdict moved, panel 'P-01', thermal.u_value: 0.30 W/(m²·K), fail -> 0.30 W/(m²·K), pass");
}

TEST_CASE("A changed value is shown as printed, or exactly when printing hides the change") {
  auto after = sample_document();
  after.panels[0].findings[1].value = 0.25;
  after.panels[1].findings[1].value = 0.3;
  const auto changes = compare(sample_document(), after);
  REQUIRE(changes.size() == 2);
  CHECK(changes[0].kind == ChangeKind::value_changed);
  CHECK(changes[0].before == "0.30 W/(m²·K), fail");
  CHECK(changes[0].after == "0.25 W/(m²·K), fail");
  CHECK(changes[1].before == "0.30000000000000004 W/(m²·K), fail");
  CHECK(changes[1].after == "0.3 W/(m²·K), fail");
}

TEST_CASE("A setting that changed is named with both values, whatever it does to the verdicts") {
  const auto with_setting = [](double value) {
    auto document = sample_document();
    Input input;
    input.name = "wind speed";
    input.value = value;
    input.unit = "m/s";
    input.origin.kind = OriginKind::setting;
    input.origin.key = "structural.wind.basic_velocity_m_per_s";
    FindingRecorder recorder;
    for (PanelSummary& panel : document.panels) {
      Finding finding = whole_finding(panel.findings[0]);
      finding.inputs.push_back(input);
      panel.findings[0] = recorder.record(finding);
    }
    return document;
  };
  const auto changes = compare(with_setting(22.5), with_setting(24.0));
  REQUIRE(changes.size() == 1);
  CHECK(
      to_string(changes[0]) ==
      "setting changed: structural.wind.basic_velocity_m_per_s = 22.5 m/s -> structural.wind.basic_velocity_m_per_s = "
      "24 m/s");
  const auto added = compare(sample_document(), with_setting(24.0));
  REQUIRE(added.size() == 1);
  CHECK(to_string(added[0]) == "setting changed: none -> structural.wind.basic_velocity_m_per_s = 24 m/s");
}

TEST_CASE("Added and removed panels are named") {
  auto after = sample_document();
  after.panels[1].global_id = "another id";
  after.panels[1].mark = "P-20";
  const auto changes = compare(sample_document(), after);
  REQUIRE(changes.size() == 2);
  CHECK(to_string(changes[0]) == "panel added, panel 'P-20': none -> another id");
  CHECK(to_string(changes[1]) == "panel removed, panel 'P-02': id-of-P-02 -> none");
}

TEST_CASE("A panel whose GlobalId the export renewed is matched by its mark") {
  auto after = sample_document();
  after.panels[1].global_id = "renewed";
  CHECK(compare(sample_document(), after).empty());
}

TEST_CASE("A check that is gone or new counts as a moved verdict") {
  auto after = sample_document();
  after.panels[0].findings.erase(after.panels[0].findings.begin());
  const auto gone = compare(sample_document(), after);
  REQUIRE(gone.size() == 1);
  CHECK(gone[0].worse);
  CHECK(gone[0].after.empty());
  const auto found = compare(after, sample_document());
  REQUIRE(found.size() == 1);
  CHECK_FALSE(found[0].worse);
}

TEST_CASE("A check that stands once is the same under a reworded title") {
  auto after = sample_document();
  after.panels[0].findings[1].title = "Thermal transmittance of the wall element";
  CHECK(compare(sample_document(), after).empty());
}

TEST_CASE("Findings that share check and title are compared in order") {
  auto before = sample_document();
  before.panels[0].findings.push_back(before.panels[0].findings[1]);
  auto after = before;
  after.panels[0].findings.back().value = 9.0;
  const auto changes = compare(before, after);
  REQUIRE(changes.size() == 1);
  CHECK(changes[0].after == "9.00 W/(m²·K), fail");
}

TEST_CASE("Changed input files are named with their hashes") {
  auto after = sample_document();
  after.build.export_sha256 = std::string(64, 'b');
  after.build.evidence[0].sha256 = std::string(64, 'c');
  const auto changes = compare(sample_document(), after);
  REQUIRE(changes.size() == 2);
  CHECK(changes[0].before.empty());
  CHECK(changes[0].after == "evidence evidence/report.txt cccccccccccccccc");
  CHECK(changes[1].after == "export bbbbbbbbbbbbbbbb");
}
