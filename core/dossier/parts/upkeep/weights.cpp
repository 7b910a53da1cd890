// Masses, hook loads and centres of gravity of the panels, for whoever lifts them.

#include "core/dossier/parts/upkeep/weights.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "core/api/finding/roles.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

double mass_of(const BuildSummary& build, const PanelSummary& summary) {
  const RecordedFinding* finding = finding_of_role(build, summary.findings, role::kMass);
  const double* mass = finding != nullptr ? std::get_if<double>(&finding->value) : nullptr;
  return mass != nullptr ? *mass : -1.0;
}

}  // namespace

Cell coordinate_cell(const RecordedFinding* centre, std::string_view id) {
  if (centre == nullptr) return "–";
  const std::vector<NamedValue>& values = centre->derivation->values;
  const auto found = std::find_if(values.begin(), values.end(),
                                  [id](const NamedValue& value) { return value.id == id && value.unit == "m"; });
  const auto* value_m = found == values.end() ? nullptr : std::get_if<double>(&found->value);
  return value_m == nullptr ? Cell("–") : Cell(format_fixed(*value_m, 3));
}

void write_weights(Book& book) {
  Flow& flow = book.flow;
  flow.heading("Weights for lifting");
  flow.paragraph(
      "Calculated masses from the model, heaviest first, without slings, props and water taken up. Weigh or add "
      "a margin as the lift plan demands. A dash: the figure could not be calculated; the page of the panel tells "
      "why.");
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
    const RecordedFinding* mass = finding_of_role(build, panel->findings, role::kMass);
    const RecordedFinding* centre = finding_of_role(build, panel->findings, role::kCentreOfGravity);
    table.rows.push_back({link_cell(panel->mark, panel_anchor(panel->global_id)), panel->type,
                          mass != nullptr ? value_cell(*mass) : Cell("–"), coordinate_cell(centre, "from_left_edge"),
                          coordinate_cell(centre, "from_inner_face"), coordinate_cell(centre, "from_foot")});
  }
  if (table.rows.empty()) {
    flow.paragraph("The project has no panels.");
    return;
  }
  set_table(flow, std::move(table));
}

}  // namespace panel_dossier
