#include "core/dossier/parts/panel/labels.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <sstream>
#include <string>

#include "core/api/finding/roles.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
using test::bytes_of;
using test::installed_fonts;
using test::output_of;
using test::temporary_file;

namespace {

/// One panel with a cutting list of two lines: studs and one sheet.
ResultsDocument results_with(double studs) {
  ResultsDocument results;
  results.project.name = "Made-up project";
  results.build.time_utc = "2026-06-01T02:00:00Z";
  Finding list;
  list.check = "quantities.cutting_list";
  list.tables = {{"Cutting list",
                  {{"part mark", ""},
                   {"kind", ""},
                   {"material", ""},
                   {"thickness", "mm"},
                   {"width", "mm"},
                   {"length", "mm"},
                   {"count", ""},
                   {"shape", ""}},
                  {{std::string("ST1"), std::string("stud"), std::string("softwood"), 45.0, 145.0, 2310.0, studs,
                    std::string("rectangular, holes 20 mm at 300")},
                   {std::string("SH1"), std::string("sheet"), std::string("board"), 12.5, 1200.0, 2400.0, 1.0,
                    std::string("rectangular")}},
                  "pieces"}};
  Finding erection;
  erection.check = "quantities.erection_time";
  erection.values = {{"batch", std::string("4"), ""}};
  PanelSummary panel;
  panel.global_id = "0aB";
  panel.mark = "P-7";
  panel.findings = FindingRecorder().record_all({list, erection});
  results.panels = {panel};
  results.build.plugins.resize(1);
  test::claim(results.build, role::kCuttingList, list.check);
  test::claim(results.build, role::kErection, erection.check);
  return results;
}

}  // namespace

TEST_CASE("each piece has a label with panel, part, size, batch and its number") {
  const auto file = temporary_file("labels.pdf");
  CHECK(write_labels(results_with(3.0), installed_fonts(), file) == 4);
  REQUIRE_THAT(output_of("qpdf --check '" + file.string() + "' 2>&1"), Contains("No syntax or stream encoding errors"));
  const std::string text = output_of("pdftotext '" + file.string() + "' - 2>/dev/null");
  for (const char* words : {"P-7", "ST1", "stud, 1 of 3", "softwood", "45 × 145 × 2310 mm", "holes 20 mm at 300",
                            "batch 4", "stud, 3 of 3", "SH1", "sheet, 1 of 1", "board", "12.5 × 1200 × 2400 mm"})
    CHECK_THAT(text, Contains(words));
  CHECK_THAT(text, !Contains("4 of 3"));
  CHECK_THAT(text, !Contains("rectangular"));
}

TEST_CASE("a long material takes a second line, so that its grade is not cut off") {
  ResultsDocument results = results_with(1.0);
  RecordedFinding& list = results.panels[0].findings[0];
  Finding changed = whole_finding(list);
  changed.tables[0].rows[0][2] = std::string("Glued laminated timber of class GL24h");
  list = FindingRecorder().record(changed);
  const auto file = temporary_file("long.pdf");
  write_labels(results, installed_fonts(), file);
  const std::string text = output_of("pdftotext '" + file.string() + "' - 2>/dev/null");
  CHECK_THAT(text, Contains("GL24h") && Contains("holes 20 mm at 300") && Contains("batch 4"));
  CHECK_THAT(text, !Contains("…"));
}

TEST_CASE("words keep 4 mm from the edges of their label of 70 mm by 37 mm, and off its code of 26 mm") {
  ResultsDocument results = results_with(23.0);
  results.panels[0].mark = "P-7 of the long east wing";
  RecordedFinding& list = results.panels[0].findings[0];
  Finding changed = whole_finding(list);
  for (auto& row : changed.tables[0].rows) {
    row[0] = std::string("a part mark that is too long");
    row[2] = std::string("Glued laminated timber of class GL24h, planed on four sides and impregnated");
  }
  list = FindingRecorder().record(changed);
  const auto file = temporary_file("boxes.pdf");
  write_labels(results, installed_fonts(), file);
  // A line a word: its box in points from the upper left corner of the sheet.
  std::istringstream words(output_of("pdftotext -bbox '" + file.string() + "' - 2>/dev/null"));
  constexpr double kMillimetre = 72.0 / 25.4;
  constexpr double kTopEdge = (297.0 - 8.0 * 37.0) / 2.0;
  std::size_t count = 0;
  double first_left = 1e9;
  for (std::string line; std::getline(words, line);) {
    double left = 0.0;
    double top = 0.0;
    double right = 0.0;
    double bottom = 0.0;
    if (std::sscanf(line.c_str(), " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">", &left, &top, &right,
                    &bottom) != 4) {
      continue;
    }
    ++count;
    INFO(line);
    const double column = std::floor(left / kMillimetre / 70.0);
    const double row = std::floor((top / kMillimetre - kTopEdge) / 37.0);
    const double from_left_mm = left / kMillimetre - 70.0 * column;
    first_left = std::min(first_left, from_left_mm);
    CHECK(right / kMillimetre - 70.0 * column <= 70.0 - 4.0 - 26.0 + 0.01);
    CHECK(top / kMillimetre - kTopEdge - 37.0 * row >= 4.0 - 1.0);  // the box of a word is higher than its letters
    CHECK(bottom / kMillimetre - kTopEdge - 37.0 * row <= 37.0);
  }
  CHECK(count > 24 * 8);
  CHECK(first_left == Approx(4.0).margin(0.01));
}

