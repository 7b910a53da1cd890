// The annex: what each discipline applied, what each check finds and reads, and every derivation once.

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/support/words.h"
#include "core/dossier/parts/annex/derivation.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

/// `Does not apply to 19 panels: the panel has no window.`, one sentence a reason.
void write_not_applicable(Book& book, const std::string& check) {
  std::map<std::string, std::size_t> panels_by_reason;
  for (const PanelSummary& panel : book.results().panels) {
    for (const NotApplicable& absent : panel.not_applicable) {
      if (absent.check == check) ++panels_by_reason[absent.reason];
    }
  }
  for (const auto& [reason, count] : panels_by_reason) {
    book.flow.paragraph(
        "Does not apply to " + std::to_string(count) + (count == 1 ? " panel: " : " panels: ") + reason + ".",
        type::kNote);
  }
  for (const NotApplicable& absent : book.results().project_not_applicable) {
    if (absent.check == check)
      book.flow.paragraph("Does not apply to the project: " + absent.reason + ".", type::kNote);
  }
}

/// What the check says of itself, before its results.
void write_declaration(Flow& flow, const CheckDeclaration& check) {
  flow.paragraph(check.sentence);
  std::vector<std::string> clauses{check.clause};
  clauses.insert(clauses.end(), check.other_clauses.begin(), check.other_clauses.end());
  std::string text = "Clause: " + joined(clauses, "; or ") + ".";
  for (const auto& [heading, source] : {std::pair{" Properties read: ", CheckInput::Source::property},
                                        std::pair{" Settings read: ", CheckInput::Source::setting},
                                        std::pair{" Tables read: ", CheckInput::Source::table},
                                        std::pair{" Of the model: ", CheckInput::Source::model}}) {
    std::string names = inputs_in_words(check, source);
    std::erase(names, '`');
    if (!names.empty()) text += heading + names + ".";
  }
  if (!check.limits.empty()) text += " Does not see: " + joined(check.limits, " ");
  flow.paragraph(text, type::kNote);
}

using EntriesByCheck = std::map<std::string, std::vector<const AnnexEntry*>, std::less<>>;

EntriesByCheck entries_of(const Book& book, std::string_view discipline) {
  EntriesByCheck entries;
  for (const AnnexEntry& entry : book.annex.entries()) {
    if (discipline_of(entry.finding->check) == discipline) entries[entry.finding->check].push_back(&entry);
  }
  return entries;
}

/// Nothing but inputs and steps, which differ from panel to panel in numbers alone.
bool is_plain(const AnnexEntry& entry) {
  const Derivation& derivation = *entry.finding->derivation;
  return !entry.panels.empty() && derivation.tables.empty() && derivation.drawings.empty() &&
         derivation.series.empty() && derivation.bar_charts.empty();
}

/// The workshop works from tables and drawings: of derivations without them it gets the first few as examples, and the
/// results of the others.
void write_examples(Book& book, std::vector<const AnnexEntry*> entries) {
  constexpr std::ptrdiff_t kExamples = 6;
  std::ptrdiff_t plain = 0;
  const auto others = std::stable_partition(entries.begin(), entries.end(), [&plain](const AnnexEntry* entry) {
    return !is_plain(*entry) || ++plain <= kExamples;
  });
  write_derivations(book, {entries.begin(), others});
  if (others == entries.end()) return;
  book.flow.paragraph("Worked out alike, their steps in results.json and by panel-dossier trace:", type::kNote);
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"panels"}, {"result"}};
  for (auto entry = others; entry != entries.end(); ++entry) {
    std::vector<std::string> marks;
    for (const std::size_t panel : (*entry)->panels) marks.push_back(book.results().panels[panel].mark);
    Cell result = value_cell(*(*entry)->finding);
    result.mark = (*entry)->finding->verdict;
    table.rows.push_back({joined(marks), std::move(result)});
  }
  set_table_in_columns(book.flow, std::move(table), 3);
}

