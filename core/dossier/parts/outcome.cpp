// What is proved and what is open, on one page; behind it the checks that are not passed by every panel.

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/check_summary.h"
#include "core/dossier/parts/key_plan.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/verdict_fill.h"
#include "core/trace/open_points.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kTypesPerTable = 6;
constexpr std::size_t kCausesOnFirstPage = 8;
constexpr double kFacesHeight = 235.0;
constexpr double kLeastFacesHeight = 120.0;

std::size_t total(const VerdictCounts& counts) {
  std::size_t sum = 0;
  for (const std::size_t count : counts) sum += count;
  return sum;
}

Cell count_cell(std::size_t count) {
  return count == 0 ? Cell("–") : Cell(std::to_string(count));
}

void write_disciplines(Book& book) {
  std::map<std::string_view, VerdictCounts> counts;
  const auto add = [&counts](const std::vector<RecordedFinding>& findings) {
    for (const RecordedFinding& finding : findings)
      ++counts[discipline_of(finding.check)][static_cast<std::size_t>(finding.verdict)];
  };
  for (const PanelSummary& panel : book.results().panels) add(panel.findings);
  add(book.results().project_findings);
  TableSpec table;
  table.columns = {{"discipline"},         {"proved", true},          {"failed", true}, {"evidence needed", true},
                   {"not assessed", true}, {"without a limit", true}, {"page", true}};
  for (const PluginSummary& plugin : book.results().build.plugins) {
    const auto found = counts.find(plugin.id);
    const VerdictCounts of_plugin = found == counts.end() ? VerdictCounts{} : found->second;
    std::vector<Cell> row{link_cell(plugin.title, discipline_anchor(plugin.id))};
    for (const Verdict verdict :
         {Verdict::pass, Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed, Verdict::information}) {
      row.push_back(count_cell(of_plugin[static_cast<std::size_t>(verdict)]));
    }
    Cell page;
    page.page_of = discipline_anchor(plugin.id);
    page.link = page.page_of;
    row.push_back(page);
    table.rows.push_back(std::move(row));
  }
  set_table(book.flow, std::move(table));
}

/// With a full stop at its end.
std::string as_sentence(const std::string& text) {
  return text.empty() || text.ends_with('.') ? text : text + ".";
}

std::size_t passes_in(const ResultsDocument& results) {
  const auto count = [](const std::vector<RecordedFinding>& findings) {
    return static_cast<std::size_t>(std::count_if(findings.begin(), findings.end(), [](const RecordedFinding& finding) {
      return finding.verdict == Verdict::pass;
    }));
  };
  std::size_t passes = count(results.project_findings);
  for (const PanelSummary& panel : results.panels) passes += count(panel.findings);
  return passes;
}

void write_state(Book& book, const std::vector<OpenPoint>& points) {
  const BuildSummary& build = book.results().build;
  const auto number = [&points](Verdict verdict) { return count_of(points, verdict); };
  const std::size_t fails = number(Verdict::fail);
  const std::size_t evidence = number(Verdict::evidence_needed);
  const std::size_t blind = number(Verdict::not_assessed);
  std::string text;
  if (build.incomplete) {
    text =
        "INCOMPLETE: part of the checks could not be run, for the reasons on the cover; what they would find is not "
        "told here. ";
  }
  if (passes_in(book.results()) == 0) {
    text += "Nothing is proved: no check of this build passed. ";
  } else if (fails + evidence + blind == 0) {
    text += build.incomplete ? "Every check that was run is passed. " : "Every check that applies is passed. ";
  }
  if (fails + evidence + blind > 0) {
    text += "Open, by cause: " + std::to_string(fails) + " failed, " + std::to_string(evidence) +
            " waiting for evidence, " + std::to_string(blind) + " not assessed. ";
  }
  text +=
      "Claims of the inputs withheld as implausible or contradicted: " + std::to_string(build.withheld.size()) +
      ". Rows of tables that a verdict rests on and nobody has confirmed: " + std::to_string(build.unconfirmed.size()) +
      ". Points open for the handover (parties, status, calendar, sentences, duties that are not met): " +
      std::to_string(book.guidance().open_points.size()) + ". Part 10 lists all of them.";
  book.flow.paragraph(text);
}

