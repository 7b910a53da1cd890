#include "plugins/structural/checks.h"

#include "plugins/structural/fixings/frame_fixings_check.h"
#include "plugins/structural/fixings/frame_movement_check.h"
#include "plugins/structural/lifting/lifting_check.h"
#include "plugins/structural/lifting/transport_check.h"
#include "plugins/structural/members/bearing_check.h"
#include "plugins/structural/members/lintel_check.h"
#include "plugins/structural/members/rail_check.h"
#include "plugins/structural/racking/check.h"
#include "plugins/structural/racking/compression.h"
#include "plugins/structural/studs/composite_reader.h"
#include "plugins/structural/studs/composite_report.h"
#include "plugins/structural/studs/stud_deflection.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/studs/stud_findings.h"
#include "plugins/structural/wind/check.h"

namespace panel_dossier::structural {

PluginInfo plugin_info() {
  PluginInfo info;
  info.id = "structural";
  info.title = "Structure";
  info.version = "1.0.0";
  info.standards = {"EN 1990:2002+A1:2005", "EN 1991-1-1:2002", "EN 1991-1-4:2005+A1:2010", "EN 1995-1-1:2004+A1:2008",
                    "EN 338:2016",          "EN 14080:2013",    "EN 12369-1:2001"};
  info.caution =
      "These calculations support a competent structural engineer and replace none. They cover the checks listed and "
      "no others. National and local rules, the project's structural engineer and licensed practice take precedence; "
      "loads, supports and restraint must be confirmed before anything is built, lifted or altered.";
  return info;
}

std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables) {
  return check_panel(panel, project, settings, tables, lay_out_facades(project, settings));
}

std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables, const FacadeLayout& facades) {
  std::vector<Finding> findings;
  findings.push_back(wind_pressure(panel, project, settings, tables, facades));
  StudDesign design = design_studs(panel, project, settings, tables, findings.front());
  RackingDesign bracing;
  if (design.missing.empty() && design.basis.load_bearing) {
    bracing = design_racking(panel, project, settings, tables, design);
    add_racking_compression(design, bracing);
  }
  findings.push_back(stud_bending(panel, design));
  findings.push_back(stud_stability(panel, design));
  findings.push_back(stud_shear(panel, design));
  findings.push_back(deflection(panel, design, settings, tables));
  if (composite_asked(settings)) findings.push_back(composite_action(panel, design));
  findings.push_back(bearing(panel, project, settings, tables, design));
  findings.push_back(rail_bending(panel, project, settings, tables, design));
  if (!panel.openings.empty()) findings.push_back(lintel_bending(panel, project, settings, tables, design));
  findings.push_back(racking(panel, design, bracing));
  const auto load_bearing = panel.load_bearing();
  if (load_bearing && load_bearing->value && !(design.missing.empty() && bracing.no_racking_load())) {
    findings.push_back(sheathing_fixings(panel, design, bracing));
  }
  findings.push_back(frame_fixings(panel, project, settings, tables, design));
  findings.push_back(frame_movement(panel, settings));
  findings.push_back(lifting(panel, project, settings, tables));
  findings.push_back(turning_up(panel, project, settings, tables, design));
  findings.push_back(crane_capacity(panel, project, settings));
  findings.push_back(transport_size(panel, project, settings));
  return findings;
}

}  // namespace panel_dossier::structural
