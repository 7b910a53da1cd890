#include "plugins/fire/checks.h"

#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/evidence/evidence_check.h"
#include "plugins/fire/evidence/requirement.h"
#include "plugins/fire/evidence/resistance_check.h"
#include "plugins/fire/facade/cavity_check.h"
#include "plugins/fire/facade/external_wall_check.h"
#include "plugins/fire/facade/reaction_check.h"

namespace panel_dossier::fire {

PluginInfo plugin_info() {
  PluginInfo info;
  info.id = "fire";
  info.title = "Fire";
  info.version = "1.0.0";
  info.standards = {"EN 13501-1:2018", "EN 13501-2:2016", "EN 1995-1-2:2004", "EN 12369-1:2001",
                    "Building Regulations 2010 (England) regulation 7, Approved Document B vol. 2 (2019 as amended)"};
  info.caution =
      "These checks support a competent fire engineer and replace none. A class rests on test evidence within its "
      "field of application; a calculation beside it never outranks a test report. Local codes, the building control "
      "body and "
      "licensed practice take precedence, and openings, joints, penetrations and cavity barriers need their own "
      "evidence.";
  return info;
}

const std::vector<CheckDeclaration>& checks() {
  static const std::vector<CheckDeclaration> all{
      kRequiredResistanceCheck, kLoadBearingResistanceCheck, kSeparatingResistanceCheck,
      kReactionToFireCheck,     kExternalWallMaterialCheck,  kFireEvidenceCheck,
      kCavityBarriersCheck,     kPenetrationSealsCheck,      kDuringConstructionCheck,
      // The scaffold enters a further check above this line: k@Check@Check,
  };
  return all;
}

std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables) {
  const Cassette cassette = read_cassette(panel, project, tables);
  std::vector<Finding> findings;
  findings.push_back(resistance_requirement(panel, project, settings, tables));
  findings.push_back(load_bearing_capacity(panel, project, settings, tables, cassette));
  findings.push_back(integrity_and_insulation(panel, project, settings, tables, cassette));
  findings.push_back(reaction_to_fire(panel, project, settings));
  findings.push_back(external_wall_material(panel, project, settings, tables));
  findings.push_back(fire_evidence(panel, project, settings));
  findings.push_back(cavity_barriers(panel, project, settings, tables));
  findings.push_back(penetration_seals(panel, project, settings, tables));
  findings.push_back(construction_fire(panel, project));
  // The scaffold enters a further check above this line: findings.push_back(check_@check@(panel, settings));
  return findings;
}

std::vector<Finding> check_project(const Project& project, const Settings& settings, const Tables& tables) {
  std::vector<Finding> findings;
  findings.push_back(project_cavity_barriers(project, settings, tables));
  findings.push_back(project_construction_fire(project));
  return findings;
}

}  // namespace panel_dossier::fire
