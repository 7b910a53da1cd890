#include "core/trace/compare.h"

#include <catch2/catch.hpp>
#include <cstdlib>

#include "core/trace/comparison_text.h"
#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// The small document as if its settings file held the values.
ResultsDocument with_settings(SettingValues settings, ResultsDocument document = sample_document()) {
  document.build.settings = std::move(settings);
  return document;
}

/// Puts the finding that `change` makes of finding 1 (thermal.u_value) of each panel in its place.
template <typename Change>
void rework(ResultsDocument& document, Change change) {
  FindingRecorder recorder;
  for (PanelSummary& panel : document.panels) {
    Finding finding = whole_finding(panel.findings[1]);
    change(finding);
    panel.findings[1] = recorder.record(finding);
  }
}

/// An input of a setting, and the value that comes of it.
ResultsDocument with_cited_setting(double velocity_m_per_s) {
  auto document = with_settings({{"thermal.velocity_m_per_s", velocity_m_per_s}});
  rework(document, [&](Finding& finding) {
    Input input;
    input.name = "wind speed";
    input.value = velocity_m_per_s;
    input.unit = "m/s";
    input.origin.kind = OriginKind::setting;
    input.origin.key = "thermal.velocity_m_per_s";
    finding.inputs.push_back(input);
    finding.value = velocity_m_per_s / 100.0;
  });
  return document;
}

std::vector<std::string> cause_lines(const Comparison& comparison) {
  std::vector<std::string> lines;
  for (const Cause& cause : comparison.causes) lines.push_back(to_string(cause) + ": " + to_string(cause.effects));
  return lines;
}

}  // namespace

TEST_CASE("Equal builds have no changes, whatever their time") {
  auto later = sample_document();
  later.build.time_utc = "2026-11-26T02:00:00Z";
  const Comparison comparison = compare(sample_document(), later);
  CHECK(comparison.nothing_changed());
  CHECK(comparison_text(comparison) ==
        "from the build of 2026-11-25T02:00:00Z to the build of 2026-11-26T02:00:00Z: nothing changed\n");
}

TEST_CASE("A verdict that moves from pass to fail is worse and comes first") {
  auto after = sample_document();
  after.panels[2].findings[0].verdict = Verdict::fail;
  after.panels[0].findings[1].verdict = Verdict::pass;
  const Comparison comparison = compare(sample_document(), after);
  REQUIRE(comparison.changes.size() == 2);
  CHECK(comparison.worse() == 1);
  CHECK(to_string(comparison.changes[0]) ==
        "WORSE verdict moved, panel 'P-03', fire.reaction_to_fire: B-s1,d0, pass -> B-s1,d0, fail");
  CHECK(to_string(comparison.changes[1]) ==
        "verdict moved, panel 'P-01', thermal.u_value: 0.30 W/(m²·K), fail -> 0.30 W/(m²·K), pass");
}

TEST_CASE("A changed value is shown as printed, or exactly when printing hides the change") {
  auto after = sample_document();
  after.panels[0].findings[1].value = 0.25;
  after.panels[1].findings[1].value = 0.3;
  const Comparison comparison = compare(sample_document(), after);
  REQUIRE(comparison.changes.size() == 2);
  CHECK(to_string(comparison.changes[0]) ==
        "value changed, panel 'P-01', thermal.u_value: 0.30 W/(m²·K), fail -> 0.25 W/(m²·K), fail (-17 %)");
  CHECK(comparison.changes[1].before == "0.30000000000000004 W/(m²·K), fail");
  CHECK(comparison.changes[1].after == "0.3 W/(m²·K), fail");
  CHECK(comparison.is_shown(comparison.changes[0]));
  CHECK_FALSE(comparison.is_shown(comparison.changes[1]));
  CHECK(comparison.small_figures() == 1);
}

TEST_CASE("A figure moved by a share of what it was, where that is not nothing and the unit has stayed") {
  const auto share = [](double from, double to, const char* unit) {
    auto before = sample_document();
    auto after = sample_document();
    before.panels[0].findings[1].value = from;
    after.panels[0].findings[1].value = to;
    after.panels[0].findings[1].unit = unit;
    const auto changes = compare(before, after).changes;
    REQUIRE(changes.size() == 1);
    return changes[0].share;
  };
  const char* const unit = "W/(m²·K)";
  REQUIRE(sample_document().panels[0].findings[1].unit == unit);
  CHECK(share(2.0, 2.5, unit) == 0.25);
  CHECK(share(-2.0, -2.5, unit) == -0.25);
  CHECK_FALSE(share(0.0, 2.5, unit));
  CHECK_FALSE(share(2.0, 2.5, "mW/(m²·K)"));
}

