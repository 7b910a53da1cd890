// Whether every row of the records speaks of a panel of the export.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"

namespace panel_dossier::quantities {

extern const CheckDeclaration kRecordKeysCheck;

/// Whether the project keeps records of panels at all; without them the check does not apply.
bool keeps_records(const Project& project);

/// How many rows name no panel of the export; evidence is needed of what they are.
Finding record_keys(const Project& project);

}  // namespace panel_dossier::quantities
