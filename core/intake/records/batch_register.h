// Which material of which batch and delivery went into which panel.
#pragma once

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// Gives the parts what the rows of `batches` say of them: the reference of the batch and, by its delivery, claim,
/// certificate, day and delivery note of the chain of custody. A row that names a part speaks of it, one that names a
/// material of all parts of it in the panel, as long as all such rows name one batch. Where the export says otherwise,
/// the reference is withheld, and both are named in a warning; so is a part or material that the panel does not have.
void apply_batch_records(Project& project, Diagnostics& diagnostics);

/// Fills Project::batches and Panel::batches from the parts and from the rows of `batches`: what either says counts,
/// also where it is withheld, for a recall must reach every panel that may be meant.
void register_batches(Project& project);

}  // namespace panel_dossier
