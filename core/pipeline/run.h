// Runs every plugin over every panel.
#pragma once

#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/progress.h"
#include "core/pipeline/results.h"

namespace panel_dossier {

/// Panels run in parallel on `threads` threads (0: as many as the machine has). The results do not depend on the number
/// of threads. A plugin that throws or breaks the contract costs the findings of that one call: it leaves a finding
/// `<plugin>.run` that is `not assessed`, and a message in Results::failures.
Results run_checks(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                   int threads, Progress& progress);

}  // namespace panel_dossier
