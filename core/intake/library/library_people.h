// Who has a part in the project, as the libraries name them.
#pragma once

#include <vector>

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/library/library_files.h"

namespace panel_dossier {

/// Reads the tables `people`: columns `role` (required), `name`, `organisation`, `address` and `contact`, a row each
/// with a name or an organisation. A role that a later library names again is that one's alone, which is warned of.
/// Errors are a column of no meaning, a row without a role or without anybody, and a row that stands twice.
std::vector<Party> read_parties(const LibraryFiles& files, Diagnostics& diagnostics);

}  // namespace panel_dossier