TEST_CASE("The settings of the later build say which figures are worth a line") {
  auto after = sample_document();
  after.panels[0].findings[1].value = (0.1 + 0.2) * 1.04;
  CHECK(compare(sample_document(), after).small_figures() == 0);
  after = with_settings({{"changes.least_move_percent", 5.0}}, after);
  CHECK(compare(with_settings({}), after).small_figures() == 1);
}

TEST_CASE("A setting is a cause by its key, with both values and what it moved") {
  const Comparison comparison = compare(with_cited_setting(22.5), with_cited_setting(25.0));
  CHECK(cause_lines(comparison) ==
        std::vector<std::string>{"setting thermal.velocity_m_per_s: 22.5 -> 25: 3 figures, 0 verdicts"});
  REQUIRE(comparison.changes.size() == 3);
  CHECK(causes_text(comparison, comparison.changes[0]) == "setting thermal.velocity_m_per_s");
}

TEST_CASE("A setting that moves nothing is named all the same, added, changed or taken out") {
  const auto before = with_settings({{"a.number", 1.0}, {"a.word", std::string("x")}});
  const auto after = with_settings({{"a.number", 1.5}, {"a.flag", true}});
  CHECK(cause_lines(compare(before, after)) ==
        std::vector<std::string>{"setting a.flag: none -> true: 0 figures, 0 verdicts",
                                 "setting a.number: 1 -> 1.5: 0 figures, 0 verdicts",
                                 "setting a.word: x -> none: 0 figures, 0 verdicts"});
}

TEST_CASE("Settings of which only the layout changed, or whose values an earlier build did not keep, stand as a file") {
  auto before = with_settings({{"a.number", 1.0}});
  before.build.settings_sha256 = std::string(64, 'a');
  auto after = with_settings({{"a.number", 1.0}});
  after.build.settings_sha256 = std::string(64, 'b');
  const std::vector<std::string> as_file{
      "settings file settings: aaaaaaaaaaaaaaaa -> bbbbbbbbbbbbbbbb: 0 figures, 0 verdicts"};
  CHECK(cause_lines(compare(before, after)) == as_file);
  before.build.settings.reset();
  after.build.settings = SettingValues{{"a.number", 2.0}};
  CHECK(cause_lines(compare(before, after)) == as_file);
}

TEST_CASE("Of several causes a figure stems from those that its changed inputs came from") {
  const auto before = with_cited_setting(22.5);
  auto after = with_cited_setting(25.0);
  after.build.settings->emplace("building.height_m", 9.0);
  after.build.export_sha256 = std::string(64, 'b');
  after.panels[1].data_hash = std::string(64, 'c');
  // Of the export, and of the setting: counts under both.
  FindingRecorder recorder;
  Finding wider = whole_finding(after.panels[1].findings[1]);
  REQUIRE(wider.inputs[3].name == "width");
  wider.inputs[3].value = 3.5;
  after.panels[1].findings[1] = recorder.record(wider);
  const Comparison comparison = compare(before, after);
  CHECK(cause_lines(comparison) ==
        std::vector<std::string>{"setting building.height_m: none -> 9: 0 figures, 0 verdicts",
                                 "setting thermal.velocity_m_per_s: 22.5 -> 25: 3 figures, 0 verdicts",
                                 "export project.xml: " + before.build.export_sha256.substr(0, 16) +
                                     " -> bbbbbbbbbbbbbbbb: 1 figure, 0 verdicts"});
  CHECK(comparison.causes[2].panels == std::vector<std::string>{"P-02"});
  CHECK(comparison.changes[1].causes == CauseIndices{1, 2});
}

TEST_CASE("A figure that no changed input explains is not attributed while several causes could reach it") {
  auto before = with_settings({{"building.height_m", 8.0}, {"changes.least_move_percent", 1.0}});
  auto after = with_settings({{"building.height_m", 9.0}, {"changes.least_move_percent", 2.0}});
  after.panels[0].findings[1].value = 0.5;
  // Alone, apart from what only steers the comparison.
  CHECK(compare(before, after).changes[0].causes == CauseIndices{0});
  after.build.evidence[0].sha256 = std::string(64, 'c');
  const Comparison comparison = compare(before, after);
  CHECK(comparison.changes[0].causes.empty());
  CHECK(comparison.not_attributed.figures == 1);
  CHECK_THAT(comparison_text(comparison), Catch::Contains("not attributed to one of them: 1 figure, 0 verdicts"));
}

