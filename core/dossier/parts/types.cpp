// A page a panel type: its build-up, its key figures, and what was judged of its panels.

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/annex/references.h"
#include "core/dossier/parts/check_summary.h"
#include "core/dossier/parts/panel/panel_drawings.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

using PanelsByType = std::map<std::string, std::vector<std::size_t>>;

PanelsByType panels_by_type(const ResultsDocument& results) {
  PanelsByType types;
  for (std::size_t i = 0; i < results.panels.size(); ++i) types[results.panels[i].type].push_back(i);
  return types;
}

/// `EPD-301 (Structural softwood C24); …`: what the materials of the type rest on.
void write_documents(Book& book, const Panel& panel) {
  std::vector<std::string> texts;
  for (const auto& [id, materials] : material_documents(panel, book.project()))
    texts.push_back(id + " (" + list_some(materials, 4) + ")");
  if (!texts.empty()) book.flow.paragraph("Documents of its materials: " + joined(texts, "; ") + ".", type::kFine);
}

/// By which a reader tells types apart, with the head of their column.
constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kFiguresSideBySide{
    {{role::kMass, "mass"}, {role::kThermalTransmittance, "U-value"}, {role::kFireResistance, "fire resistance"}}};

/// What the check of that role found of the panels of the type; a dash where it found nothing.
std::string figure_in_words(const Book& book, const std::string& type, std::string_view role,
                            const CheckSummaries& summaries) {
  const CheckDeclaration* check = check_of_role(book.results().build, role);
  const auto found = check == nullptr ? summaries.end() : summaries.find({type, check->id});
  return found == summaries.end() ? "–" : values_in_words(found->second);
}

/// `298.2`, or `298.2 to 344.2` where the panels of the type differ.
std::string thicknesses_in_words(const Project& project, const std::vector<std::size_t>& panels) {
  const auto thinner = [&project](std::size_t a, std::size_t b) {
    return project.panels[a].thickness_m.value < project.panels[b].thickness_m.value;
  };
  const auto [least, most] = std::minmax_element(panels.begin(), panels.end(), thinner);
  const std::string thin = format_millimetres(project.panels[*least].thickness_m.value);
  const std::string thick = format_millimetres(project.panels[*most].thickness_m.value);
  return thin == thick ? thin : thin + " to " + thick;
}

void write_key_figures(Book& book, const std::string& type, const CheckSummaries& summaries) {
  TableSpec table;
  table.style = type::kFine;
  table.row_gap = 0.6;
  table.columns = {{"key figure"}, {"of the panels"}, {"limit"}};
  for (const std::string_view role :
       {role::kMass, role::kArea, role::kThermalTransmittance, role::kFireResistance, role::kBearingInFire}) {
    const CheckDeclaration* check = check_of_role(book.results().build, role);
    if (check == nullptr) continue;
    const auto found = summaries.find({type, check->id});
    if (found == summaries.end()) continue;
    table.rows.push_back({found->second.title, values_in_words(found->second), some_of(found->second.limits)});
  }
  set_table(book.flow, std::move(table));
}

bool is_judged(const CheckSummary& summary) {
  return std::any_of(summary.verdicts.begin(), summary.verdicts.end(), [&summary](const std::size_t& count) {
    return count > 0 && &count != &summary.verdicts[static_cast<std::size_t>(Verdict::information)];
  });
}

void write_judged(Book& book, const std::string& type, const CheckSummaries& summaries) {
  TableSpec table;
  table.style = type::kFine;
  table.row_gap = 0.6;
  table.columns = {{"check"}, {"values"}, {"limit"}, {"most used"}, {"verdicts"}, {"hardest panel"}};
  for (auto entry = summaries.lower_bound({type, ""}); entry != summaries.end() && entry->first.first == type;
       ++entry) {
    const CheckSummary& summary = entry->second;
    if (!is_judged(summary)) continue;
    Cell used;
    used.bar = summary.most_used;
    Cell verdicts;
    verdicts.counts = listed(summary.verdicts);
    table.rows.push_back({link_cell(summary.title, check_anchor(entry->first.second)), values_in_words(summary),
                          some_of(summary.limits), used, verdicts,
                          link_cell(summary.worst_mark, panel_anchor(summary.worst_panel))});
  }
  if (table.rows.empty()) {
    book.flow.paragraph("No check with a limit applies to the panels of this type.");
    return;
  }
  set_table(book.flow, std::move(table));
}

void write_type(Book& book, const std::string& type, const std::vector<std::size_t>& panels,
                const CheckSummaries& summaries, std::size_t part_bookmark) {
  Flow& flow = book.flow;
  const std::string name = type_in_words(type);
  flow.start_page({"4  Panel types: " + name});
  book.pdf.anchor(type_anchor(type), flow.page(), grid::kTop + 10.0);
  book.pdf.bookmark(part_bookmark, name, flow.page(), grid::kTop + 10.0);
  flow.heading("Type " + name, type::kPart);
  std::vector<std::string> marks;
  marks.reserve(panels.size());
  for (const std::size_t panel : panels) marks.push_back(book.results().panels[panel].mark);
  constexpr std::size_t kMarks = 40;
  flow.paragraph((panels.size() == 1 ? "1 panel: " : std::to_string(panels.size()) + " panels: ") +
                 list_some(marks, kMarks) + ".");
  const Panel& first = book.project().panels[panels.front()];
  flow.heading("Build-up, as in " + first.mark, type::kSubheading, 129.0);
  constexpr double kBuildUpHeight = 114.0;
  write_build_up(book, first, kBuildUpHeight);
  flow.skip(6.0);
  write_documents(book, first);
  write_key_figures(book, type, summaries);
  write_judged(book, type, summaries);
}

}  // namespace

void write_types(Book& book) {
  const std::size_t bookmark = book.begin_part(DossierPart::types);
  Flow& flow = book.flow;
  const PanelsByType types = panels_by_type(book.results());
  if (types.empty()) {
    flow.paragraph("The project has no panels.");
    return;
  }
  flow.paragraph(
      "One page a type: the build-up, the figures that are asked for first, and every check with a limit over all "
      "panels of the type, with the panel that it is hardest for. Panels of one type may differ; what counts is the "
      "page of the panel.");
  const CheckSummaries summaries =
      summarise(book.results(), [&book](const RecordedFinding& finding) { return !book.is_silent(finding.check); });
  TableSpec table;
  table.columns = {{"type"}, {"panels", true}, {"storeys"}, {"thick mm", true}};
  for (const auto& [role, head] : kFiguresSideBySide) table.columns.push_back({std::string(head)});
  table.columns.push_back({"page", true});
  for (const auto& [type, panels] : types) {
    std::vector<std::string> storeys;
    for (const std::size_t panel : panels) {
      const std::string& storey = book.results().panels[panel].storey;
      if (!storey.empty() && std::find(storeys.begin(), storeys.end(), storey) == storeys.end())
        storeys.push_back(storey);
    }
    Cell page;
    page.page_of = type_anchor(type);
    page.link = page.page_of;
    std::vector<Cell> row{link_cell(type_in_words(type), type_anchor(type)), std::to_string(panels.size()),
                          list_some(storeys, 6), thicknesses_in_words(book.project(), panels)};
    for (const auto& [role, head] : kFiguresSideBySide) row.emplace_back(figure_in_words(book, type, role, summaries));
    row.push_back(std::move(page));
    table.rows.push_back(std::move(row));
  }
  set_table(flow, std::move(table));
  for (const auto& [type, panels] : types) write_type(book, type, panels, summaries, bookmark);
}

}  // namespace panel_dossier
