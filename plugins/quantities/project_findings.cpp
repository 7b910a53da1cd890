#include "plugins/quantities/project_findings.h"

#include "plugins/quantities/checks.h"
#include "plugins/quantities/delivery/finding.h"
#include "plugins/quantities/programme/costs.h"
#include "plugins/quantities/programme/rates.h"
#include "plugins/quantities/takeoff/project_take_off.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

std::vector<Finding> project_findings(const Project& project, const std::vector<PanelFindings>& panels,
                                      const Settings& settings) {
  const std::string sum = "Sum over the panels (common practice)";
  const std::vector<TotalOf> totals{
      {"quantities.area", "Net area of all panels", sum, "m²", 2, ""},
      {"quantities.mass", "Mass of all panels", sum, "kg", 0, "Mass by material"},
      {"quantities.cutting_list", "Pieces to cut for all panels", sum, "pieces", 0, ""},
      {"quantities.fixings", "Fixings of all panels", sum, "pieces", 0, "Fixings by type"},
      {"quantities.loads", "Self-weight of all panels", sum, "kN", 1, ""},
      {"quantities.erection_time", "Time to erect all panels, one crew", sum, "h", 1, ""},
  };
  std::vector<Finding> findings;
  findings.reserve(totals.size() + 4);
  for (const TotalOf& total : totals) findings.push_back(project_total(total, project, panels));
  findings.push_back(project_take_off(project, panels));
  if (rates_given(settings)) findings.push_back(project_costs(project, panels, settings));
  findings.push_back(stock_yield(project, settings));
  findings.push_back(sheet_yield(project, settings));
  for (Finding& finding : site_findings(project, panels, settings)) findings.push_back(std::move(finding));
  return findings;
}

}  // namespace panel_dossier::quantities