void write_causes(Book& book, const std::vector<OpenPoint>& points) {
  if (points.empty()) return;
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"where"}, {"verdict"}, {"what is open, and who can close it"}};
  for (std::size_t i = 0; i < std::min(points.size(), kCausesOnFirstPage); ++i) {
    const OpenPoint& point = points[i];
    const std::string anchor =
        point.first_panel.empty() ? discipline_anchor(discipline_of(point.check)) : panel_anchor(point.first_panel);
    table.rows.push_back(
        {link_cell(subject_of(point), anchor), verdict_cell(point.verdict),
         point.title + ": " + as_sentence(book.with_titles(point.what)) + " Closed by: " + point.who + "."});
  }
  set_table(book.flow, std::move(table));
  if (points.size() > kCausesOnFirstPage)
    book.flow.paragraph("Part 10 tells " + in_number(points.size() - kCausesOnFirstPage, "more cause") + ".",
                        type::kNote);
}

void draw_face(Book& book, const KeyView& view, const Rect& area, double scale) {
  const std::size_t page = book.flow.page();
  const Tagged tagged(book.pdf, Tag::figure, view.title + ": each panel filled by its most urgent verdict");
  book.pdf.text(page, {area.left, area.top - 8.0}, view.title.substr(0, view.title.find(',')), type::kFine);
  const auto covered = extent(view.drawing);
  if (!covered) return;
  const DrawingFrame frame =
      centred_frame(*covered, {area.left, area.bottom, area.right, area.top - type::kFine.leading}, scale);
  for (std::size_t i = 0; i < view.panels.size(); ++i) {
    const PanelSummary& panel = book.results().panels[view.panels[i]];
    const Verdict verdict = worst_verdict(panel.findings);
    Polygon outline;
    for (const Vec2& point : view.drawing.polygons[i].outline) outline.push_back(frame.on_page(point));
    draw_filled(book.pdf, page, outline, verdict);
    const auto [left, right] = std::minmax({outline[0].x, outline[1].x, outline[2].x});
    const auto [low, high] = std::minmax({outline[0].y, outline[1].y, outline[2].y});
    book.pdf.link(page, {left, low, right, high}, panel_anchor(panel.global_id));
    for (const OpeningSign& sign : view.openings[i]) draw_opening(book.pdf, page, sign, frame);
    const double width = book.pdf.text_width(panel.mark, type::kFine.face, type::kFine.size);
    if (!is_open(verdict) || width + 2.0 > right - left || type::kFine.leading + 2.0 > high - low) continue;
    const Vec2 at{(left + right - width) / 2.0, (low + high) / 2.0 - 2.5};
    book.pdf.rectangle(page, {at.x - 1.0, at.y - 1.5, at.x + width + 1.0, at.y + 7.0}, kWhite, std::nullopt);
    book.pdf.text(page, at, panel.mark, type::kFine);
  }
}

