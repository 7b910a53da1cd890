#include <algorithm>
#include <map>
#include <utility>

#include "core/api/finding/check_declaration.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/chart.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/derivation.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

struct PanelResult {
  const PanelSummary* panel;
  const RecordedFinding* finding;
};

using ResultsByCheck = std::map<std::string, std::vector<PanelResult>>;

ResultsByCheck collect(const ResultsDocument& results, const std::string& discipline) {
  ResultsByCheck checks;
  for (const PanelSummary& panel : results.panels) {
    for (const RecordedFinding& finding : panel.findings) {
      if (discipline_of(finding.check) == discipline) checks[finding.check].push_back({&panel, &finding});
    }
  }
  return checks;
}

// Worst first: by verdict, then by utilisation; equals stay in the project's order.
bool worse(const PanelResult& a, const PanelResult& b) {
  const int urgency_a = urgency(a.finding->verdict);
  const int urgency_b = urgency(b.finding->verdict);
  if (urgency_a != urgency_b) return urgency_a > urgency_b;
  const double used_a = a.finding->utilisation.value_or(-1.0);
  const double used_b = b.finding->utilisation.value_or(-1.0);
  return used_a > used_b;
}

std::string limits_in_words(const std::vector<PanelResult>& results) {
  std::vector<std::string> limits;
  for (const PanelResult& result : results) {
    const std::string limit = format_limit(*result.finding);
    if (!limit.empty() && std::find(limits.begin(), limits.end(), limit) == limits.end()) limits.push_back(limit);
  }
  return limits.empty() ? "–" : list_some(limits, 3);
}

void write_summary(Flow& flow, const ResultsByCheck& checks) {
  TableSpec table;
  table.columns = {{"check"}, {"title"}, {"limits"}, {"clause"}, {"verdicts"}};
  for (const auto& [check, results] : checks) {
    VerdictCounts counts{};
    for (const PanelResult& result : results) ++counts[static_cast<std::size_t>(result.finding->verdict)];
    Cell verdicts;
    verdicts.counts = listed(counts);
    const RecordedFinding& first = *results.front().finding;
    table.rows.push_back({check, first.title, limits_in_words(results), first.clause, verdicts});
  }
  set_table(flow, std::move(table));
}

/// The declaration of the check; null for what stands in place of a call that failed.
const CheckDeclaration* declaration_of(const PluginSummary& plugin, const std::string& check) {
  const auto found = std::find_if(plugin.checks.begin(), plugin.checks.end(),
                                  [&check](const CheckDeclaration& declared) { return declared.id == check; });
  return found == plugin.checks.end() ? nullptr : &*found;
}

/// `Does not apply to 19 panels: the panel has no window.`, one sentence a reason.
void write_not_applicable(Flow& flow, const ResultsDocument& results, const std::string& check) {
  std::map<std::string, std::size_t> panels_by_reason;
  for (const PanelSummary& panel : results.panels) {
    for (const NotApplicable& absent : panel.not_applicable) {
      if (absent.check == check) ++panels_by_reason[absent.reason];
    }
  }
  for (const auto& [reason, count] : panels_by_reason) {
    flow.paragraph(
        "Does not apply to " + std::to_string(count) + (count == 1 ? " panel: " : " panels: ") + reason + ".",
        type::kNote);
  }
}

/// What the check says of itself, before its results.
void write_declaration(Flow& flow, const CheckDeclaration& check) {
  flow.paragraph(check.sentence);
  std::vector<std::string> clauses{check.clause};
  clauses.insert(clauses.end(), check.other_clauses.begin(), check.other_clauses.end());
  flow.paragraph("Clause: " + joined(clauses, "; or ") + ".", type::kNote);
  for (const auto& [heading, source] : {std::pair{"Properties read: ", CheckInput::Source::property},
                                        std::pair{"Settings read: ", CheckInput::Source::setting},
                                        std::pair{"Tables read: ", CheckInput::Source::table},
                                        std::pair{"Of the model: ", CheckInput::Source::model}}) {
    std::string names = inputs_in_words(check, source);
    std::erase(names, '`');
    if (!names.empty()) flow.paragraph(heading + names + ".", type::kNote);
  }
  if (!check.limits.empty()) flow.paragraph("Does not see: " + joined(check.limits, " "), type::kNote);
}

