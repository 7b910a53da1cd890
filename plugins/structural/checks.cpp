#include "plugins/structural/checks.h"

#include <string>
#include <utility>

#include "plugins/structural/basis/fall_barrier_check.h"
#include "plugins/structural/fixings/cladding_lines.h"
#include "plugins/structural/fixings/fixings_checks.h"
#include "plugins/structural/lifting/lifting_checks.h"
#include "plugins/structural/members/members_checks.h"
#include "plugins/structural/racking/racking_checks.h"
#include "plugins/structural/racking/racking_design.h"
#include "plugins/structural/studs/composite_reader.h"
#include "plugins/structural/studs/stud_checks.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/wind/wind_checks.h"

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

const std::vector<CheckDeclaration>& checks() {
  static const std::vector<CheckDeclaration> all{
      kWindPressureCheck,     kStudBendingCheck, kStudStabilityCheck, kStudShearCheck,     kCompositeActionCheck,
      kDeflectionCheck,       kBearingCheck,     kRailBendingCheck,   kLintelBendingCheck, kRackingCheck,
      kSheathingFixingsCheck, kFallBarrierCheck, kFrameFixingsCheck,  kFrameMovementCheck, kCladdingFixingsCheck,
      kLiftingCheck,          kTurningUpCheck,   kCraneCapacityCheck, kTransportSizeCheck, kUtilisationCheck,
      // The scaffold enters a further check above this line: k@Check@Check,
  };
  return all;
}

namespace {

void check_studs(CheckOutcome& outcome, const Panel& panel, const Settings& settings, const Tables& tables,
                 const StudDesign& design) {
  outcome.findings.push_back(stud_bending(panel, design));
  outcome.findings.push_back(stud_stability(panel, design));
  outcome.findings.push_back(stud_shear(panel, design));
  if (composite_asked(settings)) {
    outcome.findings.push_back(composite_action(panel, design));
  } else {
    outcome.not_applicable.push_back(
        {kCompositeActionCheck.id,
         "the settings do not ask for composite action of studs and sheathing (structural.composite_sheathing)"});
  }
  outcome.findings.push_back(deflection(panel, design, settings, tables));
}

}  // namespace

SiteLayout lay_out_site(const Project& project, const Settings& settings) {
  return {lay_out_facades(project, settings), site_places(settings, "structural.crane")};
}

CheckOutcome check_panel(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  return check_panel(panel, project, settings, tables, lay_out_site(project, settings));
}

CheckOutcome check_panel(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                         const SiteLayout& site) {
  CheckOutcome outcome;
  PanelWind wind = wind_pressure(panel, project, settings, tables, site.facades);
  StudDesign design = design_studs(panel, project, settings, tables, wind.on_parts);
  RackingDesign bracing;
  if (design.missing.empty() && design.basis.load_bearing) {
    bracing = design_racking(panel, project, settings, tables, design);
    add_racking_compression(design, bracing);
  }
  outcome.findings.push_back(std::move(wind.finding));
  check_studs(outcome, panel, settings, tables, design);
  outcome.findings.push_back(bearing(panel, project, settings, tables, design));
  outcome.findings.push_back(rail_bending(panel, project, settings, tables, design));
  outcome.findings.push_back(lintel_bending(panel, project, settings, tables, design));
  outcome.findings.push_back(racking(panel, design, bracing));
  outcome.findings.push_back(sheathing_fixings(panel, design, bracing));
  outcome.findings.push_back(fall_barrier(panel, project, settings));
  outcome.findings.push_back(frame_fixings(panel, project, settings, tables, design));
  outcome.findings.push_back(frame_movement(panel, settings));
  if (bears_cladding(panel)) {
    outcome.findings.push_back(cladding_fixings(panel, project, settings, tables, design));
  } else {
    outcome.not_applicable.push_back({kCladdingFixingsCheck.id, "the panel bears no cladding"});
  }
  outcome.findings.push_back(lifting(panel, project, settings, tables));
  outcome.findings.push_back(turning_up(panel, project, settings, tables, design));
  outcome.findings.push_back(crane_capacity(panel, project, settings, site.cranes));
  outcome.findings.push_back(transport_size(panel, project, settings));
  // The scaffold enters a further check above this line: outcome.findings.push_back(check_@check@(panel, settings));
  return outcome;
}

}  // namespace panel_dossier::structural