/// All faces to one scale, two in a row, each panel filled by its most urgent verdict.
void write_faces(Book& book) {
  const std::vector<KeyView> faces = facade_views(book.project());
  Flow& flow = book.flow;
  if (faces.empty()) {
    flow.paragraph("No face of the building is drawn: the export does not tell which face of the panels is outside.",
                   type::kNote);
    return;
  }
  constexpr double kLegendHeight = 36.0;
  // On the first page where that leaves them readable.
  const double room = flow.room() - kLegendHeight;
  const double height = room >= kLeastFacesHeight ? std::min(room, kFacesHeight) : kFacesHeight;
  flow.heading("The faces of the building by the most urgent verdict of each panel", type::kSubheading, height + 20.0);
  write_verdict_legend(flow);
  const int columns = faces.size() == 1 ? 1 : 2;
  const std::size_t rows = (faces.size() + static_cast<std::size_t>(columns) - 1) / static_cast<std::size_t>(columns);
  const double cell_height = height / static_cast<double>(rows);
  double scale = 1.0;
  for (const KeyView& view : faces) {
    const auto covered = extent(view.drawing);
    if (!covered) continue;
    scale = std::max(
        scale, choose_scale(covered->width(), covered->height(),
                            {0, 0, column_span(0, columns).width() - 4.0, cell_height - type::kFine.leading - 6.0}));
  }
  const Rect area = flow.take(height);
  for (std::size_t i = 0; i < faces.size(); ++i) {
    const Rect span = column_span(static_cast<int>(i % static_cast<std::size_t>(columns)), columns);
    const std::size_t row = i / static_cast<std::size_t>(columns);
    const double top = area.top - cell_height * static_cast<double>(row);
    draw_face(book, faces[i], {span.left, top - cell_height + 4.0, span.right, top}, scale);
  }
}

Cell counts_cell(const CheckSummaries& summaries, const std::string& type, const std::string& check) {
  const auto found = summaries.find({type, check});
  if (found == summaries.end()) return "not asked";
  Cell cell;
  cell.counts = listed(found->second.verdicts);
  cell.link = panel_anchor(found->second.worst_panel);
  return cell;
}

/// Checks that some panel does not pass although they judge it.
std::map<std::string, std::string> checks_not_passed(const CheckSummaries& summaries) {
  std::map<std::string, std::string> titles;
  for (const auto& [key, summary] : summaries) {
    const std::size_t settled = summary.verdicts[static_cast<std::size_t>(Verdict::pass)] +
                                summary.verdicts[static_cast<std::size_t>(Verdict::information)];
    if (settled < total(summary.verdicts)) titles[key.second] = summary.title;
  }
  return titles;
}

void write_matrix(Book& book) {
  Flow& flow = book.flow;
  for (const std::string& id : book.silent) flow.paragraph(Book::silence_of(*book.plugin(id)));
  const CheckSummaries summaries =
      summarise(book.results(), [&book](const RecordedFinding& finding) { return !book.is_silent(finding.check); });
  const auto checks = checks_not_passed(summaries);
  flow.heading("Checks that are not passed by every panel");
  if (checks.empty()) {
    flow.paragraph("None: every check with a limit is passed by every panel that it applies to.");
    return;
  }
  flow.paragraph(
      "Each cell counts the verdicts of the panels of that type and leads to the panel with the most urgent one. "
      "'Not asked': the check does not apply to the type. A short bar is a value without a limit. Every other check is "
      "passed by all panels or has no limit.");
  std::set<std::string> types;
  for (const PanelSummary& panel : book.results().panels) types.insert(panel.type);
  const std::vector<std::string> names(types.begin(), types.end());
  for (std::size_t first = 0; first < names.size(); first += kTypesPerTable) {
    const std::size_t last = std::min(names.size(), first + kTypesPerTable);
    TableSpec table;
    table.columns = {{"check"}};
    for (std::size_t i = first; i < last; ++i) table.columns.push_back({type_in_words(names[i])});
    for (const auto& [check, title] : checks) {
      std::vector<Cell> cells{link_cell(title, check_anchor(check))};
      for (std::size_t i = first; i < last; ++i) cells.push_back(counts_cell(summaries, names[i], check));
      table.rows.push_back(std::move(cells));
    }
    set_table(flow, std::move(table));
    flow.skip(6.0);
  }
}

}  // namespace

void write_outcome(Book& book) {
  book.begin_part(DossierPart::outcome);
  if (book.results().panels.empty()) {
    book.flow.paragraph("The project has no panels.");
    return;
  }
  const std::vector<OpenPoint> points = in_short(open_points(book.results()), book.results());
  write_state(book, points);
  write_disciplines(book);
  write_causes(book, points);
  write_faces(book);
  book.flow.next_page();
  write_matrix(book);
}

}  // namespace panel_dossier
