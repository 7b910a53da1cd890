#include <algorithm>

#include "core/api/finding/roles.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

void write_risks(Flow& flow) {
  flow.heading("Residual risks");
  flow.paragraph("Common practice; the project's risk assessment and the local codes come first.", type::kNote);
  TableSpec table;
  table.columns = {{"risk"}, {"when"}, {"what to do"}};
  table.rows = {
      {"fall of a panel", "lifting, placing, dismantling",
       "Lift only as planned by a competent person; keep people out from under and beside the load; keep the crane's "
       "hook on until the temporary fixings of the plan are in."},
      {"wind on a hanging or propped panel", "lifting, before the panel is finally fixed",
       "Keep to the wind limits of the crane and of the lift plan; design props for wind on the full face."},
      {"loss of stability", "alteration, dismantling",
       "Prop before cutting or loosening; ask the structural engineer."},
      {"fall from height", "work at openings and edges", "Guard openings until windows and doors are in."},
      {"hidden services", "drilling and cutting", "Trace and isolate before work."},
      {"fire during hot work", "repair, roofing, dismantling",
       "Avoid hot work at the panels; else permit, watch and extinguisher: cavities can smoulder unseen."},
      {"hidden damp and decay", "long-term use", "Inspect as in part 6; assume reduced strength of decayed timber."}};
  set_table(flow, std::move(table));
}

double mass_of(const BuildSummary& build, const PanelSummary& summary) {
  const Finding* finding = finding_of_role(build, summary.findings, role::kMass);
  const double* mass = finding != nullptr ? std::get_if<double>(&finding->value) : nullptr;
  return mass != nullptr ? *mass : -1.0;
}

// A coordinate of the centre of gravity; a dash where the panel has none.
Cell coordinate_cell(const Finding* centre, std::string_view id) {
  if (centre == nullptr) return "–";
  const auto found = std::find_if(centre->values.begin(), centre->values.end(),
                                  [id](const NamedValue& value) { return value.id == id && value.unit == "m"; });
  const auto* value_m = found == centre->values.end() ? nullptr : std::get_if<double>(&found->value);
  return value_m == nullptr ? Cell("–") : Cell(format_fixed(*value_m, 3));
}

void write_weights(Book& book) {
  Flow& flow = book.flow;
  flow.heading("Weights for lifting");
  flow.paragraph(
      "Calculated masses from the model, heaviest first, without slings, props and water taken up. Weigh or add "
      "a margin as the lift plan demands. A dash: the figure could not be calculated; the panel's sheet tells why.");
  flow.paragraph(
      "Centre of gravity in metres, the panel standing and seen from inside: x from its left edge, y from its inner "
      "face, z from its foot.");
  const BuildSummary& build = book.results().build;
  std::vector<const PanelSummary*> panels;
  for (const PanelSummary& panel : book.results().panels) panels.push_back(&panel);
  std::stable_sort(panels.begin(), panels.end(), [&build](const PanelSummary* a, const PanelSummary* b) {
    return mass_of(build, *a) > mass_of(build, *b);
  });
  TableSpec table;
  table.columns = {{"panel"}, {"type"}, {"mass", true}, {"x m", true}, {"y m", true}, {"z m", true}};
  for (const PanelSummary* panel : panels) {
    const Finding* mass = finding_of_role(build, panel->findings, role::kMass);
    const Finding* centre = finding_of_role(build, panel->findings, role::kCentreOfGravity);
    table.rows.push_back({link_cell(panel->mark, sheet_anchor(panel->global_id)), panel->type,
                          mass != nullptr ? value_cell(*mass) : Cell("–"), coordinate_cell(centre, "from_left_edge"),
                          coordinate_cell(centre, "from_inner_face"), coordinate_cell(centre, "from_foot")});
  }
  if (table.rows.empty()) {
    flow.paragraph("The project has no panels.");
    return;
  }
  set_table(flow, std::move(table));
}

bool has_lifting_finding(const ResultsDocument& results) {
  return std::any_of(results.panels.begin(), results.panels.end(), [&results](const PanelSummary& panel) {
    return finding_of_role(results.build, panel.findings, role::kLifting) != nullptr;
  });
}

void write_lifting(Book& book) {
  Flow& flow = book.flow;
  flow.heading("Lifting");
  flow.item("Use only the lifting points that the panel was designed for, and only as their certificate allows.");
  flow.item(has_lifting_finding(book.results())
                ? "The lifting findings on the panel's sheet state the assumptions made."
                : "This dossier holds no check of lifting points: the lift plan has to bring its own.");
  flow.item("Keep the angle of the slings within the lift plan; use a spreader where the plan says so.");
  flow.item("Check lifting points for damage before each lift.");
  flow.item(
      "Do not reuse erection loops unless their certificate allows it: dismantling needs newly designed lifting "
      "points.");
}

void write_substances(Flow& flow) {
  flow.heading("Dust and treatments");
  flow.item(
      "Sawing and sanding timber, boards and mineral products sets free dust that harms the lungs: extract at the "
      "tool, and wear a mask of at least class FFP2 (FFP3 for hardwood and silica).");
  flow.item("Mineral wool irritates skin and eyes: gloves, long sleeves, goggles for work overhead.");
  flow.item(
      "Timber may carry preservative or fire-retardant treatment. Treated waste is not to be burnt in the open and "
      "is kept apart for disposal; the product documents in part 9 say what was used.");
  flow.item("Adhesives and sealants: keep to the safety data sheet of the product.");
}

void write_cautions(Book& book) {
  bool any = false;
  for (const PluginSummary& plugin : book.results().build.plugins) {
    if (plugin.caution.empty()) continue;
    if (!any) book.flow.heading("Cautions of the disciplines");
    any = true;
    book.flow.item(plugin.title + ": " + plugin.caution);
  }
}

}  // namespace

void write_safety_file(Book& book) {
  book.begin_part(DossierPart::safety_file, book.joined_cautions(), book.short_cautions());
  write_risks(book.flow);
  write_weights(book);
  write_lifting(book);
  write_substances(book.flow);
  write_cautions(book);
}

}  // namespace panel_dossier
