// A share of a project, computed apart from the others.
#pragma once

#include "core/cli/build/build.h"

namespace panel_dossier {

/// Computes a share into the store that the options name. Writes nothing else, so that shares of one project may run at
/// the same time, on one machine or on many. Gives the exit status; throws std::runtime_error when the export or the
/// plugins cannot be read, or the store cannot be used.
int run_share_of_build(const BuildOptions& options);

}  // namespace panel_dossier
