#include "plugins/quantities/takeoff/project_take_off.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <string>
#include <utility>

#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

Finding project_take_off(const Project& project, const std::vector<PanelFindings>& panels) {
  const TotalOf what{"quantities.take_off",
                     "Materials of all panels by net and gross measure",
                     "Sum over the panels (common practice)",
                     "m³",
                     2,
                     "Measures by material"};
  Finding total = project_total(what, project, panels);
  if (total.tables.empty()) return total;
  std::map<std::size_t, std::vector<PanelFindings>> storeys;
  for (const PanelFindings& panel : panels) {
    PanelFindings own{panel.panel, {}};
    std::copy_if(panel.findings.begin(), panel.findings.end(), std::back_inserter(own.findings),
                 [&what](const Finding& finding) { return finding.check == what.check; });
    storeys[panel.panel->storey.value_or(project.storeys.size())].push_back(std::move(own));
  }
  Table table{"Measures by storey and material", {{"storey", ""}}, {}};
  const Table& whole = total.tables.back();
  table.columns.insert(table.columns.end(), whole.columns.begin(), whole.columns.end());
  for (const auto& [storey, of_storey] : storeys) {
    const std::string name = storey < project.storeys.size() ? project.storeys[storey].name : "no storey";
    Finding subtotal = project_total(what, project, of_storey);
    for (std::vector<Value>& row : subtotal.tables.back().rows) {
      row.insert(row.begin(), name);
      table.rows.push_back(std::move(row));
    }
  }
  total.tables.push_back(std::move(table));
  return total;
}

}  // namespace panel_dossier::quantities
