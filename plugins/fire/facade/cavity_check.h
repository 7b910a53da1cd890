// fire.cavity_barriers of a panel and of the project.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

extern const CheckDeclaration kCavityBarriersCheck;

/// Schedule of the cavity barriers that the panel's outer cavity needs, with their total length. Information where
/// those of the export cover every line, else evidence needed with the lines that are bare.
Finding cavity_barriers(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables);

/// The panels' schedules added up by storey, the upright edges at which a cavity does not run on into the next panel,
/// and the barriers that runs longer than the limit of cavity_limits.csv need between; against the barriers of the
/// export.
Finding project_cavity_barriers(const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::fire
