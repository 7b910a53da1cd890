#include <catch2/catch.hpp>

#include "core/dossier/dossier.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
using test::bytes_of;
using test::installed_fonts;
using test::output_of;
using test::synthetic_comparison;
using test::synthetic_dossier;
using test::synthetic_history;
using test::temporary_file;

namespace {

std::string written(const DossierContent& content, const std::string& name) {
  const auto file = temporary_file(name);
  write_dossier(content, installed_fonts(), file);
  return file.string();
}

std::string text_of(const std::string& file) {
  return output_of("pdftotext -layout '" + file + "' - 2>/dev/null");
}

void require_sound(const std::string& file) {
  REQUIRE_THAT(output_of("qpdf --check '" + file + "' 2>&1"), Contains("No syntax or stream encoding errors"));
}

std::size_t pages_of(const std::string& file) {
  return std::stoul(output_of("qpdf --show-npages '" + file + "'"));
}

}  // namespace

TEST_CASE("a dossier of a small project is sound PDF with real text") {
  const std::string file = written(synthetic_dossier(12, 25).content(), "small.pdf");
  require_sound(file);
  const std::string text = text_of(file);
  for (const char* words : {"What is proved and what is open", "Panel P-7", "Made-up check number 24",
                            "EN 99999:2017, 6.7.2", "page 1 of", "page i of ii", "0.150 W/(m²·K)", "λ"})
    CHECK_THAT(text, Contains(words));
}

