#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

const CheckDeclaration kFixingsCheck{
    .id = "quantities.fixings",
    .title = "Number of fixings",
    .project_title = "Fixings of all panels",
    .sentence = "The number of fixings is the sum of the counts of the fasteners in the export, by type and material.",
    .clause = "Count of the fasteners in the export (common practice)",
    .other_clauses = {kSumOverPanels},
    .units = {"pieces"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_parts({optional_property("Panel_Fastener.Type")}),
    .limits = {"Fasteners that the export does not show.", "Spare fasteners and those lost in driving.",
               "Whether the fixings are enough: see the checks of the structural discipline."},
    .role = {}};

namespace {

using TypeAndMaterial = std::pair<std::string, MaterialKey>;

/// The one number of a row is the count.
Rows<TypeAndMaterial> fixings_by_type(const Panel& panel, const Project& project) {
  Rows<TypeAndMaterial> counts;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::fastener) continue;
    std::vector<double>& row = counts[{fastener_type(part), material_key(project, part.material)}];
    row.resize(1, 0.0);
    row.front() += part.count;
  }
  return counts;
}

Table fixing_table(const Project& project, const Rows<TypeAndMaterial>& counts) {
  Table table{"Fixings by type", {{"type", ""}, {"material", ""}, {"count", ""}}, {}};
  for (const auto& [key, numbers] : counts) {
    table.rows.push_back({key.first, printed_name(project, key.second), numbers.front()});
  }
  return table;
}

}  // namespace

Finding fixings(const Panel& panel, const Project& project) {
  FindingBuilder finding(kFixingsCheck, panel.global_id);
  finding.decimals(0);
  int total = 0;
  bool any = false;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::fastener) continue;
    if (part.count < 1) {
      finding.missing("fastener '" + part.name + "' stands for no pieces; give its count as an IfcQuantityCount");
      continue;
    }
    const Sourced<double> count{static_cast<double>(part.count), part.origin};
    finding.number("count of " + part.name, "", "", count, "");
    total += part.count;
    any = true;
  }
  if (!any) finding.missing("the export gives no fasteners (IfcMechanicalFastener) in this panel");
  if (finding.incomplete()) return finding.not_assessed();
  finding.step("number of fixings", "n", static_cast<double>(total), "", "n = sum(count)");
  finding.table(fixing_table(project, fixings_by_type(panel, project)));
  finding.note("Counts what the export shows; whether it is enough is for the structural checks and the engineer.");
  return finding.inform(static_cast<double>(total), "pieces");
}

Finding project_fixings(const Project& project, const std::vector<PanelFindings>& panels) {
  return project_total({kFixingsCheck, "pieces", 0}, project, panels, [&] {
    RowSums<TypeAndMaterial> sums;
    for (const PanelFindings& panel : panels) add_rows(sums, fixings_by_type(*panel.panel, project));
    return fixing_table(project, totals_of(sums));
  });
}

}  // namespace panel_dossier::quantities