void write_check_table(Book& book, const PluginSummary& plugin, std::vector<PanelResult> results) {
  Flow& flow = book.flow;
  std::stable_sort(results.begin(), results.end(), worse);
  const RecordedFinding& first = *results.front().finding;
  flow.heading(first.title + "  (" + first.check + ")", type::kSubheading, 60.0);
  if (const CheckDeclaration* declared = declaration_of(plugin, first.check)) write_declaration(flow, *declared);
  write_not_applicable(flow, book.results(), first.check);
  TableSpec table;
  table.columns = {{"panel"}, {"value", true}, {"limit", true}, {"util.", true}, {"verdict"}};
  table.style = type::kFine;
  for (const PanelResult& result : results) {
    table.rows.push_back({link_cell(result.panel->mark, sheet_anchor(result.panel->global_id)),
                          value_cell(*result.finding), limit_cell(*result.finding), utilisation_cell(*result.finding),
                          verdict_cell(result.finding->verdict)});
  }
  const bool narrow = natural_table_width(flow.pdf(), table) <= column_span(0, 2).width();
  if (narrow && table.rows.size() > 4) {
    set_table_in_columns(flow, std::move(table), 2);
  } else {
    set_table(flow, std::move(table));
  }
}

void write_project_findings(Book& book, const PluginSummary& plugin) {
  std::vector<NumberedFinding> findings;
  for (const RecordedFinding& finding : book.results().project_findings) {
    if (discipline_of(finding.check) == plugin.id) findings.push_back({findings.size(), &finding});
  }
  const bool has_reasons =
      std::any_of(book.results().project_not_applicable.begin(), book.results().project_not_applicable.end(),
                  [&plugin](const NotApplicable& absent) { return discipline_of(absent.check) == plugin.id; });
  if (findings.empty() && !has_reasons) return;
  book.flow.heading("Project findings");
  // Checks of panels and project say what they find at their table of panels.
  for (const CheckDeclaration& check : plugin.checks) {
    if (check.scope != CheckScope::project) continue;
    book.flow.heading(check.title + "  (" + check.id + ")", type::kSubheading, 40.0);
    write_declaration(book.flow, check);
  }
  for (const NotApplicable& absent : book.results().project_not_applicable) {
    if (discipline_of(absent.check) != plugin.id) continue;
    book.flow.paragraph(absent.check + " does not apply to the project: " + absent.reason + ".", type::kNote);
  }
  if (!findings.empty()) write_derivations(book, findings, "project-" + plugin.id);
}

/// Declared checks that no panel has a finding of: told, so that a reader does not look for them.
void write_checks_without_findings(Book& book, const PluginSummary& plugin, const ResultsByCheck& checks) {
  for (const CheckDeclaration& check : plugin.checks) {
    if (check.scope == CheckScope::project || checks.contains(check.id)) continue;
    book.flow.heading(check.title + "  (" + check.id + ")", type::kSubheading, 40.0);
    write_declaration(book.flow, check);
    write_not_applicable(book.flow, book.results(), check.id);
  }
}

void write_chapter(Book& book, const PluginSummary& plugin, std::size_t number, std::size_t part_bookmark) {
  Flow& flow = book.flow;
  const std::string title = "4." + std::to_string(number) + "  " + plugin.title;
  flow.start_page({title, plugin.caution, false});
  book.pdf.anchor(chapter_anchor(plugin.id), flow.page(), grid::kTop + 10.0);
  book.pdf.bookmark(part_bookmark, title, flow.page(), grid::kTop + 10.0);
  flow.heading(title, type::kPart);
  flow.skip(3.0);
  flow.paragraph("Plugin '" + plugin.id + "', version " + plugin.version + ". Standards applied:");
  for (const std::string& standard : plugin.standards) flow.item(standard);
  if (book.is_silent(plugin.id)) {
    flow.paragraph(Book::silence_of(plugin));
    return;
  }
  const ResultsByCheck checks = collect(book.results(), plugin.id);
  if (!checks.empty()) {
    flow.heading("Checks");
    write_summary(flow, checks);
  }
  write_project_findings(book, plugin);
  if (checks.empty()) {
    flow.paragraph("This discipline has no findings for any panel.");
    write_checks_without_findings(book, plugin, checks);
    return;
  }
  flow.heading("Panels by check, worst first");
  for (const auto& [check, results] : checks) write_check_table(book, plugin, results);
  write_checks_without_findings(book, plugin, checks);
}

}  // namespace

void write_chapters(Book& book) {
  const std::size_t bookmark = book.begin_part(DossierPart::chapters);
  Flow& flow = book.flow;
  const auto& plugins = book.results().build.plugins;
  if (plugins.empty()) {
    flow.paragraph("No discipline was run.");
    return;
  }
  flow.paragraph(
      "One chapter a discipline: the standards applied, the checks with their limits, the findings of the "
      "project as a whole, and every panel by check, worst first.");
  TableSpec table;
  table.columns = {{"chapter"}, {"plugin"}, {"version"}, {"page", true}};
  for (const PluginSummary& plugin : plugins) {
    Cell page;
    page.page_of = chapter_anchor(plugin.id);
    page.link = page.page_of;
    table.rows.push_back({link_cell(plugin.title, chapter_anchor(plugin.id)), plugin.id, plugin.version, page});
  }
  set_table(flow, std::move(table));
  std::size_t number = 0;
  for (const PluginSummary& plugin : plugins) write_chapter(book, plugin, ++number, bookmark);
}

}  // namespace panel_dossier
