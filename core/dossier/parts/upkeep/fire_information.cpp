// Part 8: what the panels contribute to fire safety, as required, installed and shown, and what keeps it.

#include <algorithm>
#include <map>
#include <utility>
#include <variant>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/annex/derivation.h"
#include "core/dossier/parts/panel/fire_class.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/upkeep/advice_tables.h"

namespace panel_dossier {

namespace {

/// The id of the discipline whose findings this part sums up; empty when no plugin claims the role.
std::string discipline_in(const ResultsDocument& results) {
  const CheckDeclaration* check = check_of_role(results.build, role::kFireSafety);
  return check == nullptr ? std::string() : std::string(discipline_of(check->id));
}

void write_project(Book& book, const std::string& discipline) {
  TableSpec table;
  table.columns = {{"project finding"}, {"value"}, {"limit"}, {"verdict"}, {"basis"}, {"reason"}};
  for (const RecordedFinding& finding : book.results().project_findings) {
    if (discipline_of(finding.check) != discipline) continue;
    table.rows.push_back({link_cell(finding.title, discipline_anchor(discipline)), value_cell(finding),
                          limit_cell(finding), verdict_cell(finding.verdict), std::string(to_string(finding.basis)),
                          book.with_titles(finding.reason)});
  }
  if (table.rows.empty()) return;
  book.flow.heading("The project as a whole");
  set_table(book.flow, std::move(table));
  for (const RecordedFinding& finding : book.results().project_findings) {
    if (discipline_of(finding.check) != discipline) continue;
    for (const Table& of_finding : finding.derivation->tables) {
      if (of_finding.rows.empty()) continue;
      book.flow.heading(of_finding.title, type::kSubheading);
      set_table(book.flow, table_spec(of_finding));
    }
  }
}

/// Panels of which requirement, class, basis, paper and verdict are the same.
struct FireLine {
  std::string required;
  std::string shown;
  std::string basis;
  std::string paper;
  std::string verdict;

  // NOLINTNEXTLINE(modernize-use-nullptr): clang-tidy 14 sees a 0 in the comparison that the compiler makes.
  auto operator<=>(const FireLine&) const = default;
};

/// The documents that the findings read, each with what is wrong with its file.
std::string papers_in_words(const Project& project, const FireClass& shown) {
  std::vector<std::string> papers;
  for (const Evidence* document : papers_of(project, shown)) {
    std::string text = document->id + " " + document->name;
    if (document->status != EvidenceStatus::present) text += " (" + std::string(to_string(document->status)) + ")";
    papers.push_back(std::move(text));
  }
  return papers.empty() ? "none named" : joined(papers);
}

std::string required_in_words(const FireClass& shown) {
  std::vector<std::string> limits;
  for (const RecordedFinding* finding : {shown.separating, shown.bearing}) {
    const std::string limit = finding == nullptr ? std::string() : format_limit(*finding);
    if (!limit.empty()) limits.push_back(limit);
  }
  return limits.empty() ? "nothing stated" : joined(limits);
}

/// `test evidence`; both where a pass in carrying load has another basis.
std::string basis_in_words(const FireClass& shown) {
  std::string basis(to_string(shown.separating->basis));
  if (shown.bearing->verdict == Verdict::pass && shown.bearing->basis != shown.separating->basis)
    basis += ", " + std::string(to_string(shown.bearing->basis));
  return basis;
}

/// Which panels are proved for how long, and by which paper.
void write_proof(Book& book) {
  std::map<FireLine, std::pair<Verdict, std::vector<std::size_t>>> lines;
  bool is_looked_at = false;  // panels of which nobody says anything stand in the table as long as there is one
  for (std::size_t i = 0; i < book.results().panels.size(); ++i) {
    const FireClass shown = fire_class_of(book.results().build, book.results().panels[i]);
    is_looked_at = is_looked_at || shown.separating != nullptr || shown.bearing != nullptr;
    const bool is_proved = shown.is_proved();
    FireLine line{required_in_words(shown),
                  is_proved ? shown.in_words() : "NOT PROVED: " + joined(shown.not_shown(), "; "),
                  is_proved ? basis_in_words(shown) : "–", papers_in_words(book.project(), shown),
                  std::string(to_string(shown.verdict()))};
    auto& [verdict, panels] = lines[std::move(line)];
    verdict = shown.verdict();
    panels.push_back(i);
  }
  if (!is_looked_at) return;
  book.flow.heading("Which panels are proved, for how long, and by which paper");
  TableSpec table;
  table.columns = {{"panels"}, {"required"}, {"proved"}, {"by"}, {"paper"}, {"verdict"}};
  for (const auto& [line, found] : lines) {
    table.rows.push_back({panels_in_words(book.project(), found.second), line.required, line.shown, line.basis,
                          line.paper, verdict_cell(found.first)});
  }
  set_table(book.flow, std::move(table));
}

void write_lines_and_seals(Book& book) {
  const Guidance& guidance = book.guidance();
  TableSpec table;
  table.columns = {{""}, {"compartment lines, barriers and seals"}, {"of what, who (source)"}};
  for (const auto& [topic, word] :
       {std::pair("fire_safety.required", "required"), std::pair("fire_safety.installed", "installed"),
        std::pair("fire_safety.evidence", "evidence")}) {
    for (const Advice* advice : guidance.of_topic(topic)) {
      table.rows.push_back({word, book.with_titles(advice->text), scope_in_words(book, *advice)});
    }
  }
  if (table.rows.empty()) return;
  book.flow.heading("Required, installed, evidence");
  set_table(book.flow, std::move(table));
}

void write_keeping(Book& book) {
  if (book.guidance().of_topic("fire_safety.keep").empty()) return;
  constexpr double kHeadAndFirstRow = 120.0;
  book.flow.heading("What keeps the class", type::kHeading, kHeadAndFirstRow);
  set_advice(book, "fire_safety.keep", "class and what keeps it");
}

/// What the person who answers for fire safety has to do, with name and contact.
void write_responsible(Book& book) {
  book.flow.heading("List of the responsible person");
  std::vector<std::string> named;
  for (const PartyLine& line : book.guidance().parties) {
    if (line.role != "responsible person") continue;
    for (const Party& party : line.parties) named.push_back(party_in_words(party));
  }
  book.flow.paragraph(named.empty()
                          ? "The responsible person is not named (library table 'people'); the client can say "
                            "who it is."
                          : "Responsible person: " + joined(named, "; ") + ".");
  for (const Advice* advice : book.guidance().of_topic("fire_safety.responsible")) book.flow.item(advice->text);
}

}  // namespace

void write_fire_information(Book& book) {
  const std::string discipline = discipline_in(book.results());
  const PluginSummary* plugin = book.plugin(discipline);
  book.begin_part(DossierPart::fire_information, plugin != nullptr ? plugin->caution : std::string());
  Flow& flow = book.flow;
  flow.paragraph(
      "For the responsible person and the fire service: what the panels contribute to the fire safety of the "
      "building. A classification by calculation never outranks a test report.");
  write_proof(book);
  write_lines_and_seals(book);
  if (plugin == nullptr || book.is_silent(discipline)) {
    flow.paragraph(
        "No discipline returned findings on fire: nothing is stated here about the panels' fire performance.");
  }
  write_project(book, discipline);
  write_keeping(book);
  write_responsible(book);
}

}  // namespace panel_dossier
