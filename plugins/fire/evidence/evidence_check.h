// fire.evidence: the documents behind a panel's fire resistance.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::fire {

extern const CheckDeclaration kFireEvidenceCheck;

/// Pass when the document of Panel_FireEvidence.DocumentId is such a report and serves on the day of assessment, else
/// evidence needed with the reason. What the document proves is judged by the resistance checks.
Finding fire_evidence(const Panel& panel, const Project& project, const Settings& settings);

}  // namespace panel_dossier::fire
