// Whether every batch that went into a panel can be followed back to its delivery.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"

namespace panel_dossier::quantities {

extern const CheckDeclaration kBatchesCheck;

/// Whether there are records of the panel's batches; without them the check does not apply.
bool has_batch_records(const Panel& panel);

/// How many batches of the panel cannot be followed to a delivery: evidence is needed for one without a delivery, for
/// one of a delivery that is not among the project's or brought other material, and for one of a material or part that
/// the panel does not have; a batch that was built in before it arrived or after the panel was installed is a failure.
Finding batches(const Panel& panel, const Project& project);

/// The register of all batches: reference, material, kinds, deliveries, number and marks of panels.
std::vector<OutputRow> batch_rows(const Project& project);

}  // namespace panel_dossier::quantities