TEST_CASE("A plugin and its tables move findings of their own discipline only") {
  const auto plugin = [](const std::string& id, char digit) {
    PluginSummary summary;
    summary.id = id;
    summary.version = "1";
    summary.data_tables = {{"resistances.csv", id, std::string(64, digit)}};
    return summary;
  };
  auto before = sample_document();
  auto after = sample_document();
  before.build.plugins = {plugin("fire", 'a'), plugin("thermal", 'a')};
  after.build.plugins = {plugin("fire", 'b'), plugin("thermal", 'b')};
  rework(after, [](Finding& finding) {
    finding.inputs[1].value = 0.2;
    finding.value = 0.4;
  });
  after.panels[0].findings[0].verdict = Verdict::fail;
  const auto lines = cause_lines(compare(before, after));
  CHECK(lines ==
        std::vector<std::string>{
            "data table fire/resistances.csv: aaaaaaaaaaaaaaaa -> bbbbbbbbbbbbbbbb: 0 figures, 1 verdict (1 "
            "worse)",
            "data table thermal/resistances.csv: aaaaaaaaaaaaaaaa -> bbbbbbbbbbbbbbbb: 3 figures, 0 verdicts"});
}

TEST_CASE("A table is the cause of figures whose inputs stand in it, of two with one name that of the discipline") {
  auto before = with_settings({{"building.height_m", 8.0}});
  auto after = with_settings({{"building.height_m", 9.0}});
  for (const auto& [document, digit] : {std::pair{&before, 'a'}, {&after, 'b'}}) {
    for (const char* id : {"fire", "thermal"}) {
      PluginSummary plugin;
      plugin.id = id;
      plugin.data_tables = {{"resistances.csv", id, std::string(64, digit)}};
      document->build.plugins.push_back(plugin);
    }
    document->build.settings_files = {{"library.xlsx", "", std::string(64, digit)}};
    document->panels.resize(1);
  }
  const auto causes_of_input = [&](std::size_t index, const std::string& file) {
    auto moved = after;
    rework(moved, [&](Finding& finding) {
      if (!file.empty()) {
        finding.inputs[index].origin.kind = OriginKind::input_table;
        finding.inputs[index].origin.table = file;
      }
      finding.inputs[index].value = 0.2;
      finding.value = 0.4;
    });
    std::vector<std::string> names;
    const Comparison comparison = compare(before, moved);
    REQUIRE(comparison.changes.size() == 1);
    for (const std::size_t cause : comparison.changes[0].causes) names.push_back(comparison.causes[cause].name);
    return names;
  };
  CHECK(causes_of_input(1, "") == std::vector<std::string>{"thermal/resistances.csv"});
  // A sheet of a workbook is named behind a comma.
  CHECK(causes_of_input(0, "library.xlsx, sheet 'boards'") == std::vector<std::string>{"library.xlsx"});
  CHECK(causes_of_input(0, "library.xlsx") == std::vector<std::string>{"library.xlsx"});
  CHECK(causes_of_input(0, "another.xlsx").empty());
}

TEST_CASE("Panels that come or go in the same export do so by the rules of reading it") {
  const auto before = with_settings({{"intake.panel_rule", std::string("all")}, {"building.height_m", 8.0}});
  auto after = with_settings({{"intake.panel_rule", std::string("typed")}, {"building.height_m", 9.0}});
  after.panels.pop_back();
  const Comparison comparison = compare(before, after);
  REQUIRE(comparison.changes.size() == 1);
  REQUIRE(comparison.changes[0].causes.size() == 1);
  CHECK(comparison.causes[comparison.changes[0].causes[0]].name == "intake.panel_rule");
}

TEST_CASE("A total of the project stems from what moved the panels' figures of its check") {
  const auto with_total = [](ResultsDocument document, double value) {
    RecordedFinding total = document.project_findings[0];
    total.check = "thermal.u_value";
    total.value = value;
    document.project_findings = {total};
    document.build.evidence[0].sha256 = std::string(64, value > 1.0 ? 'b' : 'a');
    return document;
  };
  const Comparison comparison =
      compare(with_total(with_cited_setting(22.5), 1.0), with_total(with_cited_setting(25.0), 2.0));
  CHECK(cause_lines(comparison)[0] == "setting thermal.velocity_m_per_s: 22.5 -> 25: 4 figures, 0 verdicts");
  CHECK(comparison.not_attributed.figures == 0);
}

TEST_CASE("What a changed document moves stems from it where the finding names the document") {
  auto before = with_settings({{"building.height_m", 8.0}});
  auto after = with_settings({{"building.height_m", 9.0}});
  after.build.evidence[0].sha256 = std::string(64, 'c');
  for (ResultsDocument* document : {&before, &after}) {
    rework(*document, [](Finding& finding) {
      finding.inputs.push_back({"document", "", std::string("E-1"), "", export_origin("IfcDocumentReference", 8)});
    });
  }
  after.panels[0].findings[1].verdict = Verdict::evidence_needed;
  after.panels[1].findings[0].verdict = Verdict::fail;
  const Comparison comparison = compare(before, after);
  CHECK(cause_lines(comparison)[1] == "evidence evidence/report.txt: none -> cccccccccccccccc: 0 figures, 1 verdict");
  CHECK(comparison.not_attributed.verdicts == 1);
}