void write_check(Book& book, const std::string& id, const CheckDeclaration* declared,
                 const std::vector<const AnnexEntry*>& entries) {
  const std::string& title = declared != nullptr ? declared->title : entries.front()->finding->title;
  // What the check says of itself, and of its derivations as much as their columns ask for.
  constexpr double kDeclared = 90.0;
  book.flow.heading(title, type::kHeading, entries.empty() ? kDeclared : kDeclared + book.flow.least_column_height());
  book.pdf.anchor(check_anchor(id), book.flow.page(), book.flow.y() + type::kHeading.leading + 10.0);
  book.flow.paragraph(id, type::kNote);
  if (declared != nullptr) write_declaration(book.flow, *declared);
  write_not_applicable(book, id);
  if (book.for_workshop) {
    write_examples(book, entries);
  } else {
    write_derivations(book, entries);
  }
}

void write_discipline(Book& book, const PluginSummary& plugin, std::optional<std::size_t> part_bookmark) {
  Flow& flow = book.flow;
  const std::string head = (book.for_workshop ? "Workshop: " : "Annex: ") + plugin.title;
  flow.start_page({head, plugin.caution});
  book.pdf.anchor(discipline_anchor(plugin.id), flow.page(), grid::kTop + 10.0);
  const std::size_t bookmark = book.pdf.bookmark(part_bookmark, plugin.title, flow.page(), grid::kTop + 10.0);
  flow.heading(plugin.title, type::kPart);
  flow.skip(3.0);
  flow.paragraph("Plugin '" + plugin.id + "', version " + plugin.version + ". Standards applied:");
  for (const std::string& standard : plugin.standards) flow.item(standard);
  if (book.is_silent(plugin.id)) {
    flow.paragraph(Book::silence_of(plugin));
    return;
  }
  EntriesByCheck entries = entries_of(book, plugin.id);
  const auto write = [&](const std::string& id, const CheckDeclaration* declared) {
    const auto found = entries.find(id);
    write_check(book, id, declared, found == entries.end() ? std::vector<const AnnexEntry*>() : found->second);
    book.pdf.bookmark(bookmark, declared != nullptr ? declared->title : id, *book.pdf.anchor_page(check_anchor(id)),
                      grid::kTop + 10.0);
  };
  std::map<std::string, const CheckDeclaration*, std::less<>> checks;  // those with findings and those declared
  for (const auto& [id, list] : entries) checks.emplace(id, nullptr);
  for (const CheckDeclaration& check : plugin.checks) {
    if (check.for_workshop == book.for_workshop || entries.contains(check.id)) checks[check.id] = &check;
  }
  for (const auto& [id, declared] : checks) write(id, declared);
}

}  // namespace

void write_workshop_checks(Book& book) {
  for (const PluginSummary& plugin : book.results().build.plugins) {
    const bool any = std::any_of(plugin.checks.begin(), plugin.checks.end(),
                                 [](const CheckDeclaration& check) { return check.for_workshop; });
    if (any) write_discipline(book, plugin, std::nullopt);
  }
}

void write_annex(Book& book, const DossierTick& tick) {
  const std::size_t bookmark = book.begin_part(DossierPart::annex);
  Flow& flow = book.flow;
  flow.paragraph(
      "Every derivation once, by discipline, check and panel type, under a running number that the pages of the panels "
      "name. Inputs stand first and, behind a short dotted rule, the steps in the order in which a person would work "
      "them out. A formula is one of quantities: put in each symbol with the unit printed beside it, and the result "
      "has "
      "its own, as kN · m / mm³ is 10⁶ N/mm². Where units do not work out so, as in the empirical formulas of "
      "standards and where 9.80665 stands for the acceleration of free fall in m/s², put in the numbers as printed. "
      "The number in brackets behind an input leads to the list of sources that closes each check; an input "
      "that an earlier derivation of the check has printed is named by its number alone. Where a derivation serves "
      "several panels, the sources are those of the first; results.json, attached to this file, holds those of each, "
      "and panel-dossier trace DIR MARK prints them.");
  const auto& plugins = book.results().build.plugins;
  if (plugins.empty()) {
    flow.paragraph("No discipline was run.");
    return;
  }
  TableSpec table;
  table.columns = {{"discipline"}, {"plugin"}, {"version"}, {"page", true}};
  for (const PluginSummary& plugin : plugins) {
    Cell page;
    page.page_of = discipline_anchor(plugin.id);
    page.link = page.page_of;
    table.rows.push_back({link_cell(plugin.title, discipline_anchor(plugin.id)), plugin.id, plugin.version, page});
  }
  set_table(flow, std::move(table));
  for (const PluginSummary& plugin : plugins) {
    write_discipline(book, plugin, bookmark);
    tick();
  }
}

}  // namespace panel_dossier
