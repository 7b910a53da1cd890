// What a build would do, said without doing it.
#pragma once

#include <string>

#include "core/cli/build/build.h"
#include "core/pipeline/plugin_host.h"

namespace panel_dossier {

/// Several lines: what was read, which checks would be computed, what the result would be compared with and what would
/// be written where. Throws std::runtime_error when the output could not be written, or the issue was made already.
std::string dry_run_text(const BuildOptions& options, const Inputs& inputs, const PluginFolder& plugins);

}  // namespace panel_dossier