TEST_CASE("a name that is longer than the PDF library takes in one piece costs no dossier") {
  auto dossier = synthetic_dossier(1, 2);
  dossier.results.project.name = std::string(40'000, 'x');
  dossier.project.panels.front().mark = std::string(40'000, 'y');
  dossier.results.panels.front().mark = std::string(40'000, 'y');
  const std::string file = written(dossier.content(), "endless.pdf");
  require_sound(file);
}

TEST_CASE("the annex counts under each check the panels to which it does not apply, by reason") {
  auto dossier = synthetic_dossier(3, 1);
  const std::string check = dossier.results.panels[0].findings[0].check;
  for (std::size_t i = 0; i < 3; ++i) {
    dossier.results.panels[i].not_applicable = {{check, i < 2 ? "the wall has no window" : "the wall has no door"},
                                                {"other.check", "nobody asks"}};
  }
  dossier.results.project_not_applicable = {{check, "no rule is in force"}, {"other.check", "nobody asks here"}};
  const std::string text = text_of(written(dossier.content(), "not-applicable.pdf"));
  CHECK_THAT(text, Contains("Does not apply to 2 panels: the wall has no window."));
  CHECK_THAT(text, Contains("Does not apply to 1 panel: the wall has no door."));
  CHECK_THAT(text, Contains("Does not apply to the project: no rule is in force."));
  CHECK_THAT(text, !Contains("nobody asks"));
}

TEST_CASE("a figure of the annex names its derivation and in its legend what is drawn alone") {
  const std::string text = text_of(written(synthetic_dossier(1, 5).content(), "figures.pdf"));
  CHECK_THAT(text, Contains(": Loads on the panel, scale"));
  CHECK_THAT(text, Contains(": Shares of the heat loss"));
  // The chart has a third part, of which no bar has a piece.
  CHECK_THAT(text, Contains("window") && !Contains("roof light"));
}

TEST_CASE("the twelve parts and the annex stand in their order") {
  const std::string text = text_of(written(synthetic_dossier(1, 5).content(), "parts.pdf"));
  std::size_t at = text.find("page ii of");
  for (const char* title :
       {"What this is and who made it", "What is proved and what is open", "The building and its panels", "Panel types",
        "5 Panels", "Operation and maintenance", "Health and safety file", "Fire safety information",
        "Evidence register", "Open points, contradictions, assumptions",
        "Changes since the last issue and the last build", "How to verify the signature and the hashes",
        "Annex: the calculations"}) {
    const std::size_t found = text.find(title, at);
    INFO(title);
    REQUIRE(found != std::string::npos);
    at = found;
  }
}

TEST_CASE("the same content gives the same bytes") {
  const auto made = synthetic_dossier(3, 10);
  CHECK(bytes_of(written(made.content(), "first.pdf")) == bytes_of(written(made.content(), "second.pdf")));
}

TEST_CASE("every page says that the dossier is not signed for issue, until it is") {
  auto made = synthetic_dossier(2, 5);
  const std::string draft = written(made.content(), "draft.pdf");
  const std::string text = text_of(draft);
  std::size_t notes = 0;
  for (auto at = text.find("NOT SIGNED FOR ISSUE"); at != std::string::npos;
       at = text.find("NOT SIGNED FOR ISSUE", at + 1))
    ++notes;
  CHECK(notes == pages_of(draft));
  made.results.build.signed_for_issue = true;
  CHECK_THAT(text_of(written(made.content(), "issue.pdf")), !Contains("NOT SIGNED FOR ISSUE"));
}

TEST_CASE("an incomplete build says so and lists what failed") {
  auto made = synthetic_dossier(1, 5);
  made.results.build.incomplete = true;
  made.results.build.failures = {"plugin 'fire' stopped: data table is missing"};
  const std::string text = text_of(written(made.content(), "incomplete.pdf"));
  CHECK_THAT(text, Contains("INCOMPLETE BUILD"));
  CHECK_THAT(text, Contains("plugin 'fire' stopped: data table is missing"));
}

TEST_CASE("a project without panels or findings still gives a dossier") {
  const std::string empty = written(synthetic_dossier(0, 0).content(), "empty.pdf");
  require_sound(empty);
  CHECK_THAT(text_of(empty), Contains("The project has no panels."));
  require_sound(written(synthetic_dossier(2, 0).content(), "no_findings.pdf"));
}

TEST_CASE("panels of any size and of unknown framing are drawn") {
  auto made = synthetic_dossier(3, 3);
  const auto resize = [](Panel& panel, double width, double height) {
    const Panel other = test::synthetic_panel(panel.mark, width, height);
    panel.width_m = other.width_m;
    panel.height_m = other.height_m;
    panel.parts = other.parts;
    panel.openings.clear();
  };
  resize(made.project.panels[0], 4.5, 24.0);
  resize(made.project.panels[1], 14.0, 0.4);
  made.project.panels[2].parts.clear();
  made.project.panels[2].layers.clear();
  made.project.panels[2].outside_known = false;
  const std::string file = written(made.content(), "sizes.pdf");
  require_sound(file);
  const std::string text = text_of(file);
  CHECK_THAT(text, Contains("24000"));
  CHECK_THAT(text, Contains("Panel " + made.results.panels[0].mark + ": elevation"));
  CHECK_THAT(text, !Contains("Panel " + made.results.panels[2].mark + ": elevation"));
  CHECK_THAT(text, Contains("no parts for this panel: framing and sheets are not drawn"));
  CHECK_THAT(text, Contains("does not tell which"));
}

TEST_CASE("very long names and characters outside the typeface do no harm") {
  auto made = synthetic_dossier(2, 5);
  const std::string long_name(200, 'W');
  made.project.panels[0].mark = made.results.panels[0].mark = long_name;
  made.results.panels[0].type = made.project.panels[0].type = "type " + long_name;
  made.results.panels[0].findings[0].title = "title " + long_name;
  made.results.panels[0].findings[0].clause = long_name;
  made.results.panels[1].mark = made.project.panels[1].mark = "漢字 \U0001F600 \xFF\xC0 Ω é";
  made.results.project.name = long_name;
  made.results.build.plugins[0].caution = std::string(3000, 'c');
  const std::string file = written(made.content(), "names.pdf");
  require_sound(file);
  CHECK_THAT(text_of(file), Contains("Ω é"));
}

TEST_CASE("the records of a panel are printed, all of them, and the register of batches both ways") {
  auto made = synthetic_dossier(2, 1);
  PanelRecord rejected;
  rejected.table = "inspections";
  rejected.day = "2026-03-02";
  rejected.what = "REJECTED, subject frame";
  rejected.by = "Checker";
  rejected.origin.kind = OriginKind::input_table;
  rejected.origin.table = "records/inspections.csv";
  rejected.origin.row = "7";
  PanelRecord accepted = rejected;
  accepted.day = "2026-03-04";
  accepted.what = "ACCEPTED, subject frame";
  made.project.panels[0].records = {rejected, accepted};
  made.project.batches = {{"B-17", "softwood", {"stud"}, {"D-3"}, {0, 1}}};
  const std::string text = text_of(written(made.content(), "records.pdf"));
  CHECK_THAT(text, Contains("REJECTED, subject frame"));
  CHECK_THAT(text, Contains("ACCEPTED, subject frame"));
  CHECK_THAT(text, Contains("records/inspections.csv, row 7"));
  CHECK_THAT(text, Contains("Register of batches"));
  CHECK_THAT(text, Contains("B-17"));
  CHECK_THAT(text_of(written(synthetic_dossier(1, 1).content(), "none.pdf")), !Contains("Register of batches"));
}

TEST_CASE("progress is told once a panel and once a discipline of the annex, and ends at the total") {
  const auto made = synthetic_dossier(4, 2);
  std::vector<std::size_t> done;
  write_dossier(made.content(), installed_fonts(), temporary_file("progress.pdf"),
                [&](std::size_t pieces, std::size_t total) {
                  CHECK(total == 4 + made.results.build.plugins.size());
                  done.push_back(pieces);
                });
  REQUIRE(done.size() == 4 + made.results.build.plugins.size());
  CHECK(done.front() == 1);
  CHECK(done.back() == done.size());
}

TEST_CASE("causes come first, then the verdicts that moved, then the figures that moved far") {
  const auto made = synthetic_dossier(1, 2);
  DossierContent content = made.content();
  CHECK_THAT(text_of(written(content, "no_issue.pdf")),
             Contains("There is no earlier build or issue to compare with."));
  content.comparisons = {synthetic_comparison()};
  const std::string text = text_of(written(content, "changes.pdf"));
  const std::size_t heading = text.find("Since issue P02 (for comment) of 2026-05-01T02:00:00Z");
  const std::size_t cause = text.find("setting thermal.limit");
  const std::size_t verdict = text.find("Verdicts that moved");
  const std::size_t figure = text.find("Figures that moved by more than 1 %");
  REQUIRE(figure != std::string::npos);
  CHECK(heading < cause);
  CHECK(cause < verdict);
  CHECK(verdict < figure);
  CHECK_THAT(text, Contains("0.31, fail") && Contains("not attributed"));
  CHECK_THAT(text, Contains("1 figure moved by 1 % or less."));
}

TEST_CASE("the history of the builds is charted and listed, newest first, once there are two") {
  const auto made = synthetic_dossier(1, 2);
  DossierContent content = made.content();
  content.history = synthetic_history(1);
  CHECK_THAT(text_of(written(content, "one_build.pdf")), !Contains("From build to build"));
  content.history = synthetic_history(5);
  const std::string text = text_of(written(content, "history.pdf"));
  CHECK_THAT(text,
             Contains("From build to build") && Contains("What fails or is open") && Contains("builds, this one at 0"));
  CHECK(text.find("2026-05-05T02:00:00Z") < text.find("2026-05-01T02:00:00Z"));
}

TEST_CASE("the cover says which issue it is, or that it is none") {
  auto made = synthetic_dossier(1, 2);
  CHECK_THAT(text_of(written(made.content(), "night.pdf")), Contains("none: a working build"));
  made.results.build.issue = {"P03", "for construction"};
  CHECK_THAT(text_of(written(made.content(), "issue.pdf")), Contains("P03, for construction"));
}

TEST_CASE("the cover of a project of many buildings names a few and counts the others") {
  auto made = synthetic_dossier(1, 0);
  made.results.project.buildings.clear();
  for (int wing = 1; wing <= 90; ++wing) made.results.project.buildings.push_back("Wing " + std::to_string(wing));
  std::string text = text_of(written(made.content(), "wings.pdf"));
  std::replace(text.begin(), text.end(), '\n', ' ');
  CHECK_THAT(text, Contains("Wing 6 and 84 more") && !Contains("Wing 90"));
}

TEST_CASE("a derivation is printed once, and again where the reason of a finding differs") {
  constexpr const char* kOtherReason = "The layer is of another kind.";
  auto made = synthetic_dossier(3, 2);
  made.results.panels[2].findings[1].reason = kOtherReason;
  CHECK(made.results.panels[2].findings[1].derivation == made.results.panels[0].findings[1].derivation);
  const std::string text = text_of(written(made.content(), "two_reasons.pdf"));
  const std::string annex = text.substr(text.rfind("Annex: the calculations"));
  CHECK_THAT(annex, Contains(kOtherReason) && Contains("2 panels: P-1, P-2") && Contains("panel P-3"));
}

TEST_CASE("settings that findings rest on are listed as assumptions") {
  const std::string text = text_of(written(synthetic_dossier(2, 3).content(), "assumptions.pdf"));
  CHECK_THAT(text, Contains("thermal.external_temperature_c"));
}

TEST_CASE("links, bookmarks, labels and dates are in the file") {
  const std::string file = written(synthetic_dossier(2, 5).content(), "navigation.pdf");
  const std::string objects = output_of("qpdf --qdf --object-streams=disable '" + file + "' -");
  CHECK_THAT(objects, Contains("/PageLabels"));
  CHECK_THAT(objects, Contains("/Outlines"));
  CHECK_THAT(objects, Contains("/Subtype /Link"));
  CHECK_THAT(objects, Contains("(D:20261125020000Z"));
}

TEST_CASE("a font that cannot be read is named") {
  auto fonts = installed_fonts();
  fonts.bold = "/nowhere/bold.ttf";
  const auto made = synthetic_dossier(1, 1);
  CHECK_THROWS_WITH(write_dossier(made.content(), fonts, temporary_file("never.pdf")), Contains("/nowhere/bold.ttf"));
}

TEST_CASE("a file that cannot be written is named") {
  const auto made = synthetic_dossier(1, 1);
  CHECK_THROWS_WITH(write_dossier(made.content(), installed_fonts(), "/nowhere/dossier.pdf"),
                    Contains("/nowhere/dossier.pdf"));
}

TEST_CASE("results that do not match the project are refused") {
  auto made = synthetic_dossier(2, 1);
  made.results.panels.pop_back();
  CHECK_THROWS_AS(write_dossier(made.content(), installed_fonts(), temporary_file("never.pdf")), std::logic_error);
}
