// The building: where its panels are, and the schedule of them.

#include "core/api/finding/roles.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/key_plan_pages.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

Cell number_of(const RecordedFinding* finding) {
  return finding != nullptr && std::holds_alternative<double>(finding->value) ? value_cell(*finding) : Cell("–");
}

Cell area_of(const BuildSummary& build, const PanelSummary& summary, const Panel& panel) {
  const RecordedFinding* finding = finding_of_role(build, summary.findings, role::kArea);
  if (finding != nullptr && std::holds_alternative<double>(finding->value)) return number_of(finding);
  return format_fixed(panel.net_area_m2(), 2) + " m²";
}

void write_schedule(Book& book) {
  book.flow.heading("Schedule of panels");
  TableSpec table;
  table.columns = {{"mark"},           {"type"},           {"storey"},     {"width mm", true}, {"height mm", true},
                   {"thick mm", true}, {"area net", true}, {"mass", true}, {"worst verdict"},  {"page", true}};
  const BuildSummary& build = book.results().build;
  for (std::size_t i = 0; i < book.results().panels.size(); ++i) {
    const PanelSummary& summary = book.results().panels[i];
    const Panel& panel = book.project().panels[i];
    Cell page;
    page.page_of = panel_anchor(summary.global_id);
    page.link = page.page_of;
    table.rows.push_back({link_cell(summary.mark, panel_anchor(summary.global_id)), summary.type, summary.storey,
                          format_millimetres(panel.width_m.value), format_millimetres(panel.height_m.value),
                          format_millimetres(panel.thickness_m.value), area_of(build, summary, panel),
                          number_of(finding_of_role(build, summary.findings, role::kMass)),
                          verdict_cell(worst_verdict(summary.findings)), page});
  }
  set_table(book.flow, std::move(table));
}

}  // namespace

void write_building(Book& book) {
  book.begin_part(DossierPart::building);
  Flow& flow = book.flow;
  const ResultsDocument& results = book.results();
  flow.paragraph(results.project.description);
  flow.paragraph(std::to_string(results.panels.size()) + " panels, " + std::to_string(book.project().storeys.size()) +
                 " storeys, " + std::to_string(book.project().materials.size()) + " materials, " +
                 std::to_string(book.project().evidence.size()) + " evidence documents.");
  if (results.panels.empty()) return;
  write_key_plans(book);
  write_schedule(book);
}

}  // namespace panel_dossier
