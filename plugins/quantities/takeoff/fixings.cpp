#include <map>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "plugins/quantities/checks.h"

namespace panel_dossier::quantities {

namespace {

std::string fastener_type(const Part& part) {
  const auto type = part.properties.text("Panel_Fastener", "Type");
  return type && !type->value.empty() ? type->value : part.name;
}

std::string fastener_material(const Part& part, const Project& project) {
  const Material* material = material_at(project, part.material);
  return material == nullptr ? "not stated" : material->name;
}

using TypeAndMaterial = std::pair<std::string, std::string>;

Table by_type(const std::map<TypeAndMaterial, int>& counts) {
  Table table{"Fixings by type", {{"type", ""}, {"material", ""}, {"count", ""}}, {}};
  for (const auto& [key, count] : counts) table.rows.push_back({key.first, key.second, static_cast<double>(count)});
  return table;
}

}  // namespace

Finding fixings(const Panel& panel, const Project& project) {
  FindingBuilder finding("quantities.fixings", "Number of fixings", panel.global_id,
                         "Count of the fasteners in the export (common practice)");
  finding.decimals(0);
  std::map<TypeAndMaterial, int> counts;
  int total = 0;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::fastener) continue;
    if (part.count < 1) {
      finding.missing("fastener '" + part.name + "' stands for no pieces; give its count as an IfcQuantityCount");
      continue;
    }
    Sourced<double> count{static_cast<double>(part.count), part.origin};
    finding.number("count of " + part.name, "", "", count, "");
    counts[{fastener_type(part), fastener_material(part, project)}] += part.count;
    total += part.count;
  }
  if (counts.empty()) finding.missing("the export gives no fasteners (IfcMechanicalFastener) in this panel");
  if (finding.incomplete()) return finding.not_assessed();
  finding.step("number of fixings", "n", static_cast<double>(total), "", "n = Σ n_i");
  finding.table(by_type(counts));
  finding.note("Counts what the export shows; whether it is enough is for the structural checks and the engineer.");
  return finding.inform(static_cast<double>(total), "pieces");
}

}  // namespace panel_dossier::quantities
