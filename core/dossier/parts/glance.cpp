#include <algorithm>
#include <map>

#include "core/dossier/layout/verdict_mark.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kTypesPerTable = 6;

// Verdicts of one check over the panels of one type.
struct TypeCounts {
  VerdictCounts counts{};
  int worst = -1;           // urgency
  std::string worst_panel;  // GlobalId of the first panel with the most urgent verdict

  void add(const PanelSummary& panel, Verdict verdict) {
    ++counts[static_cast<std::size_t>(verdict)];
    if (urgency(verdict) <= worst) return;
    worst = urgency(verdict);
    worst_panel = panel.global_id;
  }
};

using CheckRow = std::map<std::string, TypeCounts>;

std::string type_name(const PanelSummary& panel) {
  return panel.type.empty() ? "(no type)" : panel.type;
}

std::map<std::string, CheckRow> rows_by_check(const ResultsDocument& results) {
  std::map<std::string, CheckRow> rows;
  for (const PanelSummary& panel : results.panels) {
    for (const Finding& finding : panel.findings) {
      rows[finding.check][type_name(panel)].add(panel, finding.verdict);
    }
  }
  return rows;
}

std::map<std::string, std::size_t> panels_by_type(const ResultsDocument& results) {
  std::map<std::string, std::size_t> types;
  for (const PanelSummary& panel : results.panels) ++types[type_name(panel)];
  return types;
}

Cell counts_cell(const CheckRow& row, const std::string& type) {
  const auto found = row.find(type);
  if (found == row.end()) return "–";
  Cell cell;
  cell.counts = listed(found->second.counts);
  cell.link = sheet_anchor(found->second.worst_panel);
  return cell;
}

void write_matrix(Flow& flow, const ResultsDocument& results) {
  const auto rows = rows_by_check(results);
  const auto types = panels_by_type(results);
  std::vector<std::string> names;
  names.reserve(types.size());
  for (const auto& [name, count] : types) names.push_back(name);
  for (std::size_t first = 0; first < names.size(); first += kTypesPerTable) {
    const std::size_t last = std::min(names.size(), first + kTypesPerTable);
    TableSpec table;
    table.columns = {{"check"}};
    for (std::size_t i = first; i < last; ++i)
      table.columns.push_back({names[i] + " (" + std::to_string(types.at(names[i])) + ")"});
    for (const auto& [check, row] : rows) {
      std::vector<Cell> cells{link_cell(check, chapter_anchor(discipline_of(check)))};
      for (std::size_t i = first; i < last; ++i) cells.push_back(counts_cell(row, names[i]));
      table.rows.push_back(std::move(cells));
    }
    set_table(flow, std::move(table));
    flow.skip(6.0);
  }
}

void write_legend(Flow& flow) {
  const Rect area = flow.take(14.0);
  double x = area.left;
  for (const Verdict verdict :
       {Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed, Verdict::pass, Verdict::information}) {
    const std::string word(to_string(verdict));
    draw_verdict_mark(flow.pdf(), flow.page(), {x, area.bottom + 4.0}, 5.0, verdict);
    flow.pdf().text(flow.page(), {x + 8.0, area.bottom + 4.0}, word, type::kTable);
    x += 8.0 + flow.pdf().text_width(word, type::kTable.face, type::kTable.size) + 16.0;
  }
  flow.skip(3.0);
}

void add_urgent(TableSpec& table, const std::vector<Finding>& findings, const std::string& name,
                const std::string& anchor, Verdict wanted) {
  for (const Finding& finding : findings) {
    if (finding.verdict != wanted) continue;
    table.rows.push_back({link_cell(name, anchor), finding.title, value_cell(finding), limit_cell(finding),
                          verdict_cell(finding.verdict), finding.reason});
  }
}

void write_urgent(Book& book, Verdict verdict, const char* title, const char* none) {
  Flow& flow = book.flow;
  flow.heading(title);
  TableSpec table;
  table.columns = {{"panel"}, {"check"}, {"value"}, {"limit"}, {"verdict"}, {"why, and what to do"}};
  for (const Finding& finding : book.results().project_findings) {
    if (finding.verdict == verdict)
      add_urgent(table, {finding}, "project", chapter_anchor(discipline_of(finding.check)), verdict);
  }
  for (const PanelSummary& panel : book.results().panels)
    add_urgent(table, panel.findings, panel.mark, sheet_anchor(panel.global_id), verdict);
  if (table.rows.empty()) {
    flow.paragraph(none);
    return;
  }
  set_table(flow, std::move(table));
}

}  // namespace

void write_glance(Book& book) {
  book.begin_part(DossierPart::glance);
  Flow& flow = book.flow;
  if (book.results().panels.empty()) {
    flow.paragraph("The project has no panels.");
    return;
  }
  flow.paragraph(
      "Checks by panel type. Each cell counts the verdicts of the panels of that type; the number behind the type is "
      "its number of panels. A cell leads to the first sheet with its most urgent verdict. A dash: the check does not "
      "apply to the type.");
  write_legend(flow);
  write_matrix(flow, book.results());
  write_urgent(book, Verdict::fail, "Checks that fail", "No check fails.");
  write_urgent(book, Verdict::evidence_needed, "Checks that need evidence", "No check waits for evidence.");
}

}  // namespace panel_dossier
