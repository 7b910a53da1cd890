// All structural checks: their declarations in the dossier's order, those of one panel, and the project's utilisation.
#pragma once

#include <vector>

#include "core/api/plugin.h"
#include "plugins/structural/lifting/lifting_checks.h"
#include "plugins/structural/tables.h"
#include "plugins/structural/wind/facade.h"

namespace panel_dossier::structural {

/// Discipline, standards and caution.
PluginInfo plugin_info();

/// The declarations of all checks, in the order of the dossier.
const std::vector<CheckDeclaration>& checks();

/// What all panels of a project share, worked out once.
struct SiteLayout {
  FacadeLayout facades;
  std::vector<SitePlace> cranes;
};

SiteLayout lay_out_site(const Project& project, const Settings& settings);

/// One finding for each check of a panel, or the reason why it does not apply; pure and thread-safe. `site` is the
/// layout of the project, of which the panel is one.
CheckOutcome check_panel(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                         const SiteLayout& site);

/// As above, laying the site out first; for one panel, not for all of a project.
CheckOutcome check_panel(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables);

extern const CheckDeclaration kUtilisationCheck;

/// `information`: the largest utilisation of the project, a table of the checks and one of the worst panels, worst
/// first. `not assessed` when no check has a utilisation.
Finding utilisation_table(const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::structural