TEST_CASE("the batch is taken from the erection alone") {
  ResultsDocument results = results_with(1.0);
  results.panels[0].findings[1].check = "quantities.fixings";
  const auto file = temporary_file("no-batch.pdf");
  CHECK(write_labels(results, installed_fonts(), file) == 2);
  CHECK_THAT(output_of("pdftotext '" + file.string() + "' - 2>/dev/null"), !Contains("batch"));
}

TEST_CASE("slabs of insulation are labelled when they are asked for") {
  ResultsDocument results = results_with(1.0);
  RecordedFinding& list = results.panels[0].findings[0];
  Finding changed = whole_finding(list);
  changed.tables[0].rows[0][1] = std::string("insulation");
  list = FindingRecorder().record(changed);
  const auto file = temporary_file("insulation.pdf");
  CHECK(write_labels(results, installed_fonts(), file) == 1);
  CHECK(write_labels(results, installed_fonts(), file, {"3x8", true}) == 2);
}

TEST_CASE("each form of a sheet has its number of labels, within the sheet, and no other is known") {
  const auto file = temporary_file("forms.pdf");
  for (const LabelForm& form : label_forms()) {
    INFO(form.name);
    CHECK(form.name == std::to_string(form.across) + "x" + std::to_string(form.down));
    CHECK(static_cast<double>(form.across) * form.width_mm == 210.0);
    CHECK(static_cast<double>(form.down) * form.height_mm <= 297.0);
    const auto labels = static_cast<double>(form.across * form.down);
    write_labels(results_with(labels - 1.0), installed_fonts(), file, {form.name, false});
    CHECK(output_of("qpdf --show-npages '" + file.string() + "'") == "1\n");
    write_labels(results_with(labels), installed_fonts(), file, {form.name, false});
    CHECK(output_of("qpdf --show-npages '" + file.string() + "'") == "2\n");
  }
  CHECK_THROWS_WITH(write_labels(results_with(1.0), installed_fonts(), file, {"9x9", false}), Contains("'9x9'"));
}

TEST_CASE("a panel has one large label, with a fire resistance only where that is proved") {
  ResultsDocument results = results_with(1.0);
  PanelSummary& panel = results.panels[0];
  panel.type = "INF-W";
  panel.storey = "First floor";
  Finding fire;
  fire.check = "fire.resistance";
  fire.value = std::string("EI 60");
  fire.verdict = Verdict::pass;
  Finding mass;
  mass.check = "quantities.mass";
  mass.value = 478.12;
  mass.unit = "kg";
  mass.decimals = 1;
  Finding bearing = fire;
  bearing.check = "fire.bearing";
  bearing.value = std::string("R 60");
  for (const Finding& finding : {fire, mass, bearing}) panel.findings.push_back(FindingRecorder().record(finding));
  test::claim(results.build, role::kFireResistance, fire.check);
  test::claim(results.build, role::kBearingInFire, bearing.check);
  test::claim(results.build, role::kMass, mass.check);
  const auto file = temporary_file("panel-labels.pdf");
  CHECK(write_panel_labels(results, installed_fonts(), file) == 1);
  const auto text = [&file] { return output_of("pdftotext '" + file.string() + "' - 2>/dev/null"); };
  for (const char* words : {"P-7", "type INF-W", "First floor", "mass 478.1 kg", "fire resistance REI 60", "batch 4"})
    CHECK_THAT(text(), Contains(words));
  // A panel that carries load and does not go on doing so in a fire has no class, whatever it separates.
  RecordedFinding& carries = panel.findings.back();
  for (const Verdict open : {Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed}) {
    carries.verdict = open;
    write_panel_labels(results, installed_fonts(), file);
    CHECK_THAT(text(), !Contains("fire resistance"));
  }
  carries.verdict = Verdict::information;
  write_panel_labels(results, installed_fonts(), file);
  CHECK_THAT(text(), Contains("fire resistance EI 60") && !Contains("R 60,") && !Contains(", R 60"));
  panel.findings[2].verdict = Verdict::evidence_needed;
  write_panel_labels(results, installed_fonts(), file);
  CHECK_THAT(text(), !Contains("fire resistance"));
  results.panels.clear();
  CHECK(write_panel_labels(results, installed_fonts(), file) == 0);
}

TEST_CASE("a sheet holds 24 labels") {
  const auto file = temporary_file("sheets.pdf");
  CHECK(write_labels(results_with(23.0), installed_fonts(), file) == 24);
  CHECK(output_of("qpdf --show-npages '" + file.string() + "'") == "1\n");
  CHECK(write_labels(results_with(24.0), installed_fonts(), file) == 25);
  CHECK(output_of("qpdf --show-npages '" + file.string() + "'") == "2\n");
}

TEST_CASE("without a cutting list there is no file") {
  const auto file = temporary_file("none.pdf");
  std::filesystem::remove(file);
  ResultsDocument results = results_with(1.0);
  results.panels[0].findings.clear();
  CHECK(write_labels(results, installed_fonts(), file) == 0);
  CHECK_FALSE(std::filesystem::exists(file));
}

TEST_CASE("the same parts give the same bytes") {
  const auto first = temporary_file("first-labels.pdf");
  const auto second = temporary_file("second-labels.pdf");
  write_labels(results_with(5.0), installed_fonts(), first);
  write_labels(results_with(5.0), installed_fonts(), second);
  CHECK(bytes_of(first) == bytes_of(second));
}

TEST_CASE("the code of a part names panel and part") {
  CHECK(part_code("0aB", "ST1") == "panel-dossier:0aB:ST1");
}