TEST_CASE("Changes of one check, cause and move share a line, figures with the one that moved most") {
  auto after = with_cited_setting(25.0);
  after.panels[2].findings[1].value = 0.5;
  for (PanelSummary& panel : after.panels) panel.findings[0].verdict = Verdict::evidence_needed;
  const Comparison comparison = compare(with_cited_setting(22.5), after);
  const auto verdicts = groups_of(comparison, false);
  REQUIRE(verdicts.size() == 1);
  CHECK(to_string(verdicts[0]) == "WORSE fire.reaction_to_fire: pass -> evidence needed: 3 panels: P-01, P-02, P-03");
  const auto figures = groups_of(comparison, true);
  REQUIRE(figures.size() == 1);
  CHECK(figures[0].count == 3);
  CHECK(figures[0].most->panel_mark == "P-03");
}

TEST_CASE("Added and removed panels are named, and one that comes with what is not proved is worse") {
  auto after = sample_document();
  after.build.export_sha256 = std::string(64, 'b');
  after.panels[1].global_id = "another id";
  after.panels[1].mark = "P-20";
  const Comparison comparison = compare(sample_document(), after);
  REQUIRE(comparison.changes.size() == 2);
  CHECK(to_string(comparison.changes[0]) == "WORSE panel added, panel 'P-20': none -> another id");
  CHECK(to_string(comparison.changes[1]) == "panel removed, panel 'P-02': id-of-P-02 -> none");
  CHECK(comparison.causes[0].panels == std::vector<std::string>{"P-20", "P-02"});
  CHECK(comparison.causes[0].effects.verdicts == 2);
  for (RecordedFinding& finding : after.panels[1].findings) finding.verdict = Verdict::pass;
  CHECK(compare(sample_document(), after).worse() == 0);
}

TEST_CASE("A panel whose GlobalId the export renewed is matched by its mark") {
  auto after = sample_document();
  after.panels[1].global_id = "renewed";
  CHECK(compare(sample_document(), after).nothing_changed());
}

TEST_CASE("A check that is gone or new counts as a moved verdict") {
  auto after = sample_document();
  after.panels[0].findings.erase(after.panels[0].findings.begin());
  const auto gone = compare(sample_document(), after).changes;
  REQUIRE(gone.size() == 1);
  CHECK(gone[0].worse);
  CHECK(gone[0].after.empty());
  const auto found = compare(after, sample_document()).changes;
  REQUIRE(found.size() == 1);
  CHECK_FALSE(found[0].worse);
}

TEST_CASE("A check that stands once is the same under a reworded title") {
  auto after = sample_document();
  after.panels[0].findings[1].title = "Thermal transmittance of the wall element";
  CHECK(compare(sample_document(), after).nothing_changed());
}

TEST_CASE("Findings that share check and title are compared in order") {
  auto before = sample_document();
  before.panels[0].findings.push_back(before.panels[0].findings[1]);
  auto after = before;
  after.panels[0].findings.back().value = 9.0;
  const auto changes = compare(before, after).changes;
  REQUIRE(changes.size() == 1);
  CHECK(changes[0].after == "9.00 W/(m²·K), fail");
}

TEST_CASE("Changed input files are named with their hashes, whether they move anything or not") {
  auto after = sample_document();
  after.build.export_sha256 = std::string(64, 'b');
  after.build.evidence[0].sha256 = std::string(64, 'c');
  const Comparison comparison = compare(sample_document(), after);
  REQUIRE(comparison.causes.size() == 2);
  CHECK(comparison.causes[0].kind == CauseKind::export_file);
  CHECK(to_string(comparison.causes[1]) == "evidence evidence/report.txt: none -> cccccccccccccccc");
  CHECK_THAT(comparison_text(comparison), Catch::Contains("the data of no panel changed"));
}

TEST_CASE("The comparison for programs is as its schema says") {
  auto after = with_cited_setting(25.0);
  after.build.issue = {"P03", "for construction"};
  after.panels[0].findings[0].verdict = Verdict::fail;
  const TemporaryFolder folder;
  const auto file = folder.write("comparison.json", comparison_json(compare(with_cited_setting(22.5), after)));
  const std::string command = "/usr/bin/python3 -W ignore -m jsonschema -i '" + file.string() + "' '" +
                              PANEL_DOSSIER_SOURCE_DIR "/schemas/comparison.schema.json' >/dev/null 2>&1";
  CHECK(std::system(command.c_str()) == 0);
}
