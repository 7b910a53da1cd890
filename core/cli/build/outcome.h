// What a build found, in the words of its log and as an exit status.
#pragma once

#include <spdlog/logger.h>

#include <vector>

#include "core/trace/compare.h"
#include "core/trace/open_points.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

/// Logs the failures of the environment, the open points, what changed, and last the counts.
void log_outcome(spdlog::logger& log, const ResultsDocument& document, const std::vector<OpenPoint>& points,
                 const std::vector<Comparison>& comparisons);

int status_of(const ResultsDocument& document);

}  // namespace panel_dossier
