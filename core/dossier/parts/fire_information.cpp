#include <map>
#include <set>

#include "core/api/finding/roles.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

/// The id of the discipline whose findings this part sums up; empty when no plugin claims the role.
std::string discipline_in(const ResultsDocument& results) {
  const CheckDeclaration* check = check_of_role(results.build, role::kFireSafety);
  return check == nullptr ? std::string() : std::string(discipline_of(check->id));
}

struct TypeSummary {
  std::string title;
  std::map<std::string, std::size_t> values;  // value -> panels
  std::set<std::string> limits;
  std::set<std::string> bases;
  VerdictCounts verdicts{};
};

using Summaries = std::map<std::pair<std::string, std::string>, TypeSummary>;  // by type and check

Summaries summarise(const ResultsDocument& results, const std::string& discipline) {
  Summaries summaries;
  for (const PanelSummary& panel : results.panels) {
    for (const Finding& finding : panel.findings) {
      if (discipline_of(finding.check) != discipline) continue;
      TypeSummary& summary = summaries[{panel.type, finding.check}];
      summary.title = finding.title;
      const std::string value = format_value(finding.value, finding.unit, finding.decimals);
      if (!value.empty()) ++summary.values[value];
      const std::string limit = format_limit(finding);
      if (!limit.empty()) summary.limits.insert(limit);
      summary.bases.insert(std::string(to_string(finding.basis)));
      ++summary.verdicts[static_cast<std::size_t>(finding.verdict)];
    }
  }
  return summaries;
}

std::string values_text(const std::map<std::string, std::size_t>& values) {
  std::vector<std::string> texts;
  texts.reserve(values.size());
  for (const auto& [value, count] : values) texts.push_back(value + " (" + std::to_string(count) + ")");
  return texts.empty() ? "–" : list_some(texts, 4);
}

std::string joined(const std::set<std::string>& texts) {
  return texts.empty() ? "–" : list_some({texts.begin(), texts.end()}, 4);
}

void write_types(Flow& flow, const Summaries& summaries) {
  flow.heading("By panel type");
  TableSpec table;
  table.columns = {{"type"}, {"check"}, {"value (panels)"}, {"required"}, {"basis"}, {"verdicts"}};
  for (const auto& [key, summary] : summaries) {
    Cell verdicts;
    verdicts.counts = listed(summary.verdicts);
    table.rows.push_back({key.first.empty() ? "(no type)" : key.first, summary.title, values_text(summary.values),
                          joined(summary.limits), joined(summary.bases), verdicts});
  }
  set_table(flow, std::move(table));
}

void write_project(Book& book, const std::string& discipline) {
  TableSpec table;
  table.columns = {{"project finding"}, {"value"}, {"limit"}, {"verdict"}, {"basis"}, {"reason"}};
  for (const Finding& finding : book.results().project_findings) {
    if (discipline_of(finding.check) != discipline) continue;
    table.rows.push_back({link_cell(finding.title, chapter_anchor(discipline)), value_cell(finding),
                          limit_cell(finding), verdict_cell(finding.verdict), std::string(to_string(finding.basis)),
                          finding.reason});
  }
  if (table.rows.empty()) return;
  book.flow.heading("The project as a whole");
  set_table(book.flow, std::move(table));
}

void write_upkeep(Flow& flow) {
  flow.heading("Keeping the fire performance");
  flow.paragraph("Common practice; the fire strategy of the building and the local codes come first.", type::kNote);
  flow.item(
      "The inner lining is part of the fire protection: keep it whole, and make good every hole with the tested "
      "system.");
  flow.item("Cavity barriers and fire seals at the panels' edges must stay continuous; replace them like for like.");
  flow.item("Outer faces: keep to the reaction-to-fire classes stated when cladding or insulation is replaced.");
  flow.item(
      "Windows and doors with a fire class are replaced by ones of at least the same class, with their test "
      "evidence.");
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
  const Summaries summaries = summarise(book.results(), discipline);
  if (summaries.empty()) {
    flow.paragraph(
        "No discipline returned findings on fire: nothing is stated here about the panels' fire performance.");
  } else {
    write_types(flow, summaries);
  }
  write_project(book, discipline);
  write_upkeep(flow);
}

}  // namespace panel_dossier
